import { isStraight, type Point, samePoint } from "../../shared/board";

/** Along which axis a bent line leaves its start; null until it has left. */
export type Axis = "level" | "upright" | null;

/** The line between two points: straight, or with one corner where they are neither level nor upright to each other. */
export function stretchPath({
  from,
  to,
  axis,
}: {
  readonly from: Point;
  readonly to: Point;
  readonly axis: Axis;
}): readonly Point[] {
  if (samePoint(from, to)) return [from];
  if (isStraight(from, to)) return [from, to];
  return [from, axis === "upright" ? { x: from.x, y: to.y } : { x: to.x, y: from.y }, to];
}

/** The axis of a line that has left along `axis`, or, where it has just left or come back, along which it leaves. */
export function axisTo(from: Point, to: Point, axis: Axis): Axis {
  if (samePoint(from, to)) return null;
  if (axis !== null) return axis;
  return Math.abs(to.x - from.x) >= Math.abs(to.y - from.y) ? "level" : "upright";
}

export function flipAxis(axis: Axis): Axis {
  return axis === "upright" ? "level" : "upright";
}
