"use client";

import type { ZeroingTry } from "../../shared/messages";
import { type TryRefusal, tryRefusalText } from "../../shared/messages";
import type { HelpActs } from "../sum";
import { Mark } from "../sum/Mark";
import styles from "./steps.module.css";
import { zeroingSaid } from "./zeroingWords";

export type ZeroingBarProps = {
  readonly title: string;
  readonly last: ZeroingTry | null;
  /** Whether the drawing shows just what was checked last. */
  readonly isChecked: boolean;
  readonly refusal: TryRefusal | null;
  /** Null for those who only look. */
  readonly check: (() => void) | null;
  readonly help: HelpActs | null;
};

/** At the foot of the drawing: has checked what the sources have become, and says what came of it. */
export default function ZeroingBar({ title, last, isChecked, refusal, check, help }: ZeroingBarProps) {
  const said = last && isChecked ? zeroingSaid(last) : null;
  return (
    <section className={styles.bar} aria-label={`Zeroing for ${title}`}>
      {check && (
        <button type="button" className={styles.check} onClick={check}>
          Check
        </button>
      )}
      <p aria-live="polite">
        {refusal ? (
          tryRefusalText(refusal)
        ) : said ? (
          <>
            <Mark mark={said.mark} /> {said.text}
          </>
        ) : check ? (
          "Press a source to choose what it becomes."
        ) : (
          "The sources are still to be zeroed."
        )}
      </p>
      {said?.mark === "wrong" && help && (
        <button type="button" className={styles.word} onClick={help.open}>
          {last?.help?.rungs.length ? "Read the help" : "Ask for help"}
        </button>
      )}
    </section>
  );
}
