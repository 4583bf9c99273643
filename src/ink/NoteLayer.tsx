"use client";

import { memo } from "react";
import type { InkNote } from "../../shared/board";
import { useSettled, type Viewport } from "../board";
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
  const isStill = useSettled(`${view.x} ${view.y} ${view.scale}`);
  if (notes.length === 0) return null;
  // All notes go along as one. While they do, the browser moves and stretches a picture of them; it sets them anew,
  // sharply, once they are still.
  const style = {
    transform: `translate(${view.x}px, ${view.y}px) scale(${view.scale})`,
    willChange: isStill ? "auto" : "transform",
  };
  return (
    <ul className={styles.notes} aria-label="Words on the board" style={style}>
      {notes.map((note) => (
        <Note key={note.id} note={note} paper={paper} edit={edit} />
      ))}
    </ul>
  );
}

const Note = memo(function Note({ note, paper, edit }: { readonly note: InkNote } & Pick<Props, "paper" | "edit">) {
  const { x, y } = pixelSpot(note.at);
  return (
    <li data-mark={note.id} style={{ transform: `translate(${x}px, ${y}px)`, color: inkShade(note.colour, paper) }}>
      <MathText text={note.text} />
      {edit && (
        <button type="button" className={styles.change} onClick={() => edit(note)}>
          Change these words
        </button>
      )}
    </li>
  );
});
