import type { Elimination, LinearSystem, SolutionReader, Term } from "./arithmetic";
import { addComplex, type Complex, complex, divideComplex, magnitude, multiplyComplex } from "./complex";

/** Share of the two terms below which a sum is what rounding left of 0: admittances that cancel at resonance, for one. */
const ROUNDING = 1e-14;

/** a + b, but 0 where only rounding is left of it. */
export function addSettled(a: Complex, b: Complex): Complex {
  const total = addComplex(a, b);
  return magnitude(total) <= ROUNDING * (magnitude(a) + magnitude(b)) ? complex(0) : total;
}

/** A pivot is at least this share of the largest entry in its row: bounds growth, leaves room to keep rows sparse. */
const PIVOT_SHARE = 0.1;

type Row = Map<number, Complex>;

/**
 * Sparse elimination in complex doubles with threshold pivoting, one pass for all right-hand sides.
 *
 * Rows are scaled to a largest entry of 1 first. A difference that cancels to rounding is set to 0, so that a circuit
 * that is singular (an LC pair at resonance with nothing to damp it) is found by an empty row, as in exact numbers.
 */
export function eliminateInDoubles(system: LinearSystem<Complex>): Elimination<Complex> {
  const { order } = system;
  const entries = system.rows.map(addedUp);
  const rows = entries.map((row, i) => scaledRow(row, system.rightHandSides, i, order));
  const rowsOfColumn = Array.from({ length: order }, () => new Set<number>());
  rows.forEach((row, i) => {
    for (const column of row.keys()) rowsOfColumn[column]?.add(i);
  });
  const isActive = rows.map(() => true);
  const pivots: { row: Row; column: number }[] = [];
  for (;;) {
    const pivot = choosePivot(rows, isActive, rowsOfColumn, order);
    if (pivot === null) break;
    const row = rows[pivot.index] as Row;
    isActive[pivot.index] = false;
    for (const column of row.keys()) rowsOfColumn[column]?.delete(pivot.index);
    for (const i of [...(rowsOfColumn[pivot.column] as Set<number>)]) {
      cancel(rows[i] as Row, row, pivot.column, i, rowsOfColumn);
    }
    pivots.push({ row, column: pivot.column });
  }
  if (pivots.length < order) return { ok: false, nullVector: nullVector(pivots, order) };
  const solutions = system.rightHandSides.map((_, s) => backSubstitute(pivots, order, order + s));
  const solution: SolutionReader<Complex> = (side, terms) =>
    terms.reduce(
      (total, [column, coefficient]) =>
        addSettled(total, multiplyComplex(coefficient, solutions[side]?.[column] as Complex)),
      complex(0),
    );
  return { ok: true, solution, residual: residualOf(entries, system.rightHandSides, solutions) };
}

/** One entry a column. */
function addedUp(terms: Iterable<Term<Complex>>): Row {
  const row: Row = new Map();
  for (const [column, value] of terms) {
    const before = row.get(column);
    row.set(column, before === undefined ? value : addSettled(before, value));
  }
  return row;
}

function scaledRow(
  entries: ReadonlyMap<number, Complex>,
  rightHandSides: readonly ReadonlyMap<number, Complex>[],
  i: number,
  order: number,
): Row {
  let largest = 0;
  for (const value of entries.values()) largest = Math.max(largest, magnitude(value));
  const scale = largest === 0 ? 1 : 1 / largest;
  const row: Row = new Map();
  for (const [column, value] of entries) {
    if (value.re !== 0 || value.im !== 0) row.set(column, complex(value.re * scale, value.im * scale));
  }
  rightHandSides.forEach((side, s) => {
    const value = side.get(i);
    if (value !== undefined) row.set(order + s, complex(value.re * scale, value.im * scale));
  });
  return row;
}

