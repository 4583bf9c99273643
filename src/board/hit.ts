import {
  type Board,
  type EntryId,
  endsOf,
  isOnWire,
  type Point,
  samePoint,
  segmentsOf,
  terminalPoints,
} from "../../shared/board";
import { type Box, type Figure, growBox, isInside, type Spot, spotOf } from "../figure";

/**
 * The entry of the board under a spot of the drawing: a symbol's body first, then a wire or lead within `reach` pixels.
 * Null in the open.
 */
export function entryAt(board: Board, figure: Figure, spot: Spot, reach: number): EntryId | null {
  return bodyAt(figure, spot, reach) ?? lineAt(board, spot, reach);
}

/** How near, in pixels of the screen, a pointer or a finger must come to a line to mean it. */
export const REACH = 9;
export const TOUCH_REACH = 16;

/** The entry whose body lies under a spot, the nearest middle where several do; else the one whose label does. */
export function bodyAt(figure: Figure, spot: Spot, reach: number): EntryId | null {
  const hits = [...figure.bodies].filter(([, box]) => isInside(spot, growBox(box, reach / 2)));
  hits.sort(([, a], [, b]) => distance(middleOf(a), spot) - distance(middleOf(b), spot));
  return hits[0]?.[0] ?? figure.labels.find(({ box, entry }) => entry && isInside(spot, box))?.entry ?? null;
}

/** Whether a grid point conducts: a terminal, a wire's end, or anywhere on a wire. */
export function isJoinAt(board: Board, at: Point): boolean {
  return (
    board.parts.some((part) => terminalPoints(part).some((point) => samePoint(point, at))) ||
    board.wires.some((wire) => isOnWire(at, wire.points) || endsOf(wire.points).some((end) => samePoint(end, at)))
  );
}

function lineAt(board: Board, spot: Spot, reach: number): EntryId | null {
  const lines = [
    ...board.wires.flatMap((wire) => segmentsOf(wire.points).map(([a, b]) => ({ id: wire.id, a, b }))),
    ...board.parts.flatMap((part) => (part.shape === "line" ? [{ id: part.id, a: part.from, b: part.to }] : [])),
  ].map(({ id, a, b }) => ({ id, away: distanceToSegment(spot, spotOf(a), spotOf(b)) }));
  lines.sort((a, b) => a.away - b.away);
  return lines[0] && lines[0].away <= reach ? lines[0].id : null;
}

export function middleOf(box: Box): Spot {
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

function distance(a: Spot, b: Spot): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

function distanceToSegment(spot: Spot, a: Spot, b: Spot): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const along = ((spot.x - a.x) * dx + (spot.y - a.y) * dy) / (dx * dx + dy * dy);
  const share = Math.min(Math.max(along, 0), 1);
  return distance(spot, { x: a.x + share * dx, y: a.y + share * dy });
}
