"use client";

import styles from "./board.module.css";
import { type ModeStep, stepText } from "./modeWords";

type Props = {
  readonly mode: { readonly text: string; readonly steps: readonly ModeStep[] } | null;
  readonly said: string;
  readonly take: (step: ModeStep) => void;
};

/** What is under way, with the steps that can be taken as words to press. */
export function ModeBar({ mode, said, take }: Props) {
  return (
    <div className={styles.mode} data-testid="mode">
      <output>{said || mode?.text}</output>
      {mode?.steps.map((step) => (
        <button key={step} type="button" onClick={() => take(step)}>
          {stepText(step)}
        </button>
      ))}
    </div>
  );
}
