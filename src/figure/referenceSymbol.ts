import type { Point } from "../../shared/board";
import { type Stroke, stroke } from "./figure";
import { line, spotOf } from "./frame";

/** The reference symbol: a short lead to three bars that grow shorter. */
export function referenceSymbol(at: Point): readonly Stroke[] {
  const { x, y } = spotOf(at);
  const bars = [15, 9.5, 4].map((half, i) =>
    line({ x: x - half, y: y + 17 + i * 6 }, { x: x + half, y: y + 17 + i * 6 }),
  );
  return [stroke(line({ x, y }, { x, y: y + 17 }) + bars.join(""))];
}
