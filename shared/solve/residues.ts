import { safeRemainder } from "../quantity";

/**
 * Arithmetic on whole numbers 0 … p − 1 for primes p just below 2^26, in doubles: a product of two residues is below
 * 2^52 and so exact.
 */

/** The largest primes below 2^26 are 2^26 less these numbers. */
// biome-ignore format: a table
const BELOW: readonly number[] = [
  5, 27, 45, 87, 101, 107, 111, 117, 125, 135, 143, 155, 171, 195, 197, 203, 215, 231, 267, 285, 335, 353, 357, 371,
  393, 401, 411, 425, 477, 491, 495, 513, 533, 551, 561, 575, 593, 645, 657, 663, 665, 677, 681, 687, 737, 755, 783,
  815, 825, 827, 831, 855, 857, 861, 881, 887, 897, 923, 945, 951, 981, 983, 993, 1001, 1055, 1067, 1071, 1077, 1091,
  1107, 1115, 1125, 1127, 1151, 1157, 1167, 1191, 1221, 1223, 1233, 1247, 1295, 1311, 1323, 1325, 1331, 1337, 1365,
  1367, 1391, 1401, 1403, 1407, 1437, 1475, 1515, 1533, 1541, 1545, 1547, 1553, 1563, 1575, 1611, 1623, 1641, 1647,
  1661, 1673, 1713, 1715, 1763, 1767, 1793, 1821, 1875, 1877, 1881, 1961, 2031, 2043, 2051, 2067, 2103, 2115, 2127,
  2145, 2147, 2171, 2177, 2207, 2273, 2277, 2303, 2325, 2361, 2381, 2387, 2417, 2457, 2465, 2471, 2481, 2507, 2525,
  2541, 2553, 2585, 2607, 2621, 2625, 2633, 2651, 2675, 2697, 2705, 2751, 2757, 2765, 2771, 2801, 2805, 2831, 2841,
  2873, 2901, 2915, 2921, 2927, 2931, 2961, 2985, 2987, 2991, 2997, 3015, 3027, 3041, 3053, 3083, 3093, 3095, 3101,
  3135, 3153, 3165, 3173, 3255, 3297, 3311, 3347, 3363, 3377, 3383, 3393, 3405, 3411, 3425, 3465, 3471, 3491, 3495,
  3515, 3545, 3561, 3597, 3615, 3645, 3653, 3663, 3671, 3677, 3723, 3731, 3737, 3773, 3783, 3803, 3867, 3873, 3887,
  3915, 3933, 3941, 3951, 3957, 3963, 3971, 3981, 3993, 4005, 4007, 4017, 4023, 4031, 4061, 4095, 4107, 4121, 4157,
  4173, 4175, 4185, 4215, 4217, 4247, 4257, 4263, 4275, 4283, 4293, 4301, 4325, 4335, 4347, 4415,
];

/** Each of these primes carries at least this many bits of an answer. */
export const BITS_OF_PRIME = Math.log2(2 ** 26 - (BELOW[BELOW.length - 1] as number));

/** Distinct primes just below 2^26, largest first. */
export const PRIMES: readonly number[] = BELOW.map((below) => 2 ** 26 - below);

/** a · b mod p for residues a and b; `inverse` is 1/p as a double. */
export function multiplyResidues(a: number, b: number, p: number, inverse: number): number {
  const product = a * b;
  // The estimate of the quotient is off by one at most, which the two corrections mend.
  const rest = product - Math.floor(product * inverse) * p;
  if (rest < 0) return rest + p;
  return rest >= p ? rest - p : rest;
}

/** 1/a mod p for a residue a ≠ 0, by Euclid's algorithm. All numbers fit 32 bits, which `| 0` tells the compiler. */
export function invertResidue(a: number, p: number): number {
  let r = p | 0;
  let next = a | 0;
  let x = 0;
  let nextX = 1;
  while (next !== 0) {
    const quotient = (r / next) | 0;
    const rest = (r - Math.imul(quotient, next)) | 0;
    r = next;
    next = rest;
    const restX = (x - Math.imul(quotient, nextX)) | 0;
    x = nextX;
    nextX = restX;
  }
  return x < 0 ? x + p : x;
}

/** A whole number's residue; a double must be exact. */
export function residueOf(value: number | bigint, p: number): number {
  if (typeof value === "number") return safeResidue(value, p);
  const rest = Number(value % BigInt(p));
  return rest < 0 ? rest + p : rest;
}

/** {@link residueOf} a whole number that a double holds exactly. */
export function safeResidue(value: number, p: number): number {
  if (value >= 0) return safeRemainder(value, p);
  const rest = safeRemainder(-value, p);
  return rest === 0 ? 0 : p - rest;
}
