"use client";

import { type FormEvent, type KeyboardEvent, useEffect, useId, useRef, useState } from "react";
import { NOTE_LIMIT } from "../../shared/board";
import styles from "./ink.module.css";
import { MathText } from "./MathText";

type Props = {
  /** The words to begin with, empty for new ones. */
  readonly words: string;
  readonly place: { readonly left: number; readonly top: number };
  /** Takes the words; blank ones take the note away. */
  readonly done: (words: string) => void;
  readonly cancel: () => void;
};

/** The field in which words are written, with how they will look once there is mathematics among them. */
export function NoteField({ words, place, done, cancel }: Props) {
  const [draft, setDraft] = useState(words);
  const field = useRef<HTMLTextAreaElement>(null);
  const hint = useId();
  useEffect(() => field.current?.focus(), []);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    done(draft);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    event.stopPropagation(); // the sheet's own keys rest while somebody types
    if (event.key === "Escape") cancel();
    if (event.key === "Enter" && !event.shiftKey) submit(event);
  };
  return (
    <form className={styles.field} style={place} onSubmit={submit} onPointerDown={(event) => event.stopPropagation()}>
      <textarea
        ref={field}
        aria-label="Words for the board"
        aria-describedby={hint}
        rows={Math.min(6, Math.max(2, draft.split("\n").length))}
        maxLength={NOTE_LIMIT}
        value={draft}
        onChange={(event) => setDraft(event.target.value)}
        onKeyDown={onKeyDown}
      />
      {draft.includes("$") && (
        <p className={styles.preview} data-testid="preview">
          <MathText text={draft} />
        </p>
      )}
      <p id={hint} className={styles.fieldHint}>
        Mathematics between dollar signs: $R_1 \parallel R_2$. Shift and Enter begin a new line.
      </p>
      <div className={styles.fieldRow}>
        <button type="submit">{words === "" ? "Place" : "Change"}</button>
        <button type="button" onClick={cancel}>
          Leave it
        </button>
      </div>
    </form>
  );
}
