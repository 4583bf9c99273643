import { type Box, GRID } from "../figure";

/** The room for what may be drawn next, in pixels of the drawing: the view then changes seldom while a circuit grows. */
const ROOM = 4 * GRID;
/** What reaches no farther out, such as the words beside a source, gets just the room that it needs. */
const WORDS = 3 * GRID;

/** A box around both, wider only on the sides where it has to be: the same object where it is wide enough already. */
export function roomyBox(before: Box, extent: Box): Box {
  const left = -farther(-before.x, -extent.x);
  const top = -farther(-before.y, -extent.y);
  const right = farther(before.x + before.width, extent.x + extent.width);
  const bottom = farther(before.y + before.height, extent.y + extent.height);
  const box = { x: left, y: top, width: right - left, height: bottom - top };
  const isSame = left === before.x && top === before.y && box.width === before.width && box.height === before.height;
  return isSame ? before : box;
}

/** Where a side comes to lie that has to reach as far as `needed`. */
function farther(side: number, needed: number): number {
  if (needed <= side) return side;
  return needed - side <= WORDS ? needed : Math.ceil(needed / ROOM) * ROOM;
}
