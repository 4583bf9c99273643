import { type TryRefusal, tryRefusalText } from "../../shared/messages";
import styles from "./sum.module.css";

/** Values that wait to be judged together. */
export type Handing = {
  /** How many are entered for the quantity in focus. */
  readonly entered: number;
  /** Null for those who only look. */
  readonly handIn: (() => void) | null;
  /** Why handing in was refused last; null where it was not. */
  readonly refusal: TryRefusal | null;
};

/** Says that values are judged when they are handed in, and hands them in. */
export function HandIn({ entered, handIn, refusal }: Handing) {
  return (
    <div className={styles.handIn}>
      {handIn && entered > 0 && (
        <button type="button" onClick={handIn}>
          Hand in
        </button>
      )}
      <p role="status">{refusal ? tryRefusalText(refusal) : wordsFor(entered)}</p>
    </div>
  );
}

function wordsFor(entered: number): string {
  if (entered === 0) return "Values are judged when they are handed in.";
  return entered === 1 ? "One value is entered." : `${entered} values are entered.`;
}
