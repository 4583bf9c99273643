import { greatestCommonDivisor, type Rational, safeCommonDivisor } from "../quantity";
import type { LinearSystem, Term } from "./arithmetic";

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
  terms: Iterable<Term<Rational>>,
  rightHandSides: readonly ReadonlyMap<number, Rational>[],
  i: number,
  order: number,
): WholeRow {
  const entries: Term<Rational>[] = [];
  for (const term of terms) if (term[1].n !== 0n) entries.push(term);
  rightHandSides.forEach((side, s) => {
    const value = side.get(i);
    if (value !== undefined && value.n !== 0n) entries.push([order + s, value]);
  });
  entries.sort((a, b) => a[0] - b[0]);
  const row = smallRow(entries) ?? longRow(entries);
  return { ...row, width: row.columns.filter((column) => column < order).length };
}

type Cells<W extends Whole> = { readonly columns: number[]; readonly values: W[] };

const isSafe = Number.isSafeInteger;

/** The entries over their common denominator in doubles; null as soon as a double would not be exact. */
function smallRow(entries: readonly Term<Rational>[]): Cells<number> | null {
  let denominator = 1;
  for (const [, value] of entries) {
    const d = Number(value.d);
    if (!isSafe(d)) return null;
    denominator *= d / safeCommonDivisor(denominator, d);
    if (!isSafe(denominator)) return null;
  }
  const columns: number[] = [];
  const values: number[] = [];
  for (const [column, { n, d }] of entries) {
    const numerator = Number(n);
    const value = numerator * (denominator / Number(d));
    if (!isSafe(numerator) || !isSafe(value)) return null;
    const last = values.length - 1;
    if (columns[last] === column) values[last] = (values[last] as number) + value;
    else {
      columns.push(column);
      values.push(value);
    }
    if (!isSafe(values[values.length - 1])) return null;
  }
  let divisor = 0;
  for (const value of values) divisor = safeCommonDivisor(divisor, Math.abs(value));
  return withoutZeros(columns, divisor > 1 ? values.map((value) => value / divisor) : values);
}

function longRow(entries: readonly Term<Rational>[]): Cells<bigint> {
  let denominator = 1n;
  for (const [, { d }] of entries) denominator *= d / greatestCommonDivisor(denominator, d);
  const columns: number[] = [];
  const values: bigint[] = [];
  for (const [column, { n, d }] of entries) {
    const value = n * (denominator / d);
    const last = values.length - 1;
    if (columns[last] === column) values[last] = (values[last] as bigint) + value;
    else {
      columns.push(column);
      values.push(value);
    }
  }
  let divisor = 0n;
  for (const value of values) divisor = greatestCommonDivisor(divisor, value);
  return withoutZeros(columns, divisor > 1n ? values.map((value) => value / divisor) : values);
}

/** Entries that add up to 0 are none. */
function withoutZeros<W extends Whole>(columns: number[], values: W[]): Cells<W> {
  if (values.every((value) => Number(value) !== 0)) return { columns, values };
  const kept = values.flatMap((value, k) => (Number(value) === 0 ? [] : [k]));
  return { columns: kept.map((k) => columns[k] as number), values: kept.map((k) => values[k] as W) };
}
