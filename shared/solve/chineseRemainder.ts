import { invertResidue, multiplyResidues } from "./residues";

/**
 * For distinct primes below 2^26, a function from the residues of a whole number v with |v| < ½ ∏ p to v itself.
 *
 * Garner's algorithm finds the digits of v ≥ 0 to the bases of the primes, v = d₀ + p₀·(d₁ + p₁·(d₂ + …)), in doubles;
 * only the last step is in bigints. Source: Garner, IRE Trans. Electronic Computers EC-8, 1959.
 */
export function chineseRemainder(primes: readonly number[]): (residue: (t: number) => number) => bigint {
  const product = primes.reduce((total, prime) => total * BigInt(prime), 1n);
  // inverses[t] = 1/(p₀·…·p₍ₜ₋₁₎) mod pₜ
  const inverses = primes.map((p, t) => {
    let before = 1;
    for (let u = 0; u < t; u++) before = multiplyResidues(before, (primes[u] as number) - p, p, 1 / p);
    return invertResidue(before, p);
  });
  const digits = new Float64Array(primes.length);
  return (residue) => {
    for (let t = 0; t < primes.length; t++) {
      const p = primes[t] as number;
      const known = leadingValue(digits, primes, t, p);
      const difference = residue(t) - known;
      digits[t] = multiplyResidues(difference < 0 ? difference + p : difference, inverses[t] as number, p, 1 / p);
    }
    const value = assemble(digits, primes);
    return 2n * value > product ? value - product : value;
  };
}

/** What the first `count` digits amount to mod p. */
function leadingValue(digits: Float64Array, primes: readonly number[], count: number, p: number): number {
  const inverse = 1 / p;
  let value = 0;
  for (let u = count - 1; u >= 0; u--) {
    // Primes descend from below 2^26 by far less than half, so that a base less p is its residue, and a digit to a
    // larger prime exceeds p once at most.
    value = multiplyResidues(value, (primes[u] as number) - p, p, inverse) + (digits[u] as number);
    while (value >= p) value -= p;
  }
  return value;
}

/** Horner's scheme from the last digit, two digits at a time since two fit a double. */
function assemble(digits: Float64Array, primes: readonly number[]): bigint {
  let value = 0n;
  let t = digits.length;
  if (t % 2 === 1) value = BigInt(digits[--t] as number);
  for (; t > 0; t -= 2) {
    const base = primes[t - 2] as number;
    value *= BigInt(base * (primes[t - 1] as number));
    value += BigInt((digits[t - 2] as number) + base * (digits[t - 1] as number));
  }
  return value;
}
