import type { PartId } from "../circuit";
import {
  addConstants,
  amountOf,
  type Constant,
  NOTHING,
  negateConstant,
  numberOf,
  onConstant,
  powerOf,
} from "./amount";
import type { Response } from "./equations";
import type { NodeReport, PartReport, Report, Shown } from "./report";
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
  const isTied = (plus: number, minus: number): boolean =>
    everySet(solution, ({ structure }) => structure.sectionOf[plus] === structure.sectionOf[minus]);
  const voltageOf = (node: number): Shown | null => {
    // The reference is at 0 V by definition, also where the rest is solved in doubles.
    if (node === any.network.reference) return write({ constant: NOTHING, phasors: [] }, "V");
    return isDetermined(node)
      ? write(
          amountOf(solution, (set) => of(set).nodeVoltage(node), sources),
          "V",
        )
      : null;
  };
  const twoWindings = new Set(any.network.branches.flatMap((b) => (b.winding === "secondary" ? [b.part] : [])));
  return {
    nodes: any.network.nodes.map((node, i) => ({ node, voltage: voltageOf(i) })),
    parts: any.network.branches.map(({ part, winding, plus, minus }, i) => ({
      branch: twoWindings.has(part) ? `${part} ${winding}` : part,
      part,
      plus: any.network.nodes[plus] as string,
      minus: any.network.nodes[minus] as string,
      voltage: isTied(plus, minus)
        ? write(
            amountOf(solution, (set) => of(set).branchVoltage(i), sources),
            "V",
          )
        : null,
      current: hasCurrent(i)
        ? write(
            amountOf(solution, (set) => of(set).branchCurrent(i), sources),
            "A",
          )
        : null,
      power: write(powerOf(solution, i, of), "W"),
    })),
  };
}

function everySet(solution: Solution, test: <T>(set: SolvedSet<T>) => boolean): boolean {
  const { dc, sinusoids } = solution;
  return (dc === null || onConstant(dc, test)) && sinusoids.every((set) => test(set));
}

/**
 * Power supplied and absorbed over all parts, and their difference: exactly 0 for constant sources (Tellegen's
 * theorem), 0 to rounding otherwise. Null without a solution.
 */
export function powerBalance(solution: Solution, write: Writer): Report["powerBalance"] {
  if (!solution.isSolved) return null;
  // By part: what an ideal transformer takes at one winding and gives at the other is neither absorbed nor supplied.
  const parts = new Set((solution.dc ?? solution.sinusoids[0])?.network.branches.map(({ part }) => part));
  let supplied = NOTHING;
  let absorbed = NOTHING;
  for (const part of parts) {
    const power = powerOf(solution, part, (set) => set.total).constant ?? NOTHING;
    if (numberOf(power) < 0) supplied = addConstants(supplied, negateConstant(power));
    else absorbed = addConstants(absorbed, power);
  }
  const watts = (constant: Constant): Shown => write({ constant, phasors: [] }, "W");
  const difference = addConstants(supplied, negateConstant(absorbed));
  return { supplied: watts(supplied), absorbed: watts(absorbed), difference: watts(difference) };
}
