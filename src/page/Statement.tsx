"use client";

import { useState } from "react";
import type { Board, Command } from "../../shared/board";
import styles from "./room.module.css";

type Props = {
  readonly board: Board;
  readonly command: (command: Command) => void;
  readonly mayChange: boolean;
};

/** The problem as it is put to people, and the way to write it. */
export function Statement({ board, command, mayChange }: Props) {
  const [draft, setDraft] = useState<{ readonly title: string; readonly statement: string } | null>(null);
  if (draft) {
    return (
      <form
        className={styles.statement}
        onSubmit={(event) => {
          event.preventDefault();
          command({ do: "setPage", ...draft });
          setDraft(null);
        }}
      >
        <label>
          Title
          <input value={draft.title} onChange={(event) => setDraft({ ...draft, title: event.target.value })} />
        </label>
        <label>
          Problem
          <textarea
            rows={5}
            value={draft.statement}
            onChange={(event) => setDraft({ ...draft, statement: event.target.value })}
          />
        </label>
        <div className={styles.row}>
          <button type="submit">Save</button>
          <button type="button" onClick={() => setDraft(null)}>
            Leave it as it was
          </button>
        </div>
      </form>
    );
  }
  const isBlank = board.title === "" && board.statement === "";
  return (
    <section className={styles.statement} aria-label="The problem">
      {board.title && <h2>{board.title}</h2>}
      {board.statement && <p>{board.statement}</p>}
      {mayChange && (
        <button type="button" onClick={() => setDraft({ title: board.title, statement: board.statement })}>
          {isBlank ? "Write the problem" : "Change the wording"}
        </button>
      )}
    </section>
  );
}
