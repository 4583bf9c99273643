import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  distanceToSegment,
  type InkSpot,
  inkSpot,
  readSpots,
  simplifySpots,
  spotsText,
  strokePieces,
} from "../../shared/board";

const coordinate = fc.integer({ min: -1000, max: 1000 }).map((hundredths) => hundredths / 100);
const line = fc.array(fc.record({ x: coordinate, y: coordinate }), { minLength: 1, maxLength: 80 });

/** How far a spot is from a polyline. */
function away(spot: InkSpot, from: readonly InkSpot[]): number {
  const pieces = from.slice(1).map((b, i) => distanceToSegment(spot, from[i] as InkSpot, b));
  return Math.min(
    ...(pieces.length > 0 ? pieces : [Math.hypot(spot.x - (from[0] as InkSpot).x, spot.y - (from[0] as InkSpot).y)]),
  );
}

describe("a simplified line", () => {
  it("keeps a corner and drops what lies on the way", () =>
    expect(
      simplifySpots(
        [
          { x: 0, y: 0 },
          { x: 1, y: 0.01 },
          { x: 2, y: 0 },
          { x: 2, y: 1 },
          { x: 2, y: 2 },
        ],
        0.02,
      ),
    ).toEqual([
      { x: 0, y: 0 },
      { x: 2, y: 0 },
      { x: 2, y: 2 },
    ]));

  it("begins and ends where the line does, and strays from no drawn spot by more than the tolerance", () =>
    fc.assert(
      fc.property(line, fc.double({ min: 0, max: 3, noNaN: true }), (spots, tolerance) => {
        const kept = simplifySpots(spots, tolerance);
        expect(kept[0]).toBe(spots[0]);
        expect(kept.at(-1)).toBe(spots.at(-1));
        expect(kept.every((spot) => spots.includes(spot))).toBe(true);
        for (const spot of spots) expect(away(spot, kept)).toBeLessThanOrEqual(tolerance + 1e-9);
      }),
    ));

  it("of a spiral of 20,000 spots is found without running out of stack", () => {
    const spiral = Array.from({ length: 20_000 }, (_, i) => ({
      x: (i * Math.cos(i / 50)) / 2e3,
      y: (i * Math.sin(i / 50)) / 2e3,
    }));
    expect(simplifySpots(spiral, 0.02).length).toBeLessThan(10_000);
  });
});

describe("a line as text", () => {
  it("reads back as it was, to the hundredth", () =>
    fc.assert(
      fc.property(line, (spots) => {
        expect(readSpots(spotsText(spots))).toEqual(spots.map(({ x, y }) => inkSpot(x, y)));
      }),
    ));

  it("does not drift, however many spots lie between hundredths", () => {
    const spots = Array.from({ length: 1000 }, (_, i) => ({ x: i * 0.0149, y: 0 }));
    expect(readSpots(spotsText(spots))?.at(-1)).toEqual({ x: 14.89, y: 0 }); // 999 × 0.0149 = 14.8851
  });

  it("is brought back to the edge of the board where it was drawn beyond", () =>
    expect(inkSpot(1e9, Number.NaN)).toEqual({ x: 10_000, y: 0 }));
});

it("a long line is cut into pieces that meet, of at most 1500 spots each", () => {
  const spots = Array.from({ length: 4000 }, (_, i) => ({ x: i / 100, y: 0 }));
  const pieces = strokePieces(spots);
  expect(pieces.map((piece) => piece.length)).toEqual([1500, 1500, 1002]);
  for (const [i, piece] of pieces.slice(1).entries()) expect(piece[0]).toBe(pieces[i]?.at(-1));
  expect(strokePieces(spots.slice(0, 1))).toEqual([spots.slice(0, 1)]);
});
