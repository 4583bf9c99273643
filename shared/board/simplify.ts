import { type InkSpot, STROKE_LIMIT } from "./inkSpot";

/**
 * The spots of a drawn line that it needs to stay within `tolerance` (in grid steps) of where it was drawn; its ends
 * are always among them. Source: Douglas and Peucker, Cartographica 10(2), 1973, from memory; with a stack in place of
 * recursion, since a long scribble can split very unevenly.
 */
export function simplifySpots(spots: readonly InkSpot[], tolerance: number): readonly InkSpot[] {
  if (spots.length < 3) return spots;
  const isKept = new Uint8Array(spots.length);
  isKept[0] = 1;
  isKept[spots.length - 1] = 1;
  const open: [first: number, last: number][] = [[0, spots.length - 1]];
  for (let run = open.pop(); run; run = open.pop()) {
    const [first, last] = run;
    const { index, distance } = farthest(spots, first, last);
    if (distance <= tolerance) continue;
    isKept[index] = 1;
    open.push([first, index], [index, last]);
  }
  return spots.filter((_, i) => isKept[i] === 1);
}

/** The spot between two others of the line that lies farthest from the segment between those. */
function farthest(spots: readonly InkSpot[], first: number, last: number) {
  const [a, b] = [spots[first] as InkSpot, spots[last] as InkSpot];
  let [index, distance] = [first, -1];
  for (let i = first + 1; i < last; i += 1) {
    const away = distanceToSegment(spots[i] as InkSpot, a, b);
    if (away > distance) [index, distance] = [i, away];
  }
  return { index, distance };
}

/** How far a spot lies from the segment between two others; from the spot they share where they are one. */
export function distanceToSegment(spot: InkSpot, a: InkSpot, b: InkSpot): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const square = dx * dx + dy * dy;
  const along = square === 0 ? 0 : ((spot.x - a.x) * dx + (spot.y - a.y) * dy) / square;
  const share = Math.min(Math.max(along, 0), 1);
  return Math.hypot(spot.x - a.x - share * dx, spot.y - a.y - share * dy);
}

/** A line cut into pieces that a stroke can hold, each beginning where the one before ends. */
export function strokePieces(spots: readonly InkSpot[]): readonly (readonly InkSpot[])[] {
  const pieces: (readonly InkSpot[])[] = [];
  for (let start = 0; start === 0 || start < spots.length - 1; start += STROKE_LIMIT - 1) {
    pieces.push(spots.slice(start, start + STROKE_LIMIT));
  }
  return pieces;
}
