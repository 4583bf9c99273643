import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  add,
  isZero,
  multiply,
  ONE,
  type Rational,
  rational,
  rationalText,
  subtract,
  ZERO,
} from "../../shared/quantity";
import type { LinearSystem } from "../../shared/solve/arithmetic";
import { eliminateExactly, solveExactly } from "../../shared/solve/exactElimination";
import { exact } from "../independent/elements";

// Elimination on its own, on matrices no circuit would give: against mathjs, and against the equations themselves.

const entry = fc
  .tuple(fc.integer({ min: -9, max: 9 }), fc.integer({ min: 1, max: 6 }), fc.integer({ min: 0, max: 9 }))
  .map(([n, d, chance]) => (chance < 4 ? rational(BigInt(n), BigInt(d)) : ZERO));

const systems: fc.Arbitrary<{ matrix: Rational[][]; sides: Rational[][] }> = fc
  .integer({ min: 1, max: 7 })
  .chain((order) => {
    const column = fc.array(entry, { minLength: order, maxLength: order });
    return fc.record({
      matrix: fc.array(column, { minLength: order, maxLength: order }),
      sides: fc.array(column, { minLength: 1, maxLength: 3 }),
    });
  });

const sparse = (values: readonly Rational[]): Map<number, Rational> =>
  new Map(values.flatMap((value, i) => (isZero(value) ? [] : [[i, value] as const])));

function systemOf(matrix: readonly Rational[][], sides: readonly Rational[][]): LinearSystem<Rational> {
  return { order: matrix.length, rows: matrix.map(sparse), rightHandSides: sides.map(sparse) };
}

const times = (row: readonly Rational[], x: readonly Rational[]): Rational =>
  row.reduce((total, value, i) => add(total, multiply(value, x[i] ?? ZERO)), ZERO);

const toMathjs = (value: Rational) => exact.fraction(rationalText(value));

const isSingular = (matrix: readonly Rational[][]): boolean =>
  exact.isZero(exact.det(exact.matrix(matrix.map((row) => row.map(toMathjs)))));

describe.each([
  ["over the rationals", eliminateExactly],
  ["by residues", solveExactly],
])("exact elimination of random sparse matrices %s", (_how, solve) => {
  it("calls a matrix singular exactly where mathjs's determinant is 0", () =>
    fc.assert(
      fc.property(systems, ({ matrix, sides }) => {
        expect(solve(systemOf(matrix, sides)).ok).toBe(!isSingular(matrix));
      }),
      { numRuns: 300 },
    ));

  it("leaves no residual in any row for any right-hand side", () =>
    fc.assert(
      fc.property(systems, ({ matrix, sides }) => {
        const result = solve(systemOf(matrix, sides));
        fc.pre(result.ok);
        for (const [s, side] of sides.entries()) {
          const x = matrix.map((_, column) => result.solution(s, [[column, ONE]]));
          for (const [i, row] of matrix.entries()) {
            expect(isZero(subtract(times(row, x), side[i] ?? ZERO))).toBe(true);
          }
        }
      }),
      { numRuns: 300 },
    ));

  it("shows a singular matrix by a vector x ≠ 0 with A·x = 0", () =>
    fc.assert(
      fc.property(systems, fc.nat(), fc.nat(), ({ matrix, sides }, from, to) => {
        // One row made a copy of another, so that singular matrices of every size are met.
        const copied = matrix.map((row, i) => (i === to % matrix.length ? (matrix[from % matrix.length] ?? row) : row));
        const result = solve(systemOf(copied, sides));
        fc.pre(!result.ok);
        expect(result.nullVector.some((value) => !isZero(value))).toBe(true);
        for (const row of copied) expect(isZero(times(row, result.nullVector))).toBe(true);
      }),
      { numRuns: 300 },
    ));

  it("decides that without looking at the right-hand side", () =>
    fc.assert(
      fc.property(systems, ({ matrix, sides }) => {
        const zeros = sides.map((side) => side.map(() => ZERO));
        expect(solve(systemOf(matrix, zeros)).ok).toBe(solve(systemOf(matrix, sides)).ok);
      }),
    ));
});
