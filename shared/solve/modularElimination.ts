import { greatestCommonDivisor, type Rational, rational, ZERO } from "../quantity";
import type { LinearSystem, SolutionReader } from "./arithmetic";
import { type EliminationPlan, planElimination, runPlan } from "./eliminationPlan";
import { remembered } from "./remembered";
import { BITS_OF_PRIME, invertResidue, multiplyResidues, PRIMES, residueOf } from "./residues";
import { type WholeRow, wholeRows } from "./wholeRows";

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
  const bits = boundInBits(rows);
  const count = Math.ceil(bits / BITS_OF_PRIME) + 1;
  const sides = system.rightHandSides.length;
  const digits = mixedRadixDigits(rows, system.order, sides, count);
  return digits && readerOf(digits, system.order);
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

/** For each number sought its digits to the bases of the primes: v = d₀ + p₀·(d₁ + p₁·(d₂ + …)). */
type Digits = { readonly primes: readonly number[]; readonly digits: readonly Float64Array[] };

function mixedRadixDigits(rows: readonly WholeRow[], order: number, sides: number, count: number): Digits | null {
  if (!Number.isFinite(count)) return null;
  const primes: number[] = [];
  const digits: Float64Array[] = [];
  let plan: EliminationPlan | null = null;
  for (const p of PRIMES) {
    if (primes.length === count) break;
    const entries = residuesOf(rows, p);
    plan ??= planElimination(rows, entries, p, order, sides);
    if (plan === null) return null;
    const slots = new Float64Array(plan.slots);
    slots.set(entries);
    const residues = new Float64Array(1 + sides * order);
    // A pivot that is 0 mod this prime says nothing of the others.
    if (!runPlan(plan, slots, p, residues)) continue;
    digits.push(nextDigits(residues, primes, digits, p));
    primes.push(p);
  }
  return primes.length === count ? { primes, digits } : null;
}

function residuesOf(rows: readonly WholeRow[], p: number): Float64Array {
  const residues = new Float64Array(rows.reduce((total, { values }) => total + values.length, 0));
  let slot = 0;
  for (const { values } of rows) {
    for (let k = 0; k < values.length; k++) residues[slot++] = residueOf(values[k] as number | bigint, p);
  }
  return residues;
}

/** Garner's step: the digit that makes the numbers known so far right mod p as well. Source: Garner, IRE Trans. EC-8, 1959. */
function nextDigits(
  residues: Float64Array,
  primes: readonly number[],
  digits: readonly Float64Array[],
  p: number,
): Float64Array {
  const inverseOfPrime = 1 / p;
  const bases = primes.map((prime) => prime % p);
  const product = bases.reduce((total, base) => multiplyResidues(total, base, p, inverseOfPrime), 1);
  const inverse = invertResidue(product, p);
  const known = new Float64Array(residues.length);
  for (let t = bases.length - 1; t >= 0; t--) {
    const base = bases[t] as number;
    const digit = digits[t] as Float64Array;
    for (let v = 0; v < known.length; v++) {
      // A digit to a larger prime may exceed this one.
      let value = multiplyResidues(known[v] as number, base, p, inverseOfPrime) + (digit[v] as number);
      while (value >= p) value -= p;
      known[v] = value;
    }
  }
  for (let v = 0; v < known.length; v++) {
    const difference = (residues[v] as number) - (known[v] as number);
    known[v] = multiplyResidues(difference < 0 ? difference + p : difference, inverse, p, inverseOfPrime);
  }
  return known;
}

function readerOf({ primes, digits }: Digits, order: number): SolutionReader<Rational> {
  const product = primes.reduce((total, prime) => total * BigInt(prime), 1n);
  const wholeAt = remembered((v) => {
    const value = assemble(primes, digits, v);
    return 2n * value > product ? value - product : value;
  });
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

/** Horner's scheme from the last digit, two digits at a time since two fit a double. */
function assemble(primes: readonly number[], digits: readonly Float64Array[], v: number): bigint {
  let value = 0n;
  let t = digits.length;
  if (t % 2 === 1) value = BigInt((digits[--t] as Float64Array)[v] as number);
  while (t > 0) {
    const [low, high] = [digits[t - 2] as Float64Array, digits[t - 1] as Float64Array];
    const [first, second] = [primes[t - 2] as number, primes[t - 1] as number];
    value = value * BigInt(first * second) + BigInt((low[v] as number) + first * (high[v] as number));
    t -= 2;
  }
  return value;
}
