"use client";

import { type KeyboardEvent, useEffect, useId, useRef, useState } from "react";
import type { Spot } from "../figure";
import styles from "./board.module.css";
import { fieldPlace } from "./fieldPlace";
import type { Size } from "./viewport";

type Props = {
  readonly label: string;
  readonly text: string;
  /** Where on the pane the middle of that is which it changes. */
  readonly at: Spot;
  readonly size: Size;
  /** What to type, in words. */
  readonly hint: string;
  /** Why a text cannot stand, null where it can. */
  readonly fault: (text: string) => string | null;
  readonly save: (text: string) => void;
  readonly cancel: () => void;
  /** Gives the keyboard back to the board. */
  readonly leave: () => void;
};

/** A field on the drawing, where what it changes stands. Saves on Enter and when it is left, gives up on Escape. */
export function PlaceField({ label, text, at, size, hint, fault, save, cancel, leave }: Props) {
  const [typed, setTyped] = useState(text);
  const field = useRef<HTMLInputElement>(null);
  const note = useId();
  useEffect(() => field.current?.select(), []);
  const problem = typed === text ? null : fault(typed.trim());
  const finish = () => {
    if (problem !== null) return cancel();
    save(typed.trim());
  };
  const onKeyDown = (event: KeyboardEvent) => {
    event.stopPropagation(); // the board's own keys rest while somebody types
    if (event.key !== "Escape") return;
    cancel();
    leave();
  };
  return (
    <form
      className={styles.stretch}
      style={fieldPlace(at, 14, size)}
      onPointerDown={(event) => event.stopPropagation()}
      onSubmit={(event) => {
        event.preventDefault();
        if (problem !== null) return;
        finish();
        leave();
      }}
    >
      <input
        ref={field}
        className={styles.stretchInput}
        aria-label={label}
        aria-describedby={note}
        aria-invalid={problem !== null}
        autoComplete="off"
        spellCheck={false}
        value={typed}
        onChange={(event) => setTyped(event.target.value)}
        onKeyDown={onKeyDown}
        onBlur={(event) => {
          if (!event.currentTarget.form?.contains(event.relatedTarget)) finish();
        }}
      />
      <button className={styles.stretchDone} type="submit">
        Save
      </button>
      <output id={note} className={problem ? styles.stretchFault : styles.stretchNote}>
        {problem ?? hint}
      </output>
    </form>
  );
}
