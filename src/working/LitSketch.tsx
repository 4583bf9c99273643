"use client";

import { FigureSvg, type Tone } from "../figure";
import { useLitMarks } from "./LitLayer";
import { type Drawn, withLitMarks } from "./litMarks";
import type { LitStore } from "./litStore";
import styles from "./working.module.css";

type Props = { readonly lit: LitStore; readonly drawn: Drawn; readonly tone: Tone };

/** The open circuit with what is lit in it, small, where the page is too narrow to show the board beside what is read. */
export function LitSketch({ lit, drawn, tone }: Props) {
  const marks = useLitMarks(lit, drawn, tone);
  const figure = marks ? withLitMarks(drawn.figure, marks) : drawn.figure;
  return <FigureSvg figure={figure} weight={1.6} className={styles.litSketch ?? ""} />;
}
