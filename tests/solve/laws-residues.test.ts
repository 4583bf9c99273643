import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isZero, ONE, type Rational, rational, rationalText, ZERO } from "../../shared/quantity";
import type { Elimination, LinearSystem } from "../../shared/solve/arithmetic";
import { eliminateExactly } from "../../shared/solve/exactElimination";
import { solveByResidues } from "../../shared/solve/modularElimination";
import { PRIMES } from "../../shared/solve/residues";

// Solving by residues against elimination over the rationals, on what residues find hardest: numbers of many digits,
// and entries and determinants that are 0 modulo the very primes it uses.

const largeNumber = fc
  .tuple(fc.bigInt({ min: -(10n ** 30n), max: 10n ** 30n }), fc.bigInt({ min: 1n, max: 10n ** 20n }))
  .map(([n, d]) => rational(n, d));
const multipleOfPrime = fc
  .tuple(fc.constantFrom(...PRIMES.slice(0, 6)), fc.integer({ min: -3, max: 3 }), fc.boolean())
  .map(([prime, times, isDenominator]) =>
    isDenominator ? rational(BigInt(times), BigInt(prime)) : rational(BigInt(times) * BigInt(prime)),
  );
const smallNumber = fc.integer({ min: -3, max: 3 }).map((n) => rational(BigInt(n)));
const entry = fc.oneof(
  { weight: 4, arbitrary: fc.constant(ZERO) },
  { weight: 3, arbitrary: smallNumber },
  { weight: 2, arbitrary: multipleOfPrime },
  { weight: 1, arbitrary: largeNumber },
);

const systems: fc.Arbitrary<LinearSystem<Rational>> = fc.integer({ min: 1, max: 10 }).chain((order) => {
  const row = fc.array(entry, { minLength: order, maxLength: order });
  return fc
    .record({
      rows: fc.array(row, { minLength: order, maxLength: order }),
      sides: fc.array(row, { minLength: 1, maxLength: 2 }),
    })
    .map(({ rows, sides }) => ({ order, rows: rows.map(sparse), rightHandSides: sides.map(sparse) }));
});

function sparse(values: readonly Rational[]): Map<number, Rational> {
  return new Map(values.flatMap((value, i) => (isZero(value) ? [] : [[i, value] as const])));
}

type Reader = Extract<Elimination<Rational>, { ok: true }>["solution"];

function everyUnknown({ order, rightHandSides }: LinearSystem<Rational>, solution: Reader): string[][] {
  const columns = Array.from({ length: order }, (_, column) => column);
  return rightHandSides.map((_, side) => columns.map((column) => rationalText(solution(side, [[column, ONE]]))));
}

describe("solving by residues", () => {
  it("gives the very fractions that elimination over the rationals gives, wherever it gives any", () =>
    fc.assert(
      fc.property(systems, (system) => {
        const residues = solveByResidues(system);
        fc.pre(residues !== null);
        const rationals = eliminateExactly(system);
        expect(rationals.ok).toBe(true);
        if (rationals.ok) expect(everyUnknown(system, residues)).toEqual(everyUnknown(system, rationals.solution));
      }),
      { numRuns: 400 },
    ));

  it("never answers a singular system", () =>
    fc.assert(
      fc.property(systems, fc.nat(), fc.nat(), (system, from, to) => {
        const rows = system.rows.map((row, i) =>
          i === to % system.order ? (system.rows[from % system.order] ?? row) : row,
        );
        fc.pre(from % system.order !== to % system.order);
        expect(solveByResidues({ ...system, rows })).toBeNull();
      }),
      { numRuns: 400 },
    ));

  it.each(PRIMES.slice(0, 3))("leaves a determinant of %i to the rationals, or finds it right", (prime) => {
    const system = { order: 1, rows: [new Map([[0, rational(BigInt(prime))]])], rightHandSides: [new Map([[0, ONE]])] };
    const residues = solveByResidues(system);
    if (residues !== null) expect(everyUnknown(system, residues)).toEqual([[`1/${prime}`]]);
    const rationals = eliminateExactly(system);
    expect(rationals.ok && everyUnknown(system, rationals.solution)).toEqual([[`1/${prime}`]]);
  });

  it("uses different primes, each of them prime and below 2^26", () => {
    expect(new Set(PRIMES).size).toBe(PRIMES.length);
    for (const p of PRIMES) {
      expect(p).toBeLessThan(2 ** 26);
      for (let d = 2; d * d <= p; d++) if (p % d === 0) throw new Error(`${p} is divisible by ${d}`);
    }
  });

  it("gives whole numbers of up to the bound right: a diagonal of 10^40 beside one of −10^40", () => {
    const large = 10n ** 40n;
    const rows = [new Map([[0, rational(large)]]), new Map([[1, rational(-large)]])];
    const system = {
      order: 2,
      rows,
      rightHandSides: [
        new Map([
          [0, ONE],
          [1, ONE],
        ]),
      ],
    };
    const residues = solveByResidues(system);
    expect(residues && everyUnknown(system, residues)).toEqual([[`1/${large}`, `-1/${large}`]]);
  });
});
