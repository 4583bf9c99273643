import type { BlockPart, BoardPart, Turn } from "./board";
import { addPoints, type Point } from "./point";

/** Where the terminals of a block lie around its `at` when it is neither turned nor flipped, in the circuit's order. */
const BLOCK_TERMINALS: Readonly<Record<BlockPart["kind"], readonly Point[]>> = {
  // in+, in−, out
  "ideal-opamp": [
    { x: -2, y: 1 },
    { x: -2, y: -1 },
    { x: 2, y: 0 },
  ],
  // primary +, primary −, secondary +, secondary −
  "ideal-transformer": [
    { x: -2, y: -1 },
    { x: -2, y: 1 },
    { x: 2, y: -1 },
    { x: 2, y: 1 },
  ],
};

/** Flips a vector top to bottom, then turns it clockwise (y points down). Works on fractions of a grid step too. */
export function placeVector({ x, y }: Point, turn: Turn, flip: boolean): Point {
  const v = flip ? { x, y: -y } : { x, y };
  switch (turn) {
    case 0:
      return v;
    case 90:
      return { x: -v.y, y: v.x };
    case 180:
      return { x: -v.x, y: -v.y };
    case 270:
      return { x: v.y, y: -v.x };
  }
}

/** The grid points of a part's terminals, in the order of `terminalsOf` in shared/circuit. */
export function terminalPoints(part: BoardPart): readonly Point[] {
  if (part.shape === "line") return [part.from, part.to];
  return BLOCK_TERMINALS[part.kind].map((offset) => addPoints(part.at, placeVector(offset, part.turn, part.flip)));
}
