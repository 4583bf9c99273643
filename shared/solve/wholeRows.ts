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
  readonly values: Whole[];
  readonly width: number;
};

/** The rows of a system, each multiplied by its least common denominator and freed of its common divisor. */
export function wholeRows({ rows, rightHandSides, order }: LinearSystem<Rational>): WholeRow[] {
  const entriesOf = rows.map((row) => {
    const entries: Term<Rational>[] = [];
    for (const term of row) if (term[1].n !== 0n) entries.push(term);
    return sortedByColumn(entries);
  });
  rightHandSides.forEach((side, s) => {
    for (const [i, value] of side) if (value.n !== 0n) entriesOf[i]?.push([order + s, value]);
  });
  return entriesOf.map((entries) => {
    const row = smallRow(entries) ?? longRow(entries);
    let width = row.columns.length;
    while (width > 0 && (row.columns[width - 1] as number) >= order) width--;
    return { ...row, width };
  });
}

/** Entries beyond which the engine's own sort is no slower than insertion. */
const SHORT = 24;

/** Sorts in place; nearly every row is short. */
function sortedByColumn(entries: Term<Rational>[]): Term<Rational>[] {
  if (entries.length > SHORT) return entries.sort((a, b) => a[0] - b[0]);
  for (let k = 1; k < entries.length; k++) {
    const entry = entries[k] as Term<Rational>;
    let at = k;
    for (; at > 0 && (entries[at - 1] as Term<Rational>)[0] > entry[0]; at--) {
      entries[at] = entries[at - 1] as Term<Rational>;
    }
    entries[at] = entry;
  }
  return entries;
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
