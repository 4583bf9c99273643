import { type Point, pointText, samePoint } from "./point";

/** How far around its two ends a way is searched, in grid steps, and the largest such field that is. */
const MARGIN = 14;
const FIELD_LIMIT = 40_000;
const BEND = 2;

const STEPS: readonly Point[] = [
  { x: 1, y: 0 },
  { x: 0, y: 1 },
  { x: -1, y: 0 },
  { x: 0, y: -1 },
];

/** A place that the search has reached, by which step, at what cost. */
type Reached = { readonly at: Point; readonly step: number; readonly cost: number; readonly before: Reached | null };

/**
 * The shortest way along the grid between two points that passes over none of `joins`, a bend counting as two steps;
 * null where there is none nearby. Dijkstra's algorithm, with costs as whole numbers in buckets.
 */
export function searchWay(from: Point, to: Point, joins: readonly Point[]): readonly Point[] | null {
  const [left, right] = [Math.min(from.x, to.x) - MARGIN, Math.max(from.x, to.x) + MARGIN];
  const [top, bottom] = [Math.min(from.y, to.y) - MARGIN, Math.max(from.y, to.y) + MARGIN];
  if ((right - left) * (bottom - top) > FIELD_LIMIT) return null;
  const isBlocked = (point: Point) => point.x < left || point.x > right || point.y < top || point.y > bottom;
  const done = new Set<string>();
  const barred = new Set(joins.map(pointText));
  const buckets: Reached[][] = [[{ at: from, step: -1, cost: 0, before: null }]];
  for (let cost = 0; cost < buckets.length; cost += 1) {
    for (const reached of buckets[cost] ?? []) {
      const key = `${pointText(reached.at)} ${reached.step}`;
      if (done.has(key)) continue;
      done.add(key);
      if (samePoint(reached.at, to)) return cornersOf(reached);
      for (const next of stepsFrom(reached)) {
        if (isBlocked(next.at) || barred.has(pointText(next.at))) continue;
        const bucket = buckets[next.cost] ?? [];
        buckets[next.cost] = bucket;
        bucket.push(next);
      }
    }
  }
  return null;
}

/** Onward and to both sides, never back. */
function stepsFrom(reached: Reached): readonly Reached[] {
  return STEPS.flatMap((by, step) => {
    const isBack = reached.step >= 0 && (step + 2) % 4 === reached.step;
    if (isBack) return [];
    const cost = reached.cost + 1 + (reached.step >= 0 && step !== reached.step ? BEND : 0);
    return [{ at: { x: reached.at.x + by.x, y: reached.at.y + by.y }, step, cost, before: reached }];
  });
}

/** The ends and corners of the way that led to a place. */
function cornersOf(last: Reached): readonly Point[] {
  const corners: Point[] = [last.at];
  for (let here: Reached | null = last; here?.before; here = here.before) {
    const isCorner = here.before.before === null || here.before.step !== here.step;
    if (isCorner) corners.push(here.before.at);
  }
  return corners.reverse();
}
