"use client";

import type { InkNote } from "../../shared/board";
import { toScreen, type Viewport } from "../board";
import styles from "./ink.module.css";
import { inkShade, type Paper } from "./inkColours";
import { pixelSpot } from "./inkPath";
import { MathText } from "./MathText";

type Props = {
  readonly notes: readonly InkNote[];
  readonly view: Viewport;
  readonly paper: Paper;
  /** Given a note to change, while the tool is one that changes notes. */
  readonly edit: ((note: InkNote) => void) | null;
};

/** The words on the board, as text over the drawing: they can be read aloud, mathematics included. */
export function NoteLayer({ notes, view, paper, edit }: Props) {
  if (notes.length === 0) return null;
  return (
    <ul className={styles.notes} aria-label="Words on the board">
      {notes.map((note) => (
        <li key={note.id} data-mark={note.id} style={noteStyle(note, view, paper)}>
          <MathText text={note.text} />
          {edit && (
            <button type="button" className={styles.change} onClick={() => edit(note)}>
              Change these words
            </button>
          )}
        </li>
      ))}
    </ul>
  );
}

function noteStyle(note: InkNote, view: Viewport, paper: Paper) {
  const { x, y } = toScreen(view, pixelSpot(note.at));
  return { transform: `translate(${x}px, ${y}px) scale(${view.scale})`, color: inkShade(note.colour, paper) };
}
