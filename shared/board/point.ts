/** A point of the drawing grid: whole numbers, x to the right, y down. */
export type Point = { readonly x: number; readonly y: number };

/** Farthest a drawing reaches from the grid's origin; beyond it an entry is malformed. */
export const GRID_LIMIT = 10_000;

/** `"3,-4"`: how a point is kept in the shared document, and the key of a point in maps. */
export function pointText(point: Point): string {
  return `${point.x},${point.y}`;
}

/** Reads what {@link pointText} writes; null for anything else, whatever its type. */
export function readPoint(text: unknown): Point | null {
  const match = typeof text === "string" ? /^(-?\d{1,5}),(-?\d{1,5})$/.exec(text) : null;
  if (!match) return null;
  const point = { x: Number(match[1]), y: Number(match[2]) };
  return isOnGrid(point) ? point : null;
}

export function isOnGrid({ x, y }: Point): boolean {
  return Number.isInteger(x) && Number.isInteger(y) && Math.abs(x) <= GRID_LIMIT && Math.abs(y) <= GRID_LIMIT;
}

export function samePoint(a: Point, b: Point): boolean {
  return a.x === b.x && a.y === b.y;
}

export function addPoints(a: Point, b: Point): Point {
  return { x: a.x + b.x, y: a.y + b.y };
}

/** Whether a and b lie on one horizontal or vertical line and are not the same point. */
export function isStraight(a: Point, b: Point): boolean {
  return (a.x === b.x) !== (a.y === b.y);
}

/** Whether p lies on the closed horizontal or vertical segment from a to b. */
export function isOnSegment(p: Point, a: Point, b: Point): boolean {
  return (
    p.x >= Math.min(a.x, b.x) &&
    p.x <= Math.max(a.x, b.x) &&
    p.y >= Math.min(a.y, b.y) &&
    p.y <= Math.max(a.y, b.y) &&
    (b.x - a.x) * (p.y - a.y) === (b.y - a.y) * (p.x - a.x)
  );
}

/** The order in which a page is read: top to bottom, then left to right. */
export function inReadingOrder(a: Point, b: Point): number {
  return a.y - b.y || a.x - b.x;
}

/** The segments of a polyline, one pair of points each. */
export function segmentsOf(points: readonly Point[]): readonly (readonly [Point, Point])[] {
  return points.slice(1).map((end, i) => [points[i] as Point, end] as const);
}
