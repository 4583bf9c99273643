import type { ComponentProps } from "react";
import { ENTRY_LIMIT } from "../../shared/check/characters";
import styles from "./entry.module.css";

/** The field for what is to be judged: Enter sends it, and what is typed is neither completed nor corrected. */
export function EntryInput(props: ComponentProps<"input">) {
  return (
    <input
      className={styles.entry}
      maxLength={ENTRY_LIMIT}
      enterKeyHint="send"
      autoComplete="off"
      autoCapitalize="none"
      autoCorrect="off"
      spellCheck={false}
      {...props}
    />
  );
}
