"use client";

import { useId, useState } from "react";
import styles from "./slip.module.css";

type Props = {
  readonly label: string;
  readonly value: string;
  /** Why the text cannot stand, null where it can. */
  readonly fault: (text: string) => string | null;
  readonly save: (text: string) => void;
  readonly isFirst?: boolean;
};

/** A field that saves on Enter and when it is left, and takes over what others save meanwhile. */
export function TextField({ label, value, fault, save, isFirst = false }: Props) {
  const [text, setText] = useState(value);
  const [seen, setSeen] = useState(value);
  const id = useId();
  const note = `${id}-note`;
  if (value !== seen) {
    setSeen(value);
    setText(value);
  }
  const problem = text === value ? null : fault(text);
  const commit = () => {
    if (text !== value && problem === null) save(text);
  };
  return (
    <div className={styles.field}>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        value={text}
        autoComplete="off"
        spellCheck={false}
        // biome-ignore lint/a11y/noAutofocus: the slip opens because somebody chose this part to change it
        autoFocus={isFirst}
        aria-invalid={problem !== null}
        aria-describedby={problem ? note : undefined}
        onChange={(event) => setText(event.target.value)}
        onBlur={commit}
        onKeyDown={(event) => {
          if (event.key === "Enter") commit();
          if (event.key !== "Escape" || text === value) return;
          // Takes back what was typed; without that, the key is the slip's, and closes it.
          event.preventDefault();
          setText(value);
        }}
      />
      {problem && (
        <output id={note} className={styles.fault}>
          {problem}
        </output>
      )}
    </div>
  );
}
