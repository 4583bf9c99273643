import type { Direction, NodeId, PartId, Winding } from "../circuit";
import { type Amount, amountOf, constantOf, onConstant, phasorTerm } from "./amount";
import type { Arithmetic } from "./arithmetic";
import type { Response } from "./equations";
import type { Branch, Network } from "./network";
import { combine, type Solution, type SolvedSet } from "./solve";

/** What sources acting together give, the others zeroed. */
export type Addend = {
  readonly sources: readonly PartId[];
  readonly amount: Amount;
  /** Response to 1 V or 1 A of the source; null for a group. */
  readonly coefficient: Amount | null;
};

/** Sets of sources that act together; by default each source alone, in the circuit's order. */
export type Grouping = readonly (readonly PartId[])[];

/** Something linear in the sources: the current of a branch, or the voltage between two nodes. */
export type Linear =
  | { readonly kind: "current"; readonly through: PartId; readonly winding: Winding; readonly direction: Direction }
  | { readonly kind: "voltage"; readonly from: NodeId; readonly to: NodeId };

/** What a response gives to a linear quantity. */
export function readLinear<T>(
  network: Network<T>,
  arithmetic: Arithmetic<T>,
  response: Response<T>,
  linear: Linear,
): T {
  const { add: plus, negate: minus } = arithmetic;
  if (linear.kind === "current") {
    const branch = branchIndex(network, linear.through, linear.winding);
    const current = response.branchCurrent(branch);
    return linear.direction === "forward" ? current : minus(current);
  }
  const [from, to] = [nodeIndex(network, linear.from), nodeIndex(network, linear.to)];
  return plus(response.nodeVoltage(from), minus(response.nodeVoltage(to)));
}

/** Place of a branch, −1 where there is none. */
export function branchIndex<T>(network: Network<T>, part: PartId, winding: Winding): number {
  return network.branches.findIndex((branch) => branch.part === part && branch.winding === winding);
}

/** Place of a node, −1 where there is none. */
export function nodeIndex<T>(network: Network<T>, node: NodeId): number {
  return network.nodes.indexOf(node);
}

/** Parts among which a wanted current may split in any way, or [] for a voltage that nothing fixes; null if all is well. */
export function undeterminedParts(solution: Solution, linear: Linear): PartId[] | null {
  const check = <T>(set: SolvedSet<T>): PartId[] | null => {
    if (linear.kind === "current") {
      if (!set.undetermined.has(branchIndex(set.network, linear.through, linear.winding))) return null;
      return [...set.undetermined].map((i) => (set.network.branches[i] as Branch<T>).part);
    }
    const [from, to] = [nodeIndex(set.network, linear.from), nodeIndex(set.network, linear.to)];
    return set.structure.sectionOf[from] === set.structure.sectionOf[to] ? null : [];
  };
  return (solution.dc && onConstant(solution.dc, check)) ?? firstOf(solution.sinusoids, check);
}

function firstOf<A, B>(items: readonly A[], pick: (item: A) => B | null): B | null {
  for (const item of items) {
    const picked = pick(item);
    if (picked !== null) return picked;
  }
  return null;
}

/** Total and addends of something linear; that the addends add up to the total is superposition. */
export function superposed(
  solution: Solution,
  linear: Linear,
  grouping: Grouping,
): { readonly total: Amount; readonly addends: readonly Addend[] } {
  const total = amountOf(solution, (set) => readLinear(set.network, set.arithmetic, set.total, linear));
  const addends = grouping.map((sources): Addend => {
    const amount = amountOf(solution, (set) => weighed(set, sources, linear), sources);
    const coefficient = sources.length === 1 ? coefficientOf(solution, sources[0] as PartId, linear) : null;
    return { sources, amount, coefficient };
  });
  return { total, addends };
}

function weighed<T>(set: SolvedSet<T>, sources: readonly PartId[], linear: Linear): T {
  const { arithmetic, network } = set;
  return sources.reduce((total, id) => {
    const s = network.sources.indexOf(id);
    if (s < 0) return total;
    const coefficient = readLinear(network, arithmetic, set.ofSources[s] as Response<T>, linear);
    return arithmetic.add(total, arithmetic.multiply(coefficient, set.values[s] as T));
  }, arithmetic.zero);
}

/** The response to 1 V or 1 A of a source, at the one frequency at which it acts. */
function coefficientOf(solution: Solution, source: PartId, linear: Linear): Amount | null {
  const { dc, sinusoids } = solution;
  if (dc?.network.sources.includes(source)) {
    return { constant: constantOf(dc, (set) => readSource(set, source, linear)), phasors: [] };
  }
  const set = sinusoids.find(({ network }) => network.sources.includes(source));
  return set ? { constant: null, phasors: [phasorTerm(set, readSource(set, source, linear))] } : null;
}

function readSource<T>({ network, arithmetic, ofSources }: SolvedSet<T>, source: PartId, linear: Linear): T {
  return readLinear(network, arithmetic, ofSources[network.sources.indexOf(source)] as Response<T>, linear);
}

/** What some sources give together, the others zeroed: every voltage and current of one set. */
export function respondTo<T>(set: SolvedSet<T>, sources: readonly PartId[]): Response<T> {
  const { network, arithmetic, values } = set;
  const acting = network.sources.map((id, s) => (sources.includes(id) ? (values[s] as T) : arithmetic.zero));
  return combine(arithmetic, set.ofSources, acting);
}
