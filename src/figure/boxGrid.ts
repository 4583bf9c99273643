import { overlap } from "./box";
import type { Box } from "./figure";

/** Side of a cell in pixels: about the size of a label. */
const CELL = 96;

/** Boxes by the cells of a coarse grid, so that only those near a place are looked at when something is put there. */
export class BoxGrid {
  readonly #cells = new Map<number, Set<Box>>();

  add(box: Box): void {
    for (const key of cellsOf(box)) {
      const cell = this.#cells.get(key);
      if (cell) cell.add(box);
      else this.#cells.set(key, new Set([box]));
    }
  }

  /** Takes away a box that was added; the very same object. */
  remove(box: Box): void {
    for (const key of cellsOf(box)) this.#cells.get(key)?.delete(box);
  }

  /** The boxes that share any area with this one, each once. */
  overlapping(box: Box): readonly Box[] {
    const found = new Set<Box>();
    for (const key of cellsOf(box)) {
      for (const other of this.#cells.get(key) ?? []) if (overlap(box, other) > 0) found.add(other);
    }
    return [...found];
  }

  /** Whether no box shares any area with this one. */
  isFree(box: Box): boolean {
    for (const key of cellsOf(box)) {
      for (const other of this.#cells.get(key) ?? []) if (overlap(box, other) > 0) return false;
    }
    return true;
  }
}

function cellsOf({ x, y, width, height }: Box): readonly number[] {
  const [left, right] = [Math.floor(x / CELL), Math.floor((x + width) / CELL)];
  const [top, bottom] = [Math.floor(y / CELL), Math.floor((y + height) / CELL)];
  const keys: number[] = [];
  for (let column = left; column <= right; column += 1) {
    // One number for both: rows lie well within ± 50,000, since the drawing grid ends there.
    for (let row = top; row <= bottom; row += 1) keys.push(column * 100_000 + row);
  }
  return keys;
}
