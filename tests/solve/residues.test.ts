import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { rational } from "../../shared/quantity";
import { chineseRemainder } from "../../shared/solve/chineseRemainder";
import { solveExactly } from "../../shared/solve/exactElimination";
import { solveByResidues } from "../../shared/solve/modularElimination";
import { invertResidue, multiplyResidues, PRIMES, residueOf } from "../../shared/solve/residues";

const primes = fc.constantFrom(...PRIMES.slice(0, 3), ...PRIMES.slice(-3));

describe("the table of primes", () => {
  it("holds distinct primes below 2^26, largest first", () => {
    const isPrime = (n: number): boolean => {
      for (let d = 2; d * d <= n; d++) if (n % d === 0) return false;
      return true;
    };
    expect(PRIMES.every(isPrime)).toBe(true);
    expect(PRIMES.every((p, i) => p < 2 ** 26 && (i === 0 || p < (PRIMES[i - 1] as number)))).toBe(true);
    // The digits of a mixed radix number may exceed a later prime, but never twice.
    expect(2 * (PRIMES.at(-1) as number)).toBeGreaterThan(PRIMES[0] as number);
  });
});

describe("residues", () => {
  it("multiply as whole numbers do", () =>
    fc.assert(
      fc.property(primes, fc.nat({ max: 2 ** 26 }), fc.nat({ max: 2 ** 26 }), (p, a, b) => {
        const product = multiplyResidues(a % p, b % p, p, 1 / p);
        expect(BigInt(product)).toBe((BigInt(a % p) * BigInt(b % p)) % BigInt(p));
      }),
      { numRuns: 2000 },
    ));

  it("have an inverse unless they are 0", () =>
    fc.assert(
      fc.property(primes, fc.integer({ min: 1, max: 2 ** 26 }), (p, a) => {
        fc.pre(a % p !== 0);
        expect(multiplyResidues(a % p, invertResidue(a % p, p), p, 1 / p)).toBe(1);
      }),
    ));

  it("are taken of positive and negative numbers, small and large alike", () =>
    fc.assert(
      fc.property(primes, fc.bigInt({ min: -(2n ** 90n), max: 2n ** 90n }), (p, value) => {
        const expected = Number(((value % BigInt(p)) + BigInt(p)) % BigInt(p));
        expect(residueOf(value, p)).toBe(expected);
        const small = Number(value % 2n ** 53n);
        expect(residueOf(small, p)).toBe(Number(((BigInt(small) % BigInt(p)) + BigInt(p)) % BigInt(p)));
      }),
    ));

  it("give a whole number back, its sign too", () =>
    fc.assert(
      fc.property(
        fc.bigInt({ min: -(2n ** 180n), max: 2n ** 180n }),
        fc.integer({ min: 8, max: 12 }),
        (value, count) => {
          const some = PRIMES.slice(0, count);
          expect(chineseRemainder(some)((t) => residueOf(value, some[t] as number))).toBe(value);
        },
      ),
    ));
});

describe("solving by residues", () => {
  const whole = (n: bigint) => rational(n);

  it("is right where the first prime divides the only pivot", () => {
    // The matrix (p) is singular mod p and nowhere else: p·x = 1.
    const [first] = PRIMES;
    const system = {
      order: 1,
      rows: [new Map([[0, whole(BigInt(first as number))]])],
      rightHandSides: [new Map([[0, whole(1n)]])],
    };
    const result = solveExactly(system);
    expect(result.ok && result.solution(0, [[0, whole(1n)]])).toEqual(rational(1n, BigInt(first as number)));
  });

  it("leaves numbers too long for the table of primes to the rationals", () => {
    const long = 10n ** 3000n + 7n;
    const system = { order: 1, rows: [new Map([[0, whole(long)]])], rightHandSides: [new Map([[0, whole(3n)]])] };
    expect(solveByResidues(system)).toBeNull();
    const result = solveExactly(system);
    expect(result.ok && result.solution(0, [[0, whole(1n)]])).toEqual(rational(3n, long));
  });
});
