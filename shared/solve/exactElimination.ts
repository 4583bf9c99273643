import { greatestCommonDivisor, multiply, ONE, type Rational, rational, sum, ZERO } from "../quantity";
import type { Elimination, LinearSystem, SolutionReader } from "./arithmetic";
import { solveByResidues } from "./modularElimination";
import { wholeRows } from "./wholeRows";

/**
 * One equation in whole numbers. `columns` ascend; those from `order` on are right-hand sides and stand after the first
 * `width` entries, which belong to the matrix.
 */
type Row = { columns: number[]; values: bigint[]; width: number };

/**
 * Exact solution of a system: by residues, which is many times faster, or over the rationals where that finds no
 * pivot (and then a vector that shows A to be singular) or the numbers are too long for it.
 */
export function solveExactly(system: LinearSystem<Rational>): Elimination<Rational> {
  const solution = solveByResidues(system);
  return solution === null ? eliminateExactly(system) : { ok: true, solution, residual: 0 };
}

/**
 * Sparse elimination over the rationals, one pass for all right-hand sides.
 *
 * Each row is kept in whole numbers without a common divisor, so fractions are never added on the way and no entry
 * grows beyond the minors of (A|B) that fraction-free elimination bounds it by (Bareiss, Math. Comp. 22, 1968).
 * Pivots: a shortest row, and in it the column with fewest entries (after Markowitz, Management Sci. 3, 1957).
 */
export function eliminateExactly(system: LinearSystem<Rational>): Elimination<Rational> {
  const { order } = system;
  const rows = wholeRows(system).map(({ columns, values, width }): Row => {
    return { columns: [...columns], values: values.map(BigInt), width };
  });
  const rowsOfColumn = columnIndex(rows, order);
  const pivots: { row: Row; column: number }[] = [];
  const isActive = rows.map(() => true);
  for (;;) {
    const pivot = choosePivot(rows, isActive, rowsOfColumn);
    if (pivot === null) break;
    const { index, column } = pivot;
    const pivotRow = rows[index] as Row;
    isActive[index] = false;
    for (let k = 0; k < pivotRow.width; k++) rowsOfColumn[pivotRow.columns[k] as number]?.delete(index);
    for (const i of rowsOfColumn[column] as Set<number>) {
      rows[i] = cancel(rows[i] as Row, pivotRow, column, order, i, rowsOfColumn);
    }
    pivots.push({ row: pivotRow, column });
  }
  if (pivots.length < order) return { ok: false, nullVector: nullVector(pivots, order) };
  const solutions = system.rightHandSides.map((_, s) => backSubstitute(pivots, order, order + s));
  const solution: SolutionReader<Rational> = (side, terms) =>
    sum(terms.map(([column, coefficient]) => multiply(coefficient, solutions[side]?.[column] as Rational)));
  return { ok: true, solution, residual: 0 };
}

function withoutCommonDivisor(row: Row): Row {
  let divisor = 0n;
  for (const value of row.values) {
    divisor = greatestCommonDivisor(divisor, value);
    if (divisor === 1n) return row;
  }
  if (divisor !== 0n) row.values = row.values.map((value) => value / divisor);
  return row;
}

function columnIndex(rows: readonly Row[], order: number): Set<number>[] {
  const index = Array.from({ length: order }, () => new Set<number>());
  rows.forEach((row, i) => {
    for (let k = 0; k < row.width; k++) index[row.columns[k] as number]?.add(i);
  });
  return index;
}

/** Rows looked at for the best column before the first of them is taken; more looking cost more than it saved. */
const ROWS_COMPARED = 6;

