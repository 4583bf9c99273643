"use client";

import { type ReactNode, useState } from "react";
import styles from "./replay.module.css";

export type NotesPage = { readonly word: string; readonly content: () => ReactNode };

/** The column beside the board: one of some pages, chosen by its word. */
export function NotesColumn({ pages }: { readonly pages: readonly NotesPage[] }) {
  const [open, setOpen] = useState(pages[0]?.word);
  const page = pages.find(({ word }) => word === open) ?? pages[0];
  return (
    <aside className={styles.notes} aria-label="Notes">
      <fieldset className={styles.pages}>
        <legend className={styles.unseen}>Beside the board</legend>
        {pages.map(({ word }) => (
          <button key={word} type="button" aria-pressed={word === page?.word} onClick={() => setOpen(word)}>
            {word}
          </button>
        ))}
      </fieldset>
      {page?.content()}
    </aside>
  );
}
