import type { InkMark } from "../../shared/board";
import type { Box } from "../figure";
import { HIGHLIGHTER_OPACITY, inkShade, type Paper } from "./inkColours";
import { markBox, markPath, widthOf } from "./inkPath";

/** A mark's drawing, kept for as long as the mark is: making a path costs far more than painting it again. */
type Drawing = { readonly path: Path2D; readonly box: Box };
export type Drawings = WeakMap<InkMark, Drawing>;

/** Paints the lines of marks that can be seen in a part of the drawing, on a canvas in the drawing's own pixels. */
export function paintInk(
  context: CanvasRenderingContext2D,
  marks: readonly InkMark[],
  seen: Box,
  paper: Paper,
  drawings: Drawings,
): void {
  context.lineCap = "round";
  context.lineJoin = "round";
  context.setLineDash([]);
  for (const mark of marks) {
    const { path, box } = drawingOf(mark, drawings);
    if (!meet(box, seen)) continue;
    context.globalAlpha = mark.kind === "highlighter" ? HIGHLIGHTER_OPACITY : 1;
    context.strokeStyle = inkShade(mark.colour, paper);
    context.lineWidth = widthOf(mark);
    context.stroke(path);
  }
  context.globalAlpha = 1;
}

function drawingOf(mark: InkMark, drawings: Drawings): Drawing {
  const known = drawings.get(mark);
  if (known) return known;
  const drawing = { path: new Path2D(markPath(mark)), box: markBox(mark) };
  drawings.set(mark, drawing);
  return drawing;
}

function meet(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}
