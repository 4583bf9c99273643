import { type TryRefusal, tryRefusalText } from "../../shared/messages";
import styles from "./sum.module.css";

/** Values that wait to be judged together. */
export type Handing = {
  /** How many are entered for the quantity in focus. */
  readonly entered: number;
  /** How many lines of people's own are, about any card. */
  readonly lines: number;
  /** Null for those who only look. */
  readonly handIn: (() => void) | null;
  /** Why handing in was refused last; null where it was not. */
  readonly refusal: TryRefusal | null;
};

/** Says that values are judged when they are handed in, and hands them in. */
export function HandIn({ entered, lines, handIn, refusal }: Handing) {
  return (
    <div className={styles.handIn}>
      {handIn && entered + lines > 0 && (
        <button type="button" className={styles.handInAct} onClick={handIn}>
          Hand in
        </button>
      )}
      <p role="status">{refusal ? tryRefusalText(refusal) : wordsFor(entered, lines)}</p>
    </div>
  );
}

function wordsFor(entered: number, lines: number): string {
  if (entered + lines === 0) return "Values are judged when they are handed in.";
  const parts = [...counted(entered, "value"), ...counted(lines, "line")];
  const text = parts.join(" and ");
  return `${text.charAt(0).toUpperCase()}${text.slice(1)} ${entered + lines === 1 ? "is" : "are"} entered.`;
}

function counted(count: number, word: string): readonly string[] {
  if (count === 0) return [];
  return [count === 1 ? `one ${word}` : `${count} ${word}s`];
}