function choosePivot(
  rows: readonly Row[],
  isActive: readonly boolean[],
  rowsOfColumn: readonly Set<number>[],
  order: number,
): { index: number; column: number } | null {
  let best: { index: number; column: number } | null = null;
  let cost = Number.POSITIVE_INFINITY;
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] as Row;
    if (!isActive[i] || row.size - 1 >= cost) continue;
    let largest = 0;
    for (const [column, value] of row) if (column < order) largest = Math.max(largest, magnitude(value));
    if (largest === 0) continue;
    for (const [column, value] of row) {
      if (column >= order || magnitude(value) < PIVOT_SHARE * largest) continue;
      const price = (row.size - 1) * ((rowsOfColumn[column] as Set<number>).size - 1);
      if (price < cost) [cost, best] = [price, { index: i, column }];
    }
  }
  return best;
}

function cancel(row: Row, pivot: Row, column: number, index: number, rowsOfColumn: readonly Set<number>[]): void {
  const factor = divideComplex(row.get(column) as Complex, pivot.get(column) as Complex);
  for (const [at, value] of pivot) {
    const taken = multiplyComplex(factor, value);
    const after = addSettled(row.get(at) ?? complex(0), complex(-taken.re, -taken.im));
    if (at === column || (after.re === 0 && after.im === 0)) {
      row.delete(at);
      rowsOfColumn[at]?.delete(index);
    } else {
      row.set(at, after);
      rowsOfColumn[at]?.add(index);
    }
  }
}

type Pivot = { readonly row: Row; readonly column: number };

function backSubstitute(pivots: readonly Pivot[], order: number, side: number): Complex[] {
  return substituteFrom(pivots, new Array<Complex>(order).fill(complex(0)), order, side);
}

function substituteFrom(pivots: readonly Pivot[], x: Complex[], order: number, side: number): Complex[] {
  for (let k = pivots.length - 1; k >= 0; k--) {
    const { row, column } = pivots[k] as Pivot;
    let value = row.get(side) ?? complex(0);
    for (const [at, entry] of row) {
      if (at === column || at >= order) continue;
      const term = multiplyComplex(entry, x[at] as Complex);
      value = complex(value.re - term.re, value.im - term.im);
    }
    x[column] = divideComplex(value, row.get(column) as Complex);
  }
  return x;
}

function nullVector(pivots: readonly Pivot[], order: number): Complex[] {
  const hasPivot = new Array<boolean>(order).fill(false);
  for (const { column } of pivots) hasPivot[column] = true;
  const x = new Array<Complex>(order).fill(complex(0));
  x[hasPivot.indexOf(false)] = complex(1);
  return substituteFrom(pivots, x, order, -1);
}

/**
 * Largest |A·x − b| of all rows and right-hand sides, each over the sum of the sizes of its own terms; where these are
 * themselves only rounding, over the row's largest entry times the largest unknown as well.
 * Source: Arioli, Demmel, Duff, SIAM J. Matrix Anal. Appl. 10(2), 1989 (from memory).
 */
function residualOf(
  rows: readonly Row[],
  rightHandSides: LinearSystem<Complex>["rightHandSides"],
  solutions: readonly (readonly Complex[])[],
): number {
  let worst = 0;
  rightHandSides.forEach((side, s) => {
    const x = solutions[s] as readonly Complex[];
    const largest = Math.max(0, ...x.map(magnitude));
    rows.forEach((row, i) => {
      const { difference, terms, entry } = rowResidual(row, x, side.get(i) ?? complex(0));
      const scale = entry * largest;
      const isRounding = terms <= 1000 * rows.length * Number.EPSILON * scale;
      const size = isRounding ? terms + scale : terms;
      if (size > 0) worst = Math.max(worst, difference / size);
    });
  });
  return worst;
}

/** |a·x − b| of one row, the sum of the sizes of its terms, and its largest entry. */
function rowResidual(
  row: ReadonlyMap<number, Complex>,
  x: readonly Complex[],
  known: Complex,
): { difference: number; terms: number; entry: number } {
  let difference = complex(-known.re, -known.im);
  let terms = magnitude(known);
  let largest = 0;
  for (const [column, entry] of row) {
    const term = multiplyComplex(entry, x[column] as Complex);
    difference = addComplex(difference, term);
    terms += magnitude(term);
    largest = Math.max(largest, magnitude(entry));
  }
  return { difference: magnitude(difference), terms, entry: largest };
}
