import {
  abs,
  type Complex,
  complex,
  diag,
  divide,
  type Fraction,
  lup,
  lusolve,
  matrix,
  multiply,
  subtract,
} from "mathjs";
import { exact } from "./elements";

/** What the tableau needs of a number system. `s` stands for the operator d/dt: 0 for constants, jω for sinusoids. */
export type Field<S> = {
  readonly number: (value: Fraction) => S;
  readonly timesS: (value: Fraction) => S;
  readonly subtract: (a: S, b: S) => S;
  /** A function that gives x of A·x = b for any b, or null where A is singular; b does not take part in that decision. */
  readonly factor: (rows: readonly (readonly S[])[]) => ((b: readonly S[]) => readonly S[]) | null;
};

// mathjs's lusolve answers some singular systems with one of their infinitely many solutions and throws for others.
// So the pivots of U are looked at first, and every answer is put back into the equations. It also leaves the plain
// number 0 among fractions and complex numbers, hence the conversions of what it returns.

/** Rational numbers, s = 0. */
export const rationalField: Field<Fraction> = {
  number: (value) => value,
  timesS: () => exact.fraction(0),
  subtract: (a, b) => exact.subtract(a, b) as Fraction,
  factor(rows) {
    const decomposition = exact.lup(exact.matrix(rows.map((row) => [...row])));
    const pivots = exact.diag(decomposition.U).valueOf() as unknown as Fraction[];
    if (pivots.some((pivot) => exact.isZero(pivot))) return null;
    return (b) => {
      const column = exact.matrix(b.map((value) => [value])) as never;
      const solved = exact.lusolve(decomposition as never, column).valueOf() as unknown as Fraction[][];
      const x = solved.flat().map((value) => exact.fraction(value) as Fraction);
      for (const [index, row] of rows.entries()) expectZero(exactResidual(row, x, b[index] as Fraction), index);
      return x;
    };
  },
};

function exactResidual(row: readonly Fraction[], x: readonly Fraction[], b: Fraction): Fraction {
  let rest = b;
  for (const [column, coefficient] of row.entries()) {
    if (exact.isZero(coefficient)) continue;
    rest = exact.subtract(rest, exact.multiply(coefficient, x[column] as Fraction)) as Fraction;
  }
  return rest;
}

function expectZero(residual: Fraction, row: number): void {
  if (!exact.isZero(residual)) throw new Error(`mathjs left a residual of ${residual.toString()} in row ${row}`);
}

/** Complex doubles, s = jω with ω in rad/s. */
export function phasorField(omega: number): Field<Complex> {
  return {
    number: (value) => complex(value.valueOf(), 0),
    timesS: (value) => complex(0, omega * value.valueOf()),
    subtract: (a, b) => subtract(a, b),
    factor: factorPhasors,
  };
}

function factorPhasors(rows: readonly (readonly Complex[])[]): ((b: readonly Complex[]) => readonly Complex[]) | null {
  // Farads and ohms differ by many powers of ten: each equation is divided by its greatest coefficient.
  const scales = rows.map((row) => Math.max(...row.map(magnitude)));
  if (scales.includes(0)) return null;
  const scaled = rows.map((row, index) => row.map((value) => over(value, scales[index])));
  const decomposition = lup(matrix(scaled));
  const pivots = (diag(decomposition.U).valueOf() as unknown as Complex[]).map(magnitude);
  // An entry left over from cancelled ones of size 1 is a few units of the last place, not 0.
  if (Math.min(...pivots) < 1e-13) return null;
  return (b) => {
    const right = b.map((value, index) => over(value, scales[index]));
    const column = matrix(right.map((value) => [value])) as never;
    const solved = lusolve(decomposition as never, column).valueOf() as unknown as (Complex | number)[][];
    const x = solved.flat().map((value) => complex(value as Complex));
    const size = Math.max(...x.map(magnitude), ...right.map(magnitude));
    for (const [index, row] of scaled.entries()) {
      const residual = magnitude(phasorResidual(row, x, right[index] as Complex));
      if (residual > 1e-12 * size) throw new Error(`mathjs left a residual of ${residual} in row ${index}`);
    }
    return x;
  };
}

function phasorResidual(row: readonly Complex[], x: readonly Complex[], b: Complex): Complex {
  return row.reduce((rest, value, column) => subtract(rest, multiply(value, x[column] as Complex) as Complex), b);
}

function over(value: Complex, scale: number | undefined): Complex {
  return divide(value, scale ?? 1) as Complex;
}

function magnitude(value: Complex): number {
  return Number(abs(value));
}
