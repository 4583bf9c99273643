"use client";

import { type Figure, FigureSvg } from "../figure";
import styles from "./room.module.css";

type Props = {
  readonly figure: Figure;
  readonly caption: string;
  /** Back to the board. */
  readonly close: () => void;
};

/** One addend's circuit redrawn, in place of the board: something to read, not to draw on. */
export function RedrawnPane({ figure, caption, close }: Props) {
  return (
    <section className={styles.redrawn} aria-label="The circuit redrawn">
      <p>
        <strong>{caption}</strong> Redrawn, with each zeroed source as what it became.
      </p>
      <FigureSvg figure={figure} className={styles.redrawnFigure ?? ""} />
      <button type="button" onClick={close}>
        Back to the board
      </button>
    </section>
  );
}
