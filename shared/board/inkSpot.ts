import { GRID_LIMIT } from "./point";

/** A spot of the board in grid steps, to the hundredth of one: ink need not lie on grid points. */
export type InkSpot = { readonly x: number; readonly y: number };

/** How many parts a grid step is divided into for ink. */
const PARTS = 100;
/** Most spots of one stroke; a longer one is drawn in pieces. */
export const STROKE_LIMIT = 1500;
/** Longest text that is taken for a stroke: two numbers of at most eight characters, and two separators, a spot. */
const TEXT_LIMIT = STROKE_LIMIT * 18;

/** The nearest spot that ink can lie on; far off the board it is brought back to the edge. */
export function inkSpot(x: number, y: number): InkSpot {
  return { x: unitsOf(x) / PARTS, y: unitsOf(y) / PARTS };
}

/**
 * `"120,-340 5,-3 4,0"`: hundredths of a grid step, the first spot as it is and each other as the way to it from the one
 * before, which keeps a drawn stroke at about five characters a spot.
 */
export function spotsText(spots: readonly InkSpot[]): string {
  let [x, y] = [0, 0];
  const words = spots.map((spot) => {
    const [toX, toY] = [unitsOf(spot.x), unitsOf(spot.y)];
    const word = `${toX - x},${toY - y}`;
    [x, y] = [toX, toY];
    return word;
  });
  return words.join(" ");
}

/** Reads what {@link spotsText} writes; null for anything else, whatever its type, and for more than a stroke holds. */
export function readSpots(text: unknown): readonly InkSpot[] | null {
  if (typeof text !== "string" || text === "" || text.length > TEXT_LIMIT) return null;
  const words = text.split(" ");
  if (words.length > STROKE_LIMIT) return null;
  const spots: InkSpot[] = [];
  let [x, y] = [0, 0];
  for (const word of words) {
    const match = /^(-?\d{1,7}),(-?\d{1,7})$/.exec(word);
    if (!match) return null;
    x += Number(match[1]);
    y += Number(match[2]);
    const spot = { x: x / PARTS, y: y / PARTS };
    if (!isOnBoard(spot)) return null;
    spots.push(spot);
  }
  return spots;
}

/** Whether ink can lie at a spot. */
export function isOnBoard({ x, y }: InkSpot): boolean {
  return Math.abs(x) <= GRID_LIMIT && Math.abs(y) <= GRID_LIMIT;
}

export function shiftSpot(spot: InkSpot, by: InkSpot): InkSpot {
  return inkSpot(spot.x + by.x, spot.y + by.y);
}

function unitsOf(steps: number): number {
  // NaN compares false with everything and would pass a clamp
  const units = Number.isFinite(steps) ? Math.round(steps * PARTS) : 0;
  // + 0 turns −0 into 0
  return Math.min(Math.max(units, -GRID_LIMIT * PARTS), GRID_LIMIT * PARTS) + 0;
}
