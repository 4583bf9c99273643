import type { Drawing, Point } from "../circuit";

/** What makes a drawing harder to read. Lengths in grid steps. */
export type Measure = {
  /** Points where wires cross without joining. */
  readonly crossings: number;
  readonly bends: number;
  readonly wireLength: number;
  readonly width: number;
  readonly height: number;
};

type Stretch = { readonly line: number; readonly low: number; readonly high: number };

export function measureOf({ wires, placements }: Drawing): Measure {
  const level: Stretch[] = [];
  const upright: Stretch[] = [];
  const points: Point[] = placements.flatMap((each) => (each.shape === "line" ? [each.from, each.to] : [each.at]));
  let [bends, wireLength] = [0, 0];
  for (const wire of wires) {
    bends += wire.length - 2;
    points.push(...wire);
    wire.slice(1).forEach(([x2, y2], i) => {
      const [x1, y1] = wire[i] as Point;
      wireLength += Math.abs(x2 - x1) + Math.abs(y2 - y1);
      if (y1 === y2) level.push({ line: y1, low: Math.min(x1, x2), high: Math.max(x1, x2) });
      else upright.push({ line: x1, low: Math.min(y1, y2), high: Math.max(y1, y2) });
    });
  }
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const spread = (values: readonly number[]) => (values.length === 0 ? 0 : greatest(values) - least(values));
  return { crossings: crossingsOf(level, upright), bends, wireLength, width: spread(xs), height: spread(ys) };
}

const greatest = (values: readonly number[]) => values.reduce((a, b) => Math.max(a, b));
const least = (values: readonly number[]) => values.reduce((a, b) => Math.min(a, b));

function crossingsOf(level: readonly Stretch[], upright: readonly Stretch[]): number {
  let count = 0;
  for (const a of level) {
    for (const b of upright) {
      if (a.low < b.line && b.line < a.high && b.low < a.line && a.line < b.high) count += 1;
    }
  }
  return count;
}
