import type { ZeroingDecision } from "../../shared/check/judgeZeroing";
import styles from "./steps.module.css";

export const DECISION_WORDS: Readonly<Record<ZeroingDecision, string>> = {
  kept: "kept",
  short: "a short",
  open: "an open",
};

/** A small drawing of what a source becomes: a circle in its line, a plain line, a line with a gap. */
export function DecisionSign({ decision }: { readonly decision: ZeroingDecision }) {
  return (
    <svg className={styles.sign} viewBox="0 0 34 16" aria-hidden="true" focusable="false">
      <path d={SIGNS[decision]} />
    </svg>
  );
}

const SIGNS: Readonly<Record<ZeroingDecision, string>> = {
  kept: "M1 8 H11 M23 8 H33 M17 2 A6 6 0 1 1 16.99 2 Z",
  short: "M1 8 H33",
  open: "M1 8 H9 M25 8 H33 M11.5 5.5 A2.5 2.5 0 1 1 11.49 5.5 Z M22.5 5.5 A2.5 2.5 0 1 1 22.49 5.5 Z",
};
