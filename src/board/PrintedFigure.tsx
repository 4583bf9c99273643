"use client";

import { useEffect, useState } from "react";
import { flushSync } from "react-dom";
import { type Figure, FigureSvg } from "../figure";
import styles from "./board.module.css";

/** The drawing for the printer: sharp lines in the colours of print, in place of the canvas. Made only when asked for. */
export function PrintedFigure({ figure }: { readonly figure: Figure }) {
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
  return isPrinting ? <FigureSvg figure={figure} className={styles.printed ?? ""} /> : null;
}
