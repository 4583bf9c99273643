"use client";

import { type FormEvent, useId, useState } from "react";
import { REASON_LENGTH } from "../../shared/messages";
import styles from "./help.module.css";

/** Asks for the reason, in one line, once the last rung has been read. */
export function ReasonForm({ give }: { readonly give: (text: string) => void }) {
  const id = useId();
  const [text, setText] = useState("");
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (text.trim() !== "") give(text.trim());
  };
  return (
    <form className={styles.reason} onSubmit={submit}>
      <label htmlFor={id}>In one line: why was it so?</label>
      <input
        id={id}
        className={styles.line}
        value={text}
        maxLength={REASON_LENGTH}
        autoComplete="off"
        enterKeyHint="send"
        aria-describedby={`${id}-to`}
        onChange={(event) => setText(event.target.value)}
      />
      <button type="submit" className={styles.act} aria-disabled={text.trim() === ""}>
        Give the reason
      </button>
      <p id={`${id}-to`} className={styles.soft}>
        Only the instructor reads it.
      </p>
    </form>
  );
}
