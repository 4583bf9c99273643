import { useId } from "react";
import type { HiddenWanted } from "../../shared/messages";
import styles from "./sum.module.css";

type Props = {
  readonly wanted: readonly HiddenWanted[];
  readonly focus: number;
  readonly setFocus: (index: number) => void;
};

/** Which of the wanted quantities the sum is about. */
export function FocusChoice({ wanted, focus, setFocus }: Props) {
  const id = useId();
  return (
    <div className={styles.focus}>
      <label htmlFor={id}>Wanted</label>
      <select id={id} value={focus} onChange={(event) => setFocus(Number(event.target.value))}>
        {wanted.map((each, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: two quantities may share a name, and their order is their identity
          <option key={i} value={i}>
            {each.name}
          </option>
        ))}
      </select>
    </div>
  );
}
