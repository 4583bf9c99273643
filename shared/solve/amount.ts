import type { PartId } from "../circuit";
import type { Frequency, Rational } from "../quantity";
import { add, multiply, negate, sum, toNumber, ZERO } from "../quantity";
import { addComplex, type Complex, complex, conjugate, multiplyComplex } from "./complex";
import type { Response } from "./equations";
import type { BranchIndex, Network } from "./network";
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

/** 0, of any unit. */
export const NOTHING: Constant = { numbers: "exact", value: ZERO };

export function negateConstant(a: Constant): Constant {
  return a.numbers === "exact" ? { numbers: "exact", value: negate(a.value) } : { numbers: "doubles", value: -a.value };
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

/**
 * Reads each set of a solution with one function, whatever numbers the set is in. With `sources`, only the sets in
 * which one of them acts: what is left out is 0 for certain, not only to rounding.
 */
export function amountOf(
  solution: Solution,
  of: <T>(set: SolvedSet<T>) => T,
  sources: readonly PartId[] | null = null,
): Amount {
  const { dc, sinusoids } = solution;
  return {
    constant: dc !== null && isReached(dc.network, sources) ? constantOf(dc, of) : null,
    phasors: sinusoids.filter(({ network }) => isReached(network, sources)).map((set) => phasorTerm(set, of(set))),
  };
}

/** Whether one of these sources acts in a network; always with null, which stands for all that there are. */
export function isReached(
  network: { readonly sources: readonly PartId[] },
  sources: readonly PartId[] | null,
): boolean {
  return sources === null || network.sources.some((id) => sources.includes(id));
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
 * Power absorbed by a part (both windings of a transformer) or by one branch, from what `of` gives of each set: exact for constants, the mean over time for sinusoids.
 * Means of different frequencies add, since the product of two frequencies has no mean.
 */
export function powerOf(
  solution: Solution,
  part: PartId | BranchIndex,
  of: <T>(set: SolvedSet<T>) => Response<T>,
): Amount {
  const constant = solution.dc && constantPower(solution.dc, part, of);
  if (solution.sinusoids.length === 0) return { constant, phasors: [] };
  const factor = solution.measure === "rms" ? 1 : 0.5;
  const mean = solution.sinusoids.reduce(
    (total, set) => total + factor * complexPower(set, part, of(set)).re,
    constant === null ? 0 : numberOf(constant),
  );
  return { constant: { numbers: "doubles", value: mean }, phasors: [] };
}

function constantPower(
  set: ConstantSet,
  part: PartId | BranchIndex,
  of: <T>(set: SolvedSet<T>) => Response<T>,
): Constant {
  if (set.numbers === "doubles") return { numbers: "doubles", value: complexPower(set, part, of(set)).re };
  const response = of(set);
  const powers = branchesOf(set.network, part).map((i) =>
    multiply(response.branchVoltage(i), response.branchCurrent(i)),
  );
  return { numbers: "exact", value: sum(powers) };
}

/** v · conjugate i. */
function complexPower(set: SolvedSet<Complex>, part: PartId | BranchIndex, response: Response<Complex>): Complex {
  return branchesOf(set.network, part).reduce((total, i) => {
    const current = conjugate(response.branchCurrent(i));
    return addComplex(total, multiplyComplex(response.branchVoltage(i), current));
  }, complex(0));
}

function branchesOf<T>(network: Network<T>, part: PartId | BranchIndex): readonly BranchIndex[] {
  if (typeof part === "number") return [part];
  return network.branches.flatMap((branch, i) => (branch.part === part ? [i] : []));
}
