import type { PartId } from "../circuit";
import { add, isZero, multiply, negate, type Rational, signOf, ZERO } from "../quantity";
import { type Amount, amountOf, numberOf, onConstant, powerOf } from "./amount";
import type { Response } from "./equations";
import type { NodeReport, PartReport, Report } from "./report";
import type { Writer } from "./shown";
import type { Solution, SolvedSet } from "./solve";
import { respondTo } from "./superposition";

/** Every node voltage, branch voltage, branch current and power with some sources acting; null for all of them. */
export function sheetOf(
  solution: Solution,
  sources: readonly PartId[] | null,
  write: Writer,
): { readonly nodes: readonly NodeReport[]; readonly parts: readonly PartReport[] } {
  const any = solution.dc ?? solution.sinusoids[0];
  if (!solution.isSolved || any === undefined) return { nodes: [], parts: [] };
  const responses = new Map<unknown, unknown>();
  const of = <T>(set: SolvedSet<T>): Response<T> => {
    const known = responses.get(set) as Response<T> | undefined;
    const response = known ?? (sources === null ? set.total : respondTo(set, sources));
    responses.set(set, response);
    return response;
  };
  const isDetermined = (node: number): boolean =>
    everySet(solution, (set) => set.structure.isDetermined[node] === true);
  const hasCurrent = (branch: number): boolean => everySet(solution, (set) => !set.undetermined.has(branch));
  const powers = partPowers(
    solution,
    any.network.branches.map((branch) => branch.part),
    of,
  );
  const twoWindings = new Set(any.network.branches.flatMap((b) => (b.winding === "secondary" ? [b.part] : [])));
  return {
    nodes: any.network.nodes.map((node, i) => ({
      node,
      voltage: isDetermined(i)
        ? write(
            amountOf(solution, <T>(set: SolvedSet<T>) => of(set).nodeVoltages[i] as T),
            "V",
          )
        : null,
    })),
    parts: any.network.branches.map(({ part, winding, plus, minus }, i) => ({
      branch: twoWindings.has(part) ? `${part} ${winding}` : part,
      part,
      plus: any.network.nodes[plus] as string,
      minus: any.network.nodes[minus] as string,
      voltage: write(
        amountOf(solution, <T>(set: SolvedSet<T>) => of(set).branchVoltages[i] as T),
        "V",
      ),
      current: hasCurrent(i)
        ? write(
            amountOf(solution, <T>(set: SolvedSet<T>) => of(set).branchCurrents[i] as T),
            "A",
          )
        : null,
      power: hasCurrent(i) && winding === "primary" ? write(powers.get(part) as Amount, "W") : null,
    })),
  };
}

function everySet(solution: Solution, test: <T>(set: SolvedSet<T>) => boolean): boolean {
  const { dc, sinusoids } = solution;
  return (dc === null || onConstant(dc, test)) && sinusoids.every((set) => test(set));
}

function partPowers(
  solution: Solution,
  parts: readonly PartId[],
  of: <T>(set: SolvedSet<T>) => Response<T>,
): ReadonlyMap<PartId, Amount> {
  return new Map([...new Set(parts)].map((part) => [part, powerOf(solution, part, of)]));
}

/**
 * Power supplied and absorbed over all parts, and their difference: exactly 0 for constant sources (Tellegen's
 * theorem), 0 to rounding otherwise. Shorts whose current is
 * not determined take no power all the same, having no voltage. Null without a solution.
 */
export function powerBalance(solution: Solution, write: Writer): Report["powerBalance"] {
  if (!solution.isSolved) return null;
  const { dc, sinusoids } = solution;
  let supplied: Amount;
  let absorbed: Amount;
  if (dc?.numbers === "exact" && sinusoids.length === 0) {
    const { negative, positive } = exactBalance(dc.total, dc.network.branches.length);
    supplied = { constant: { numbers: "exact", value: negate(negative) }, phasors: [] };
    absorbed = { constant: { numbers: "exact", value: positive }, phasors: [] };
    const difference = { numbers: "exact", value: negate(add(negative, positive)) } as const;
    return {
      supplied: write(supplied, "W"),
      absorbed: write(absorbed, "W"),
      difference: write({ constant: difference, phasors: [] }, "W"),
    };
  }
  const parts = new Set((dc ?? sinusoids[0])?.network.branches.map((branch) => branch.part));
  let given = 0;
  let taken = 0;
  for (const part of parts) {
    const power = powerOf(solution, part, (set) => set.total).constant;
    const value = power === null ? 0 : numberOf(power);
    if (value < 0) given -= value;
    else taken += value;
  }
  const watts = (value: number) => write({ constant: { numbers: "doubles", value }, phasors: [] }, "W");
  return { supplied: watts(given), absorbed: watts(taken), difference: watts(given - taken) };
}

function exactBalance(total: Response<Rational>, count: number): { negative: Rational; positive: Rational } {
  let negative = ZERO;
  let positive = ZERO;
  for (let i = 0; i < count; i++) {
    const power = multiply(total.branchVoltages[i] as Rational, total.branchCurrents[i] as Rational);
    if (signOf(power) < 0) negative = add(negative, power);
    else if (!isZero(power)) positive = add(positive, power);
  }
  return { negative, positive };
}
