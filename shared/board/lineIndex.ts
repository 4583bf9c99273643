import { isOnSegment, type Point, segmentsOf } from "./point";

/**
 * Points by the row and the column that they lie in, to find quickly which of them lie on a wire: of a large board
 * only those in the same row or column are looked at.
 */
export class PointIndex {
  readonly #rows: ReadonlyMap<number, readonly number[]>;
  readonly #columns: ReadonlyMap<number, readonly number[]>;

  constructor(private readonly points: readonly Point[]) {
    this.#rows = grouped(points.map((point, i) => [point.y, i]));
    this.#columns = grouped(points.map((point, i) => [point.x, i]));
  }

  /** The numbers of the points that lie anywhere on a wire, some twice where the wire bends on one. */
  on(wire: readonly Point[]): readonly number[] {
    return segmentsOf(wire).flatMap(([a, b]) => {
      const near = (a.y === b.y ? this.#rows.get(a.y) : this.#columns.get(a.x)) ?? [];
      return near.filter((i) => isOnSegment(this.points[i] as Point, a, b));
    });
  }
}

/** The pieces of wires by row and column, to find quickly which wires pass a point. */
export class WireIndex {
  readonly #rows: ReadonlyMap<number, readonly number[]>;
  readonly #columns: ReadonlyMap<number, readonly number[]>;
  readonly #pieces: readonly { readonly wire: number; readonly a: Point; readonly b: Point }[];

  constructor(wires: readonly (readonly Point[])[]) {
    this.#pieces = wires.flatMap((points, wire) => segmentsOf(points).map(([a, b]) => ({ wire, a, b })));
    const level = this.#pieces.flatMap(({ a, b }, i) => (a.y === b.y ? [[a.y, i] as const] : []));
    const upright = this.#pieces.flatMap(({ a, b }, i) => (a.y === b.y ? [] : [[a.x, i] as const]));
    this.#rows = grouped(level);
    this.#columns = grouped(upright);
  }

  /** The numbers of the wires on which a point lies, each once, lowest first. */
  at(point: Point): readonly number[] {
    const near = [...(this.#rows.get(point.y) ?? []), ...(this.#columns.get(point.x) ?? [])];
    const wires = near.flatMap((i) => {
      const piece = this.#pieces[i];
      return piece && isOnSegment(point, piece.a, piece.b) ? [piece.wire] : [];
    });
    return [...new Set(wires)].sort((a, b) => a - b);
  }
}

function grouped(pairs: readonly (readonly [key: number, value: number])[]): ReadonlyMap<number, readonly number[]> {
  const groups = new Map<number, number[]>();
  for (const [key, value] of pairs) {
    const group = groups.get(key);
    if (group) group.push(value);
    else groups.set(key, [value]);
  }
  return groups;
}
