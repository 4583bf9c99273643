import { isOnSegment, type Point, samePoint, segmentsOf } from "./point";
import { searchWay } from "./searchWay";

/** A horizontal or vertical piece between two points. */
export type Segment = readonly [Point, Point];

/** What the way of a wire should keep clear of. */
export type Surroundings = {
  /** Terminals, wire ends and marks: a wire that passes over one would be joined to it. */
  readonly joins: readonly Point[];
  /** The lines of parts, which a wire would hide. */
  readonly parts: readonly Segment[];
  /** Other wires: crossing one is fine, lying along one is misread. */
  readonly wires: readonly Segment[];
};

/** Costs in grid steps of length. A touch changes the circuit, so nothing weighs against it. */
const TOUCH = 1000;
const PART_OVERLAP = 40;
const WIRE_OVERLAP = 12;
const CROSSING_A_PART = 25;
const BEND = 2;
/** How far beyond its ends a way may swing, in grid steps. */
const SWING = 4;

/**
 * A wire's way between two different points, of horizontal and vertical pieces with at most two corners: one that
 * touches least of what is around it, hides no part and is short. `favoured` is tried too, and wins where ways are
 * equally good.
 */
export function routeWire(
  from: Point,
  to: Point,
  around: Surroundings,
  favoured: readonly Point[] | null = null,
): readonly Point[] {
  const joins = around.joins.filter((point) => !samePoint(point, from) && !samePoint(point, to));
  const ways = [...(favoured ? [favoured] : []), ...waysBetween(from, to)];
  let best: { readonly way: readonly Point[]; readonly cost: number } | null = null;
  for (const way of ways) {
    const cost = costOf(way, { ...around, joins }) - (way === favoured ? 2 * BEND : 0);
    if (best === null || cost < best.cost) best = { way, cost };
  }
  // With two corners there may be no way that touches nothing; a longer search finds one where there is any nearby.
  const free = best && best.cost >= TOUCH ? searchWay(from, to, joins) : null;
  return free ?? best?.way ?? [from, to];
}

/** Straight, round one corner, or round two at a few distances. */
function waysBetween(from: Point, to: Point): readonly (readonly Point[])[] {
  const isLevel = from.y === to.y;
  const isUpright = from.x === to.x;
  const levelFirst = isLevel ? [] : middles(from.x, to.x).map((x) => [from, { x, y: from.y }, { x, y: to.y }, to]);
  const uprightFirst = isUpright ? [] : middles(from.y, to.y).map((y) => [from, { x: from.x, y }, { x: to.x, y }, to]);
  return [...(isLevel || isUpright ? [[from, to]] : []), ...levelFirst, ...uprightFirst].map(withoutIdlePoints);
}

/** Where the middle piece may lie: at either end first, then between them, then beyond. */
function middles(a: number, b: number): readonly number[] {
  const swings = Array.from({ length: SWING }, (_, i) => i + 1);
  const half = Math.round((a + b) / 2);
  return [...new Set([b, a, half, ...swings.flatMap((s) => [a - s, a + s, b - s, b + s])])];
}

function costOf(way: readonly Point[], { joins, parts, wires }: Surroundings): number {
  const pieces = segmentsOf(way);
  let cost = BEND * (pieces.length - 1);
  for (const piece of pieces) {
    cost += lengthOf(piece);
    for (const point of joins) if (isOnSegment(point, ...piece)) cost += TOUCH;
    for (const part of parts)
      cost += PART_OVERLAP * sharedLength(piece, part) + (crosses(piece, part) ? CROSSING_A_PART : 0);
    for (const wire of wires) cost += WIRE_OVERLAP * sharedLength(piece, wire);
  }
  return cost;
}

function lengthOf([a, b]: Segment): number {
  return Math.abs(a.x - b.x) + Math.abs(a.y - b.y);
}

/** The length along which two pieces lie on one another, 0 where they cross or are apart. */
function sharedLength([a, b]: Segment, [c, d]: Segment): number {
  if (a.y === b.y && c.y === d.y && a.y === c.y) return sharedRange(a.x, b.x, c.x, d.x);
  if (a.x === b.x && c.x === d.x && a.x === c.x) return sharedRange(a.y, b.y, c.y, d.y);
  return 0;
}

function sharedRange(a: number, b: number, c: number, d: number): number {
  return Math.max(0, Math.min(Math.max(a, b), Math.max(c, d)) - Math.max(Math.min(a, b), Math.min(c, d)));
}

/** Whether two pieces cross inside both of them. */
function crosses([a, b]: Segment, [c, d]: Segment): boolean {
  const isLevel = a.y === b.y;
  if (isLevel === (c.y === d.y)) return false;
  const [level, upright] = isLevel ? [[a, b] as const, [c, d] as const] : [[c, d] as const, [a, b] as const];
  return isBetween(upright[0].x, level[0].x, level[1].x) && isBetween(level[0].y, upright[0].y, upright[1].y);
}

const isBetween = (value: number, a: number, b: number) => value > Math.min(a, b) && value < Math.max(a, b);

/** A polyline without points that repeat the one before or lie on the straight way to the next. */
export function withoutIdlePoints(points: readonly Point[]): readonly Point[] {
  const kept: Point[] = [];
  for (const point of points) {
    const [before, last] = [kept.at(-2), kept.at(-1)];
    if (last && samePoint(last, point)) continue;
    if (before && last && isOnSegment(last, before, point)) kept.pop();
    kept.push(point);
  }
  return kept;
}
