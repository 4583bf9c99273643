import type { NodeId, Part, PartId } from "../circuit";
import type { BranchIndex, NodeIndex } from "../solve/network";
import { type Acting, branchOf, endsOf, joinedName } from "./acting";
import { type Expr, known, minus, negative } from "./expression";
import { currentName, impedanceName, type Name, symbolOf, voltageName } from "./names";
import type { Found } from "./nodeEquations";

/** Symbols for what the parts of an acting circuit are and do, with the solver's values. */

export function partOf<T>(acting: Acting<T>, i: BranchIndex): Part {
  const { part } = branchOf(acting, i);
  const found = acting.circuit.parts.find(({ id }) => id === part);
  if (found === undefined) throw new Error(`partOf: ${part} is not in the circuit`);
  return found;
}

/** R3 itself, or Z(C1) for what is not a resistance. */
export function impedanceOf<T>(acting: Acting<T>, i: BranchIndex): Expr<T> {
  const law = acting.laws[i];
  if (law?.kind !== "admittance") throw new Error(`impedanceOf: ${branchOf(acting, i).part} has none`);
  const { part } = branchOf(acting, i);
  const name = partOf(acting, i).kind === "resistor" ? symbolOf(part) : impedanceName(part);
  return known(name, law.impedance, "Ω");
}

/** The value of an independent source that is on. */
export function sourceValueOf<T>(acting: Acting<T>, i: BranchIndex): Expr<T> {
  const law = acting.laws[i];
  const { part } = branchOf(acting, i);
  if ((law?.kind !== "voltage" && law?.kind !== "current") || law.source === null) {
    throw new Error(`sourceValueOf: ${part} is no source that is on`);
  }
  return known(symbolOf(part), acting.set.values[law.source] as T, law.kind === "voltage" ? "V" : "A");
}

/** What a branch is called where its current is spoken of; a transformer has two. */
export function branchLabel<T>(acting: Acting<T>, i: BranchIndex): string {
  const { part, winding } = branchOf(acting, i);
  return partOf(acting, i).kind === "ideal-transformer" ? `${part} ${winding}` : part;
}

export function branchCurrentName<T>(acting: Acting<T>, i: BranchIndex): Name {
  return currentName(branchLabel(acting, i));
}

/** The ratio of a transformer, called n by the transformer's name. */
export function ratioOf<T>(acting: Acting<T>, i: BranchIndex): Expr<T> {
  const law = acting.laws[i];
  if (law?.kind !== "primary" && law?.kind !== "secondary") throw new Error("ratioOf: not a winding");
  const { id } = partOf(acting, i);
  return known({ text: `n(${id})`, latex: `n_{${symbolOf(id).latex}}` }, law.ratio, "1");
}

/** Solver's voltage of one joined node less that of another. */
export function voltageBetween<T>({ response, set }: Acting<T>, from: NodeIndex, to: NodeIndex): T {
  const { add, negate } = set.arithmetic;
  return add(response.nodeVoltage(from), negate(response.nodeVoltage(to)));
}

/** `V(a)` or `V(a, b)`, by the joined nodes' names. */
export function pairName<T>(acting: Acting<T>, from: NodeIndex, to: NodeIndex): Name {
  const reference = acting.joined(acting.set.network.reference);
  const ends: readonly NodeId[] = [joinedName(acting, from), joinedName(acting, to)];
  return voltageName(ends[0] as NodeId, acting.joined(to) === reference ? null : (ends[1] as NodeId));
}

/** The difference of two expressions of which one may be 0, the reference's. */
export function difference<T>(from: Expr<T> | null, to: Expr<T> | null): Expr<T> | null {
  if (from === to) return null;
  if (from === null) return to === null ? null : negative(to);
  return to === null ? from : minus(from, to);
}

export function endNames<T>(acting: Acting<T>, i: BranchIndex): readonly [NodeId, NodeId] {
  const { plus, minus: other } = endsOf(acting, i);
  return [joinedName(acting, plus), joinedName(acting, other)];
}

/** Places of the branches of a part. */
export function placesOf<T>(acting: Acting<T>, part: PartId): BranchIndex[] {
  return acting.set.network.branches.flatMap((branch, i) => (branch.part === part ? [i] : []));
}

/** The voltage from one node to another in what equations have found. */
export function voltageFrom<T>(found: Found<T>, from: NodeIndex, to: NodeIndex): Expr<T> | null {
  return found.between ? found.between(from, to) : difference(found.nodeVoltage(from), found.nodeVoltage(to));
}
