import type { Board } from "./board";
import { endsOf } from "./joins";
import { WireIndex } from "./lineIndex";
import { type Point, pointText, samePoint } from "./point";
import { terminalPoints } from "./terminals";

/**
 * The points where three or more conducting arms meet, to be drawn with a dot. A wire's end, a terminal and a reference
 * symbol are one arm each, a wire that passes is two; wires that only cross meet nowhere and get none.
 */
export function joinDots(board: Board): readonly Point[] {
  const wires = board.wires.map((wire) => wire.points);
  const singles = [
    ...wires.flatMap(endsOf),
    ...board.parts.flatMap(terminalPoints),
    ...board.references.map((symbol) => symbol.at),
  ];
  const index = new WireIndex(wires);
  const passing = (at: Point) => index.at(at).filter((i) => !isEnd(wires[i] ?? [], at)).length;
  const arms = new Map<string, { readonly at: Point; count: number }>();
  for (const at of singles) {
    const entry = arms.get(pointText(at));
    if (entry) entry.count += 1;
    else arms.set(pointText(at), { at, count: 1 + 2 * passing(at) });
  }
  return [...arms.values()].filter(({ count }) => count >= 3).map(({ at }) => at);
}

function isEnd(wire: readonly Point[], point: Point): boolean {
  return endsOf(wire).some((end) => samePoint(end, point));
}