function choosePivot(
  rows: readonly Row[],
  isActive: readonly boolean[],
  rowsOfColumn: readonly Set<number>[],
): { index: number; column: number } | null {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < rows.length; i++) {
    const width = (rows[i] as Row).width;
    if (isActive[i] && width > 0 && width < least) least = width;
  }
  let best: { index: number; column: number } | null = null;
  let fewest = Number.POSITIVE_INFINITY;
  for (let i = 0, compared = 0; i < rows.length && compared < ROWS_COMPARED; i++) {
    const row = rows[i] as Row;
    if (!isActive[i] || row.width !== least) continue;
    compared++;
    for (let k = 0; k < row.width; k++) {
      const column = row.columns[k] as number;
      const count = (rowsOfColumn[column] as Set<number>).size;
      if (count < fewest) [fewest, best] = [count, { index: i, column }];
    }
  }
  return best;
}

/** `row` with its entry in `column` cancelled by a multiple of `pivot`; keeps `rowsOfColumn` in step. */
function cancel(
  row: Row,
  pivot: Row,
  column: number,
  order: number,
  index: number,
  rowsOfColumn: readonly Set<number>[],
): Row {
  const own = row.values[row.columns.indexOf(column)] as bigint;
  const other = pivot.values[pivot.columns.indexOf(column)] as bigint;
  const divisor = greatestCommonDivisor(own, other);
  const times = other / divisor;
  const less = own / divisor;
  const result: Row = { columns: [], values: [], width: 0 };
  const push = (at: number, value: bigint): void => {
    result.columns.push(at);
    result.values.push(value);
    if (at < order) result.width++;
  };
  let a = 0;
  let b = 0;
  while (a < row.columns.length || b < pivot.columns.length) {
    const left = row.columns[a] ?? Number.POSITIVE_INFINITY;
    const right = pivot.columns[b] ?? Number.POSITIVE_INFINITY;
    if (left < right) {
      push(left, times * (row.values[a++] as bigint));
      continue;
    }
    let value = -less * (pivot.values[b++] as bigint);
    if (left === right) value += times * (row.values[a++] as bigint);
    if (value !== 0n) {
      push(right, value);
      // The pivot column's own entry cancels, so the loop over its rows is never added to.
      if (left !== right) rowsOfColumn[right]?.add(index);
    } else if (right !== column) rowsOfColumn[right]?.delete(index);
  }
  return withoutCommonDivisor(result);
}

type Pivot = { readonly row: Row; readonly column: number };

function backSubstitute(pivots: readonly Pivot[], order: number, side: number): Rational[] {
  const x: Rational[] = new Array(order).fill(ZERO);
  for (let k = pivots.length - 1; k >= 0; k--) {
    const { row, column } = pivots[k] as Pivot;
    x[column] = valueOfPivot(row, column, side, x);
  }
  return x;
}

/** (b − Σ a·x)/a(pivot), over one denominator so that a single reduction is paid for each unknown. */
function valueOfPivot(row: Row, column: number, side: number, x: readonly Rational[]): Rational {
  let n = 0n;
  let d = 1n;
  let own = 1n;
  for (let k = 0; k < row.columns.length; k++) {
    const at = row.columns[k] as number;
    const value = row.values[k] as bigint;
    if (at === column) own = value;
    else if (at === side) n += value * d;
    else if (k < row.width) {
      const known = x[at] as Rational;
      if (known.n === 0n) continue;
      if (known.d === d) n -= value * known.n;
      else {
        const divisor = greatestCommonDivisor(d, known.d);
        n = n * (known.d / divisor) - value * known.n * (d / divisor);
        d *= known.d / divisor;
      }
    }
  }
  return n === 0n ? ZERO : rational(n, d * own);
}

/** x ≠ 0 with A·x = 0: 1 at the first column without a pivot, 0 at the other such columns. */
function nullVector(pivots: readonly Pivot[], order: number): Rational[] {
  const hasPivot = new Array<boolean>(order).fill(false);
  for (const { column } of pivots) hasPivot[column] = true;
  const x: Rational[] = new Array(order).fill(ZERO);
  x[hasPivot.indexOf(false)] = ONE;
  for (let k = pivots.length - 1; k >= 0; k--) {
    const { row, column } = pivots[k] as Pivot;
    x[column] = valueOfPivot(row, column, -1, x);
  }
  return x;
}
