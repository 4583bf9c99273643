import { greatestCommonDivisor, type Rational, rational, ZERO } from "../quantity";
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
  const rows = wholeRows(system);
  const count = Math.ceil(boundInBits(rows) / BITS_OF_PRIME) + 1;
  const images = imagesOf(rows, system.order, system.rightHandSides.length, count);
  return images && readerOf(images, system.order);
}

/** log₂ of twice a bound on |det A| and on each |det A · x|, a row's own right-hand sides counted with it. */
function boundInBits(rows: readonly WholeRow[]): number {
  let bits = 2;
  for (const { values, width } of rows) {
    let matrix = 0;
    let side = 0;
    for (let k = 0; k < values.length; k++) {
      const square = Number(values[k]) ** 2;
      if (k < width) matrix += square;
      else side = Math.max(side, square);
    }
    // The margin covers the rounding of this very sum.
    bits += 0.5 * Math.log2(matrix + side) + 1e-9;
  }
  return bits;
}

/** `residues[t][v]`: number v mod `primes[t]`; the determinant first, then it times each unknown of each side. */
type Images = { readonly primes: readonly number[]; readonly residues: readonly Float64Array[] };

/** Eliminates mod as many primes as are wanted; null where that cannot be. */
function imagesOf(rows: readonly WholeRow[], order: number, sides: number, count: number): Images | null {
  if (!Number.isFinite(count)) return null;
  const entries = rows.flatMap(({ values }) => values);
  const reduce = reducerOf(entries);
  const reduced = new Float64Array(entries.length);
  const primes: number[] = [];
  const residues: Float64Array[] = [];
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
    const image = new Float64Array(1 + sides * order);
    // A pivot that is 0 mod this prime says nothing of the others.
    if (!runPlan(plan, slots, p, image)) continue;
    residues.push(image);
    primes.push(p);
  }
  return primes.length === count ? { primes, residues } : null;
}

/** Writes the residues of some whole numbers mod p. */
function reducerOf(entries: readonly Whole[]): (p: number, into: Float64Array) => void {
  const isShort = entries.every((entry) => typeof entry === "number");
  if (!isShort) return (p, into) => into.set(entries.map((entry) => residueOf(entry, p)));
  const numbers = Float64Array.from(entries);
  return (p, into) => {
    for (let slot = 0; slot < numbers.length; slot++) into[slot] = safeResidue(numbers[slot] as number, p);
  };
}

function readerOf({ primes, residues }: Images, order: number): SolutionReader<Rational> {
  const wholeOf = chineseRemainder(primes);
  const wholeAt = remembered((v) => wholeOf((t) => (residues[t] as Float64Array)[v] as number));
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
    return numerator === 0n ? ZERO : rational(numerator, denominator * determinant);
  };
}
