import { greatestCommonDivisor } from "./commonDivisor";

/**
 * Exact rational n/d with d > 0 and gcd(n, d) = 1, so two equal numbers are the same two integers.
 * Made only by the functions of this file, which keep that invariant.
 */
export type Rational = { readonly n: bigint; readonly d: bigint };

export const ZERO: Rational = { n: 0n, d: 1n };
export const ONE: Rational = { n: 1n, d: 1n };

/** The number n/d in lowest terms. Throws RangeError where d is 0. */
export function rational(n: bigint, d: bigint = 1n): Rational {
  if (d === 1n) return { n, d };
  if (d === 0n) throw new RangeError(`rational: denominator is 0, numerator ${n}`);
  const divisor = greatestCommonDivisor(n, d);
  const g = d < 0n ? -divisor : divisor;
  return g === 1n ? { n, d } : { n: n / g, d: d / g };
}

/** The whole number n. Throws RangeError where n is not a safe integer, since it would already be wrong. */
export function integer(n: number): Rational {
  if (!Number.isSafeInteger(n)) throw new RangeError(`integer: ${n} is not a safe integer`);
  return { n: BigInt(n), d: 1n };
}

export function add(a: Rational, b: Rational): Rational {
  if (a.n === 0n) return b;
  if (b.n === 0n) return a;
  if (a.d === b.d) return rational(a.n + b.n, a.d);
  return rational(a.n * b.d + b.n * a.d, a.d * b.d);
}

export function subtract(a: Rational, b: Rational): Rational {
  return add(a, negate(b));
}

/** Divisors are taken out crosswise beforehand: mostly one factor is short, and then this costs next to nothing. */
export function multiply(a: Rational, b: Rational): Rational {
  if (a.n === 0n || b.n === 0n) return ZERO;
  const left = b.d === 1n ? 1n : greatestCommonDivisor(a.n, b.d);
  const right = a.d === 1n ? 1n : greatestCommonDivisor(b.n, a.d);
  return {
    n: over(a.n, left) * over(b.n, right),
    d: over(a.d, right) * over(b.d, left),
  };
}

function over(whole: bigint, divisor: bigint): bigint {
  return divisor === 1n ? whole : whole / divisor;
}

/** a/b. Throws RangeError where b is 0. */
export function divide(a: Rational, b: Rational): Rational {
  return rational(a.n * b.d, a.d * b.n);
}

export function negate(a: Rational): Rational {
  return { n: -a.n, d: a.d };
}

/** 1/a. Throws RangeError where a is 0. */
export function reciprocal(a: Rational): Rational {
  if (a.n === 0n) throw new RangeError("reciprocal of 0");
  return a.n < 0n ? { n: -a.d, d: -a.n } : { n: a.d, d: a.n };
}

export function absolute(a: Rational): Rational {
  return a.n < 0n ? negate(a) : a;
}

export function isZero(a: Rational): boolean {
  return a.n === 0n;
}

/** −1, 0 or 1. */
export function signOf(a: Rational): -1 | 0 | 1 {
  return a.n > 0n ? 1 : a.n < 0n ? -1 : 0;
}

/** −1, 0 or 1 as a is less than, equal to or greater than b. */
export function compare(a: Rational, b: Rational): -1 | 0 | 1 {
  return signOf({ n: a.n * b.d - b.n * a.d, d: 1n });
}

export function equal(a: Rational, b: Rational): boolean {
  return a.n === b.n && a.d === b.d;
}

/** Sum of any number of terms; 0 for none. */
export function sum(terms: Iterable<Rational>): Rational {
  let total = ZERO;
  for (const term of terms) total = add(total, term);
  return total;
}

const SAFE = BigInt(Number.MAX_SAFE_INTEGER);

/**
 * The nearest double, ties to even, also where n and d each lie beyond the range of doubles; below 2^−1022, where
 * doubles lose digits, at most one place off. Over- and underflow give ±Infinity and 0 as Number() would.
 */
export function toNumber(a: Rational): number {
  const n = a.n < 0n ? -a.n : a.n;
  // Both exact as doubles, so that the one division rounds once.
  if (n <= SAFE && a.d <= SAFE) return Number(a.n) / Number(a.d);
  // shift leaves at least 60 bits of the quotient: more than the 53 of a double and the two that decide its rounding.
  const shift = 64 + bitLength(a.d) - bitLength(n);
  const dividend = shift >= 0 ? n << BigInt(shift) : n;
  const divisor = shift >= 0 ? a.d : a.d << BigInt(-shift);
  const quotient = dividend / divisor;
  // An odd last bit stands for whatever was cut off, so that a near tie does not pass for one.
  const rounded = Number(quotient * divisor === dividend ? quotient : quotient | 1n);
  // Two factors, since 2^-shift alone may lie beyond the range where the product does not.
  const magnitude = rounded * 2 ** Math.ceil(-shift / 2) * 2 ** Math.floor(-shift / 2);
  return a.n < 0n ? -magnitude : magnitude;
}

/** Bits of n ≥ 0, up to three too many. */
function bitLength(n: bigint): number {
  return n.toString(16).length * 4;
}

/** `"6/5"`, or `"6"` where the denominator is 1; ASCII, so that it can be read back. */
export function rationalText(a: Rational): string {
  return a.d === 1n ? `${a.n}` : `${a.n}/${a.d}`;
}

/** Reads what {@link rationalText} writes; null for anything else. */
export function readRational(text: string): Rational | null {
  const match = /^(-?\d+)(?:\/(\d+))?$/.exec(text);
  if (!match) return null;
  const d = match[2] === undefined ? 1n : BigInt(match[2]);
  return d === 0n ? null : rational(BigInt(match[1] as string), d);
}
