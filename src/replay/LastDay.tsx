import { useId } from "react";
import { inDays } from "./days";
import styles from "./sharing.module.css";

type Props = {
  /** As a date field has it. */
  readonly day: string;
  readonly setDay: (day: string) => void;
};

/** The day until whose end something is kept or works: from today on. */
export function LastDay({ day, setDay }: Props) {
  const field = useId();
  return (
    <p className={styles.dayRow}>
      <label htmlFor={field}>Last day</label>
      <input
        id={field}
        type="date"
        value={day}
        min={inDays(Date.now(), 0)}
        onChange={(event) => setDay(event.target.value)}
      />
    </p>
  );
}
