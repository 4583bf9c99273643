import type { Circuit, NodeId, Part, PartId } from "../circuit";
import type { SolvedSet } from "../solve";
import { blocksOf } from "../solve/blocks";
import type { Response } from "../solve/equations";
import type { Branch, BranchIndex, Law, NodeIndex } from "../solve/network";
import { nodeSets } from "../solve/nodeSets";
import { respondTo } from "../solve/superposition";
import type { Zeroed } from "./line";
import type { Numerals } from "./numerals";

/**
 * A circuit with some of its sources acting, at DC or one frequency: zeroed sources are shorts and opens, shorts have
 * joined their nodes, and what carries nothing is out.
 */
export type Acting<T> = {
  readonly circuit: Circuit;
  readonly set: SolvedSet<T>;
  readonly numerals: Numerals<T>;
  readonly response: Response<T>;
  /** The sources that are on. */
  readonly on: readonly PartId[];
  /** Laws of the branches, those of zeroed sources replaced. */
  readonly laws: readonly Law<T>[];
  /** The node that stands for all that shorts, and parts without current, join to it. */
  readonly joined: (node: NodeIndex) => NodeIndex;
  /** Branches that are left. */
  readonly live: readonly BranchIndex[];
  /** Shorts that a source follows the current of: kept as branches of 0 V. */
  readonly held: ReadonlySet<BranchIndex>;
  readonly zeroed: readonly Zeroed[];
  /** Admittances with both ends joined by shorts, and those off every closed path from a source. */
  readonly shorted: readonly BranchIndex[];
  readonly idle: readonly BranchIndex[];
  /** Parts that a rewriting has made, and the parts of the first circuit that each stands for. */
  readonly standsFor: ReadonlyMap<string, readonly string[]>;
};

export function actingOn<T>(
  circuit: Circuit,
  set: SolvedSet<T>,
  sources: readonly PartId[] | null,
  numerals: Numerals<T>,
): Acting<T> {
  const { network } = set;
  const on = network.sources.filter((id) => sources === null || sources.includes(id));
  const isOn = (id: PartId): boolean => on.includes(id);
  const laws = network.branches.map(({ part, law }): Law<T> => {
    if (law.kind === "voltage" && (law.source === null || !isOn(part))) return { kind: "short" };
    if (law.kind === "current" && (law.source === null || !isOn(part))) return { kind: "open" };
    return law;
  });
  const held = new Set<BranchIndex>();
  for (const law of laws) {
    if ((law.kind === "ccvs" || law.kind === "cccs") && laws[law.control]?.kind === "short") held.add(law.control);
  }
  const sets = nodeSets(network.nodes.length);
  laws.forEach((law, i) => {
    const { plus, minus } = network.branches[i] as Branch<T>;
    if (law.kind === "short" && !held.has(i)) sets.join(plus, minus);
  });
  const ends = (i: BranchIndex): readonly [NodeIndex, NodeIndex] => {
    const { plus, minus } = network.branches[i] as Branch<T>;
    return [sets.find(plus), sets.find(minus)];
  };
  const all = laws.flatMap((law, i) => (law.kind === "open" || (law.kind === "short" && !held.has(i)) ? [] : [i]));
  const isAcross = (i: BranchIndex): boolean => ends(i)[0] === ends(i)[1];
  const shorted = all.filter((i) => laws[i]?.kind === "admittance" && isAcross(i));
  const candidates = all.filter((i) => !isAcross(i));
  const blocks = blocksOf(candidates.map((i) => ({ edge: i, ends: ends(i) })));
  const idle = blocks.filter((block) => block.every((i) => laws[i]?.kind === "admittance")).flat();
  for (const i of idle) sets.join(...ends(i));
  const out = new Set([...shorted, ...idle]);
  return {
    circuit,
    set,
    numerals,
    response: sources === null ? set.total : respondTo(set, on),
    on,
    laws,
    joined: (node) => sets.find(node),
    live: all.filter((i) => !out.has(i)),
    held,
    zeroed: circuit.parts.flatMap((part) => zeroedSource(part, isOn)),
    shorted,
    idle: idle.sort((a, b) => a - b),
    standsFor: new Map(),
  };
}

function zeroedSource(part: Part, isOn: (id: PartId) => boolean): Zeroed[] {
  if (isOn(part.id)) return [];
  if (part.kind === "voltage-source") return [{ source: part.id, is: "voltage source", becomes: "short" }];
  if (part.kind === "current-source") return [{ source: part.id, is: "current source", becomes: "open" }];
  return [];
}

export function branchOf<T>({ set }: Acting<T>, i: BranchIndex): Branch<T> {
  return set.network.branches[i] as Branch<T>;
}

export function nodeName<T>({ set }: Acting<T>, node: NodeIndex): NodeId {
  return set.network.nodes[node] as NodeId;
}

/** The name of a group of joined nodes: the reference where it is among them, else the first that was drawn. */
export function joinedName<T>(acting: Acting<T>, node: NodeIndex): NodeId {
  return nodeName(acting, acting.joined(node));
}

/** A branch's ends among joined nodes. */
export function endsOf<T>(acting: Acting<T>, i: BranchIndex): { readonly plus: NodeIndex; readonly minus: NodeIndex } {
  const { plus, minus } = branchOf(acting, i);
  return { plus: acting.joined(plus), minus: acting.joined(minus) };
}

/** Whether something besides resistances and independent sources is left. */
export function isCoupled<T>(acting: Acting<T>): boolean {
  return acting.live.some((i) => {
    const kind = acting.laws[i]?.kind;
    return kind !== "admittance" && kind !== "voltage" && kind !== "current";
  });
}
