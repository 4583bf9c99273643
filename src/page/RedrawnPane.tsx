"use client";

import { useMemo } from "react";
import { FigureSvg, type Tone } from "../figure";
import { type LitStore, useLitMarks, withLitMarks } from "../working";
import type { Redrawn } from "./redrawn";
import styles from "./room.module.css";

type Props = {
  readonly redrawn: Redrawn;
  /** What worked lines light, and in which tone. */
  readonly lit: LitStore;
  readonly tone: Tone;
  readonly caption: string;
  /** Back to the board. */
  readonly close: () => void;
};

/** One addend's circuit redrawn, in place of the board: something to read, not to draw on. */
export function RedrawnPane({ redrawn, lit, tone, caption, close }: Props) {
  const drawn = useMemo(() => ({ ...redrawn, ...redrawn.circuit }), [redrawn]);
  const marks = useLitMarks(lit, drawn, tone);
  const figure = marks ? withLitMarks(redrawn.figure, marks) : redrawn.figure;
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
