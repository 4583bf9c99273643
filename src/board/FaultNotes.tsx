"use client";

import type { EntryId } from "../../shared/board";
import type { Box, Figure } from "../figure";
import type { ShownProblem } from "../words";
import styles from "./board.module.css";
import { layOutNotes } from "./noteLayout";
import type { Size, Viewport } from "./viewport";

type Props = {
  readonly faults: readonly ShownProblem[];
  readonly boxOf: (id: EntryId) => Box | readonly never[];
  readonly figure: Figure;
  readonly view: Viewport;
  readonly size: Size;
};

/** What is wrong, beside the first symbol that each fault is about. Read aloud from the list instead. */
export function FaultNotes({ faults, boxOf, figure, view, size }: Props) {
  if (faults.length === 0) return null;
  const requests = faults.map(({ key, text, entries }) => ({ key, text, at: entries.flatMap(boxOf)[0] ?? null }));
  return layOutNotes(requests, figure, view, size).map((note) => (
    <p key={note.key} className={styles.note} style={{ left: note.left, top: note.top }} aria-hidden="true">
      {note.text}
    </p>
  ));
}
