import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ONE, type Rational, rational } from "../../shared/quantity";
import type { SolutionReader } from "../../shared/solve/arithmetic";
import { chineseRemainder } from "../../shared/solve/chineseRemainder";
import { eliminateExactly, solveExactly } from "../../shared/solve/exactElimination";
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

  it("has primes enough for determinants as large as Hadamard's bound allows, and for sides far larger", () =>
    fc.assert(
      fc.property(fc.bigInt({ min: 1n, max: 2n ** 60n }), fc.bigInt({ min: 1n, max: 2n ** 90n }), (size, side) => {
        // Rows of a Hadamard matrix are orthogonal: |det| is the product of their lengths. An entry that is one larger
        // keeps a row from being divided by what its entries would else have in common.
        const rows = HADAMARD.map((row, i) => row.map((sign, j) => BigInt(sign) * size + (i === j ? 1n : 0n)));
        const system = {
          order: rows.length,
          rows: rows.map((row) => new Map(row.map((value, j) => [j, whole(value)]))),
          rightHandSides: [new Map([[0, whole(side)]]), new Map(rows.map((_, i) => [i, whole(side + BigInt(i))]))],
        };
        const [residues, plain] = [solveByResidues(system), eliminateExactly(system)];
        const unknowns = rows.map((_, column) => column);
        for (const s of [0, 1]) {
          const read = (from: SolutionReader<Rational> | null) => unknowns.map((column) => from?.(s, [[column, ONE]]));
          expect(read(residues)).toEqual(read(plain.ok ? plain.solution : null));
        }
      }),
    ));
});

const HADAMARD = [
  [1, 1, 1, 1],
  [1, -1, 1, -1],
  [1, 1, -1, -1],
  [1, -1, -1, 1],
];
