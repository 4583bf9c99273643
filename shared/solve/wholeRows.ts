import { greatestCommonDivisor, type Rational } from "../quantity";
import type { LinearSystem } from "./arithmetic";

/** A whole number: a double where it is exact in one, which is most of them and much faster. */
export type Whole = number | bigint;

/**
 * One row of (A|B) in whole numbers without a common divisor. `columns` ascend; those from `order` on are right-hand
 * sides and stand after the first `width` entries, which belong to the matrix.
 */
export type WholeRow = {
  readonly columns: readonly number[];
  readonly values: readonly Whole[];
  readonly width: number;
};

/** The rows of a system, each multiplied by its least common denominator and freed of its common divisor. */
export function wholeRows(system: LinearSystem<Rational>): WholeRow[] {
  return system.rows.map((row, i) => wholeRow(row, system.rightHandSides, i, system.order));
}

function wholeRow(
  entries: ReadonlyMap<number, Rational>,
  rightHandSides: readonly ReadonlyMap<number, Rational>[],
  i: number,
  order: number,
): WholeRow {
  const columns: number[] = [];
  for (const [column, value] of entries) if (value.n !== 0n) columns.push(column);
  columns.sort((a, b) => a - b);
  const width = columns.length;
  const cells = columns.map((column) => entries.get(column) as Rational);
  rightHandSides.forEach((side, s) => {
    const value = side.get(i);
    if (value === undefined || value.n === 0n) return;
    columns.push(order + s);
    cells.push(value);
  });
  return { columns, values: smallWholes(cells) ?? wholes(cells), width };
}

const isSafe = Number.isSafeInteger;

/** The cells over their common denominator in doubles; null as soon as a double would not be exact. */
function smallWholes(cells: readonly Rational[]): number[] | null {
  let denominator = 1;
  const pairs = cells.map(({ n, d }): [number, number] => [Number(n), Number(d)]);
  for (const [n, d] of pairs) {
    if (!isSafe(n) || !isSafe(d)) return null;
    denominator *= d / commonDivisor(denominator, d);
    if (!isSafe(denominator)) return null;
  }
  let divisor = 0;
  const values: number[] = [];
  for (const [n, d] of pairs) {
    const value = n * (denominator / d);
    if (!isSafe(value)) return null;
    values.push(value);
    divisor = commonDivisor(divisor, Math.abs(value));
  }
  return divisor > 1 ? values.map((value) => value / divisor) : values;
}

function commonDivisor(a: number, b: number): number {
  while (b !== 0) [a, b] = [b, a % b];
  return a;
}

function wholes(cells: readonly Rational[]): bigint[] {
  let denominator = 1n;
  for (const { d } of cells) denominator *= d / greatestCommonDivisor(denominator, d);
  const values = cells.map(({ n, d }) => n * (denominator / d));
  let divisor = 0n;
  for (const value of values) divisor = greatestCommonDivisor(divisor, value);
  return divisor > 1n ? values.map((value) => value / divisor) : values;
}
