import type { PartId } from "../circuit";
import type { Frequency, Rational } from "../quantity";
import { add, multiply, toNumber, ZERO } from "../quantity";
import { addComplex, type Complex, complex, conjugate, multiplyComplex } from "./complex";
import type { Response } from "./equations";
import type { ConstantSet, Solution, SolvedSet } from "./solve";

/** A number: exact, or a double. */
export type Constant =
  | { readonly numbers: "exact"; readonly value: Rational }
  | { readonly numbers: "doubles"; readonly value: number };

/**
 * A quantity in the steady state: a constant part (null where no constant source acts) and a phasor a frequency.
 * Phasors of different frequencies are never added; such an amount is a sum in time.
 */
export type Amount = { readonly constant: Constant | null; readonly phasors: readonly PhasorTerm[] };
export type PhasorTerm = { readonly frequency: Frequency; readonly omega: number; readonly value: Complex };

export function numberOf(constant: Constant): number {
  return constant.numbers === "doubles" ? constant.value : toNumber(constant.value);
}

/** a + b, exact where both are. */
export function addConstants(a: Constant, b: Constant): Constant {
  if (a.numbers === "exact" && b.numbers === "exact") return { numbers: "exact", value: add(a.value, b.value) };
  return { numbers: "doubles", value: numberOf(a) + numberOf(b) };
}

/** One reading of a constant set, whatever numbers it is in. */
export function onConstant<R>(set: ConstantSet, of: <T>(set: SolvedSet<T>) => R): R {
  return set.numbers === "exact" ? of(set) : of(set);
}

/** Reads each set of a solution with one function, whatever numbers the set is in. */
export function amountOf(solution: Solution, of: <T>(set: SolvedSet<T>) => T): Amount {
  return {
    constant: solution.dc && constantOf(solution.dc, of),
    phasors: solution.sinusoids.map((set) => phasorTerm(set, of(set))),
  };
}

export function constantOf(set: ConstantSet, of: <T>(set: SolvedSet<T>) => T): Constant {
  if (set.numbers === "exact") return { numbers: "exact", value: of(set) };
  return { numbers: "doubles", value: of(set).re };
}

export function phasorTerm(set: SolvedSet<Complex>, value: Complex): PhasorTerm {
  const { frequency, omega } = set.stimulus;
  if (frequency === null) throw new Error("phasorTerm: a constant set has no phasors");
  return { frequency, omega, value };
}

/**
 * Power absorbed by a part, from what `of` gives of each set: exact for constants, the mean over time for sinusoids.
 * Means of different frequencies add, since the product of two frequencies has no mean.
 */
export function powerOf(solution: Solution, part: PartId, of: <T>(set: SolvedSet<T>) => Response<T>): Amount {
  const constant = solution.dc && constantPower(solution.dc, part, of);
  if (solution.sinusoids.length === 0) return { constant, phasors: [] };
  const factor = solution.measure === "rms" ? 1 : 0.5;
  const mean = solution.sinusoids.reduce(
    (total, set) => total + factor * complexPower(set, part, of(set)).re,
    constant === null ? 0 : numberOf(constant),
  );
  return { constant: { numbers: "doubles", value: mean }, phasors: [] };
}

function constantPower(set: ConstantSet, part: PartId, of: <T>(set: SolvedSet<T>) => Response<T>): Constant {
  if (set.numbers === "doubles") return { numbers: "doubles", value: complexPower(set, part, of(set)).re };
  const { branchVoltages, branchCurrents } = of(set);
  const value = set.network.branches.reduce(
    (total, branch, i) =>
      branch.part === part ? add(total, multiply(branchVoltages[i] as Rational, branchCurrents[i] as Rational)) : total,
    ZERO,
  );
  return { numbers: "exact", value };
}

function complexPower(set: SolvedSet<Complex>, part: PartId, response: Response<Complex>): Complex {
  return set.network.branches.reduce((total, branch, i) => {
    if (branch.part !== part) return total;
    const current = conjugate(response.branchCurrents[i] as Complex);
    return addComplex(total, multiplyComplex(response.branchVoltages[i] as Complex, current));
  }, complex(0));
}
