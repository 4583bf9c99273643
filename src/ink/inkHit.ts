import { distanceToSegment, type InkMark, type InkSpot } from "../../shared/board";
import { GRID } from "../figure";
import { lineOf, widthOf } from "./inkPath";

/**
 * The line mark under a spot of the board, within `reach` pixels of the drawing; of several the one that was made last.
 * Notes are found by the page, which alone knows their size.
 */
export function markAt(marks: readonly InkMark[], spot: InkSpot, reach: number): InkMark | null {
  return marks.findLast((mark) => distanceTo(mark, spot) * GRID <= reach + widthOf(mark) / 2) ?? null;
}

/** How far a spot is from a mark's line, in grid steps; infinite for a note. */
function distanceTo(mark: InkMark, spot: InkSpot): number {
  const line = lineOf(mark);
  return line.reduce(
    (least, to, i) => Math.min(least, distanceToSegment(spot, line[Math.max(0, i - 1)] as InkSpot, to)),
    Number.POSITIVE_INFINITY,
  );
}
