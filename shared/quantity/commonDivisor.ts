const SAFE = BigInt(Number.MAX_SAFE_INTEGER);
/** Bits of a long operand that are looked at to foretell Euclid's quotients; fewer than a double holds, for its sums. */
const LEADING_BITS = 51;
/** What is cut off a number at once that is too long for a double. */
const CUT = 960n;
/** With fewer bits than this beyond them, one plain step does as well. */
const WORTH_FORETELLING = 12;

/**
 * Greatest common divisor, never negative; gcd(0, 0) = 0. Euclid's algorithm: in doubles as soon as both operands fit,
 * before that many steps at once, foretold from the leading bits.
 * Source: Lehmer's algorithm, Knuth, The Art of Computer Programming 2, 4.5.2, algorithm L (from memory).
 */
export function greatestCommonDivisor(a: bigint, b: bigint): bigint {
  let x = a < 0n ? -a : a;
  let y = b < 0n ? -b : b;
  if (x < y) [x, y] = [y, x];
  while (y !== 0n) {
    // A double remainder is exact below 2^53 and several times faster than one on bigints.
    if (x <= SAFE) return BigInt(safeCommonDivisor(Number(x), Number(y)));
    const steps = foretold(x, y);
    [x, y] = steps === null ? [y, x % y] : [steps.a * x + steps.b * y, steps.c * x + steps.d * y];
  }
  return x;
}

/** Greatest common divisor of whole numbers from 0 to 2^53 − 1. */
export function safeCommonDivisor(a: number, b: number): number {
  let [x, y] = [a, b];
  while (y !== 0) [x, y] = [y, safeRemainder(x, y)];
  return x;
}

/** a mod b for whole numbers from 0 to 2^53 − 1, b > 0; several times faster than `%` on doubles. */
export function safeRemainder(a: number, b: number): number {
  // The quotient is rounded up by one at most, and then by so little that the product is exact all the same.
  const rest = a - Math.floor(a / b) * b;
  return rest < 0 ? rest + b : rest;
}

type Steps = { readonly a: bigint; readonly b: bigint; readonly c: bigint; readonly d: bigint };

/** Several steps of Euclid's algorithm on x ≥ y as (a·x + b·y, c·x + d·y); null where none is certain. */
function foretold(x: bigint, y: bigint): Steps | null {
  const beyond = lengthInBits(x) - LEADING_BITS;
  if (beyond < WORTH_FORETELLING) return null;
  const shift = BigInt(beyond);
  let p = Number(x >> shift);
  let q = Number(y >> shift);
  let a = 1;
  let b = 0;
  let c = 0;
  let d = 1;
  // p and q stand for x and y cut off: a quotient is certain where both ends of what they may be agree on it.
  while (q + c !== 0 && q + d !== 0) {
    const quotient = Math.floor((p + a) / (q + c));
    if (quotient !== Math.floor((p + b) / (q + d))) break;
    [a, c] = [c, a - quotient * c];
    [b, d] = [d, b - quotient * d];
    [p, q] = [q, p - quotient * q];
  }
  return b === 0 ? null : { a: BigInt(a), b: BigInt(b), c: BigInt(c), d: BigInt(d) };
}

/** Bits of a whole number above 0, or one more where it is just below a power of two. */
function lengthInBits(x: bigint): number {
  let cut = 0;
  let top = x;
  let size = Number(top);
  // A double ends at 2^1024.
  while (size === Number.POSITIVE_INFINITY) {
    top >>= CUT;
    cut += Number(CUT);
    size = Number(top);
  }
  return cut + Math.floor(Math.log2(size)) + 1;
}
