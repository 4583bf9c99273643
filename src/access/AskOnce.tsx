"use client";

import { useState } from "react";
import { sheetStyles as styles } from "../paper";

type Props = {
  readonly word: string;
  /** The full name of the act, where the word alone does not say what it is about. */
  readonly label?: string;
  readonly question: string;
  /** What the button says that does it. */
  readonly yes: string;
  readonly act: () => void;
};

/** An act that is asked about once before it is done. */
export function AskOnce({ word, label, question, yes, act }: Props) {
  const [isAsked, setAsked] = useState(false);
  if (!isAsked) {
    return (
      <button type="button" className={styles.danger} aria-label={label ?? word} onClick={() => setAsked(true)}>
        {word}
      </button>
    );
  }
  return (
    <div className={styles.asking} role="alert">
      <p>{question}</p>
      <div className={styles.row}>
        <button
          type="button"
          className={styles.danger}
          onClick={() => {
            act();
            setAsked(false);
          }}
        >
          {yes}
        </button>
        <button type="button" onClick={() => setAsked(false)}>
          No, leave it
        </button>
      </div>
    </div>
  );
}
