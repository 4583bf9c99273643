import { greatestCommonDivisor, type Rational, rational, safeCommonDivisor, ZERO } from "../quantity";
import type { LinearSystem, SolutionReader } from "./arithmetic";
import { chineseRemainder } from "./chineseRemainder";
import { type EliminationPlan, planElimination, runPlan } from "./eliminationPlan";
import { remembered } from "./remembered";
import { BITS_OF_PRIME, PRIMES, residueOf, safeResidue } from "./residues";
import { type Whole, type WholeRow, wholeRows } from "./wholeRows";

/**
 * Exact solution of A·X = B by residues: elimination mod as many primes as the answers have bits, put together by the
 * Chinese remainder theorem.
 *
 * By Cramer's rule each unknown is a whole number over det A, and Hadamard's inequality bounds both; the primes used
 * exceed twice that bound, so the numbers found are the numbers, not likely to be. A fraction is put together and
 * reduced when it is asked for. Null where A is singular mod the primes tried (which here proves nothing), or where the
 * table of primes is too short for the bound: the caller then eliminates over the rationals.
 * Source: von zur Gathen and Gerhard, Modern Computer Algebra, ch. 5.5 (from memory).
 */
export function solveByResidues(system: LinearSystem<Rational>): SolutionReader<Rational> | null {
  const { order, rightHandSides } = system;
  const rows = wholeRows(system);
  const scales = scalesOf(rows, order, rightHandSides.length);
  const count = Math.ceil(boundInBits(rows, order, scales.length) / BITS_OF_PRIME);
  const images = imagesOf(rows, order, scales.length, count);
  return images && readerOf(images, order, scales);
}

/**
 * What each right-hand side is divided by before the elimination and its answers multiplied by after it: the common
 * divisor of its entries, which would else be in every answer. Divides them in place.
 */
function scalesOf(rows: readonly WholeRow[], order: number, sides: number): readonly bigint[] {
  const scales: Whole[] = new Array(sides).fill(0);
  eachSide(rows, order, (values, k, s) => {
    scales[s] = commonDivisor(scales[s] as Whole, values[k] as Whole);
  });
  eachSide(rows, order, (values, k, s) => {
    const [value, scale] = [values[k] as Whole, scales[s] as Whole];
    values[k] = typeof value === "number" && typeof scale === "number" ? value / scale : BigInt(value) / BigInt(scale);
  });
  return scales.map(BigInt);
}

function eachSide(
  rows: readonly WholeRow[],
  order: number,
  visit: (values: Whole[], k: number, s: number) => void,
): void {
  for (const { columns, values, width } of rows) {
    for (let k = width; k < values.length; k++) visit(values, k, (columns[k] as number) - order);
  }
}

function commonDivisor(a: Whole, b: Whole): Whole {
  if (typeof a === "number" && typeof b === "number") return safeCommonDivisor(a, Math.abs(b));
  return greatestCommonDivisor(BigInt(a), BigInt(b));
}

/** log₂ of twice a bound on |det A| and on each |det A · x|: Hadamard's, for each right-hand side by itself. */
function boundInBits(rows: readonly WholeRow[], order: number, sides: number): number {
  const bits = new Float64Array(sides);
  let least = 2;
  for (const { columns, values, width } of rows) {
    let matrix = 0;
    for (let k = 0; k < width; k++) matrix += Number(values[k]) ** 2;
    // The margin covers the rounding of this very sum.
    least += 0.5 * Math.log2(matrix) + 1e-9;
    for (let k = width; k < values.length; k++) {
      const side = (columns[k] as number) - order;
      bits[side] = (bits[side] as number) + 0.5 * Math.log2(1 + Number(values[k]) ** 2 / matrix) + 1e-9;
    }
  }
  return least + Math.max(0, ...bits);
}

/** `residues[t * length + v]`: number v mod `primes[t]`; the determinant first, then it times each unknown of each side. */
type Images = { readonly primes: readonly number[]; readonly residues: Float64Array; readonly length: number };

/** Eliminates mod as many primes as are wanted; null where that cannot be. */
function imagesOf(rows: readonly WholeRow[], order: number, sides: number, count: number): Images | null {
  if (!Number.isFinite(count)) return null;
  const entries = rows.flatMap(({ values }) => values);
  const reduce = reducerOf(entries);
  const reduced = new Float64Array(entries.length);
  const length = 1 + sides * order;
  const residues = new Float64Array(count * length);
  const primes: number[] = [];
  let plan: EliminationPlan | null = null;
  let slots = new Float64Array(0);
  for (const p of PRIMES) {
    if (primes.length === count) break;
    reduce(p, reduced);
    if (plan === null) {
      plan = planElimination(rows, reduced, p, order, sides);
      if (plan === null) return null;
      slots = new Float64Array(plan.slots);
    }
    slots.fill(0).set(reduced);
    // A pivot that is 0 mod this prime says nothing of the others.
    if (runPlan(plan, slots, p, residues, primes.length * length)) primes.push(p);
  }
  return primes.length === count ? { primes, residues, length } : null;
}

/** Writes the residues of some whole numbers mod p. */
function reducerOf(entries: readonly Whole[]): (p: number, into: Float64Array) => void {
  const isShort = entries.every((entry) => typeof entry === "number");
  if (!isShort) return (p, into) => into.set(entries.map((entry) => residueOf(entry, p)));
  const numbers = new Float64Array(entries as readonly number[]);
  return (p, into) => {
    for (let slot = 0; slot < numbers.length; slot++) into[slot] = safeResidue(numbers[slot] as number, p);
  };
}

function readerOf(
  { primes, residues, length }: Images,
  order: number,
  scales: readonly bigint[],
): SolutionReader<Rational> {
  const wholeOf = chineseRemainder(primes);
  const wholeAt = remembered((v) => wholeOf((t) => residues[t * length + v] as number));
  const determinant = wholeAt(0);
  return (side, terms) => {
    let numerator = 0n;
    let denominator = 1n;
    for (const [column, { n, d }] of terms) {
      const value = n * wholeAt(1 + side * order + column);
      if (d === denominator) numerator += value;
      else {
        const divisor = greatestCommonDivisor(denominator, d);
        numerator = numerator * (d / divisor) + value * (denominator / divisor);
        denominator *= d / divisor;
      }
    }
    return numerator === 0n ? ZERO : rational(numerator * (scales[side] as bigint), denominator * determinant);
  };
}
