"use client";

import { useEffect, useState } from "react";
import { flushSync } from "react-dom";
import { type Figure, type FigureLayers, FigureSvg } from "../figure";
import styles from "./board.module.css";

type Props = {
  readonly figure: Figure;
  /** Makes what lies on the drawing besides the circuit. */
  readonly layers: () => FigureLayers | null;
};

/** The drawing for the printer: sharp lines in the colours of print, in place of the canvas. Made only when asked for. */
export function PrintedFigure({ figure, layers }: Props) {
  const [isPrinting, setPrinting] = useState(false);
  useEffect(() => {
    const query = window.matchMedia("print");
    // The browser lays the page out for print right after this event, so the figure must be there when it returns.
    const onChange = () => flushSync(() => setPrinting(query.matches));
    const before = () => flushSync(() => setPrinting(true));
    const after = () => setPrinting(false);
    query.addEventListener("change", onChange);
    window.addEventListener("beforeprint", before);
    window.addEventListener("afterprint", after);
    return () => {
      query.removeEventListener("change", onChange);
      window.removeEventListener("beforeprint", before);
      window.removeEventListener("afterprint", after);
    };
  }, []);
  if (!isPrinting) return null;
  const made = layers();
  return <FigureSvg figure={figure} className={styles.printed ?? ""} {...(made ? { layers: made } : {})} />;
}
