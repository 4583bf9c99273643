import type { Rational } from "../quantity";
import { add, divide, isZero, multiply, negate, ONE, toNumber, ZERO } from "../quantity";
import { type Complex, complex, divideComplex, magnitude, multiplyComplex } from "./complex";
import { addSettled, eliminateInDoubles } from "./doubleElimination";
import { solveExactly } from "./exactElimination";

/**
 * Equations A·x = B with one column of B a right-hand side. `rows[i]` lists entries of A by column; several for one
 * column add up. `rightHandSides[s]` maps a row to its entry. `order` is the number of rows and of columns.
 */
export type LinearSystem<T> = {
  readonly order: number;
  readonly rows: readonly Iterable<Term<T>>[];
  readonly rightHandSides: readonly ReadonlyMap<number, T>[];
};

/**
 * `solution` reads x; `residual` is max|A·x − b| over the sizes of the terms that make it up, 0 when exact.
 * Where A is singular, whatever B is, `nullVector` is an x ≠ 0 with A·x = 0.
 */
export type Elimination<T> =
  | { readonly ok: true; readonly solution: SolutionReader<T>; readonly residual: number }
  | { readonly ok: false; readonly nullVector: readonly T[] };

/**
 * Σ coefficient · x(unknown) for one right-hand side, worked out when it is asked for: a whole sum at a time, since
 * exact numbers over one denominator add for nothing and cost only once they are reduced.
 */
export type SolutionReader<T> = (side: number, terms: readonly Term<T>[]) => T;
export type Term<T> = readonly [unknown: number, coefficient: T];

/** What the equations of a circuit need of the numbers they are written in. */
export type Arithmetic<T> = {
  readonly isExact: boolean;
  readonly zero: T;
  readonly one: T;
  add(a: T, b: T): T;
  negate(a: T): T;
  multiply(a: T, b: T): T;
  /** Throws or gives non-finite parts where b is 0: callers know that it is not. */
  divide(a: T, b: T): T;
  isZero(a: T): boolean;
  fromRational(a: Rational): T;
  /** Size for comparisons, in doubles. */
  size(a: T): number;
  solve(system: LinearSystem<T>): Elimination<T>;
};

/** Rationals: every answer is exact and a singular matrix is known for certain. */
export const exactArithmetic: Arithmetic<Rational> = {
  isExact: true,
  zero: ZERO,
  one: ONE,
  add,
  negate,
  multiply,
  divide,
  isZero,
  fromRational: (a) => a,
  size: (a) => Math.abs(toNumber(a)),
  solve: solveExactly,
};

/** Complex doubles: phasors, and DC circuits too large for rationals. */
export const doubleArithmetic: Arithmetic<Complex> = {
  isExact: false,
  zero: complex(0),
  one: complex(1),
  add: addSettled,
  negate: (a) => complex(-a.re, -a.im),
  multiply: multiplyComplex,
  divide: divideComplex,
  isZero: (a) => a.re === 0 && a.im === 0,
  fromRational: (a) => complex(toNumber(a)),
  size: magnitude,
  solve: eliminateInDoubles,
};
