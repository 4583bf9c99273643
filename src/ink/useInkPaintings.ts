"use client";

import { useMemo } from "react";
import type { InkMark } from "../../shared/board";
import { type InkPaintings, type Painting, seenBox } from "../board";
import type { Paper } from "./inkColours";
import { layersOf } from "./inkDrawing";
import { type Drawings, paintInk } from "./paintInk";

/** What ink lies on the board's canvas: highlighter beneath the circuit, all other lines above it. */
export function useInkPaintings(marks: readonly InkMark[], paper: Paper): InkPaintings {
  const drawings = useMemo((): Drawings => new WeakMap(), []);
  return useMemo(() => {
    const { beneath, above } = layersOf(marks);
    const painting =
      (of: readonly InkMark[]): Painting =>
      (context) => {
        context.save();
        paintInk(context, of, seenBox(context), paper, drawings);
        context.restore();
      };
    return { beneath: painting(beneath), above: painting(above) };
  }, [marks, paper, drawings]);
}
