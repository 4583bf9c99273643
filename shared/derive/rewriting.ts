import type { NodeId, Part, PartId } from "../circuit";
import { nodeId, partId } from "../circuit";
import { integer, quantity } from "../quantity";
import type { Response } from "../solve/equations";
import type { Branch, BranchIndex, Law, NodeIndex, Pair } from "../solve/network";
import type { Acting } from "./acting";
import type { Notebook } from "./notebook";

/** A part that stands for others: a resistance or impedance in Ω, a source in V or A with the current that it carries. */
export type StandIn<T> = Pair & {
  readonly id: PartId;
  /** The parts of the first circuit that it stands for. */
  readonly of: readonly string[];
} & (
    | { readonly kind: "resistor"; readonly impedance: T }
    | { readonly kind: "voltage-source"; readonly value: T; readonly current: T }
    | { readonly kind: "current-source"; readonly value: T }
  );

/** What becomes of a circuit: branches that go, parts and nodes that come. */
export type Change<T> = {
  readonly gone: readonly BranchIndex[];
  readonly come: readonly StandIn<T>[];
  /** Their indices follow those that there are. */
  readonly nodes: readonly { readonly name: NodeId; readonly voltage: T; readonly near: NodeIndex }[];
};

/** A circuit that does the same for what is wanted, and the lines that lead to it. */
export type Rewriting<T> = {
  readonly acting: Acting<T>;
  /** Its lines, as those of a shortcut are counted. */
  readonly cost: number;
  /** Branches of the circuit before whose impedances are put in. */
  readonly used: readonly BranchIndex[];
  write(notebook: Notebook<T>): void;
};

/** The circuit after a change, with what the solver has for it: voltages and currents of what is left are the same. */
export function changed<T>(acting: Acting<T>, { gone, come, nodes }: Change<T>): Acting<T> {
  const { set, response } = acting;
  const { network, structure, arithmetic } = set;
  const [branchCount, nodeCount] = [network.branches.length, network.nodes.length];
  const nodeVoltage = (node: NodeIndex): T =>
    node < nodeCount ? response.nodeVoltage(node) : (nodes[node - nodeCount]?.voltage as T);
  const between = ({ plus, minus }: Pair): T =>
    arithmetic.add(nodeVoltage(plus), arithmetic.negate(nodeVoltage(minus)));
  const after: Response<T> = {
    nodeVoltage,
    branchVoltage: (i) => {
      const standIn = come[i - branchCount];
      return standIn === undefined ? response.branchVoltage(i) : between(standIn);
    },
    branchCurrent: (i) => {
      const standIn = come[i - branchCount];
      if (standIn === undefined) return response.branchCurrent(i);
      if (standIn.kind === "resistor") return arithmetic.divide(between(standIn), standIn.impedance);
      return standIn.kind === "voltage-source" ? standIn.current : standIn.value;
    },
  };
  const sources = come.filter(({ kind }) => kind !== "resistor");
  const laws = come.map((standIn): Law<T> => {
    if (standIn.kind === "resistor") {
      const { impedance } = standIn;
      return { kind: "admittance", impedance, admittance: arithmetic.divide(arithmetic.one, impedance) };
    }
    const source = network.sources.length + sources.indexOf(standIn);
    return { kind: standIn.kind === "voltage-source" ? "voltage" : "current", source };
  });
  const branches = come.map(
    ({ id, plus, minus }, i): Branch<T> => ({ part: id, winding: "primary", plus, minus, law: laws[i] as Law<T> }),
  );
  return {
    ...acting,
    circuit: {
      ...acting.circuit,
      parts: [...acting.circuit.parts, ...come.map((each) => partFor(network.nodes, each))],
    },
    set: {
      ...set,
      network: {
        ...network,
        nodes: [...network.nodes, ...nodes.map(({ name }) => name)],
        branches: [...network.branches, ...branches],
        sources: [...network.sources, ...sources.map(({ id }) => id)],
      },
      structure: {
        ...structure,
        sectionOf: [...structure.sectionOf, ...nodes.map(({ near }) => structure.sectionOf[near] as NodeIndex)],
      },
      values: [...set.values, ...sources.map((each) => (each.kind === "resistor" ? arithmetic.zero : each.value))],
    },
    response: after,
    laws: [...acting.laws.map((law, i): Law<T> => (gone.includes(i) ? { kind: "open" } : law)), ...laws],
    joined: (node) => (node < nodeCount ? acting.joined(node) : node),
    live: [...acting.live.filter((i) => !gone.includes(i)), ...come.map((_, i) => branchCount + i)],
    standsFor: new Map([...acting.standsFor, ...come.map(({ id, of }) => [id, realParts(acting, of)] as const)]),
  };
}

/** Parts of the first circuit for names that may be stand-ins themselves. */
function realParts<T>({ standsFor }: Acting<T>, of: readonly string[]): readonly string[] {
  return [...new Set(of.flatMap((id) => standsFor.get(id) ?? [id]))];
}

/** A part for the circuit's list; its value is never read, since its law has it. */
function partFor<T>(nodes: readonly NodeId[], { id, kind, plus, minus }: StandIn<T>): Part {
  const ends = { plus: nodes[plus] ?? nodeId("new"), minus: nodes[minus] ?? nodeId("new") };
  switch (kind) {
    case "resistor":
      return { kind, id, ...ends, resistance: quantity(integer(1), "Ω") };
    case "voltage-source":
      return { kind, id, ...ends, voltage: { kind: "dc", value: quantity(integer(1), "V") } };
    case "current-source":
      return { kind, id, ...ends, current: { kind: "dc", value: quantity(integer(1), "A") } };
  }
}

/** A name that no part has yet. */
export function freshPart<T>({ circuit }: Acting<T>, wish: string, taken: readonly string[] = []): PartId {
  let name = wish;
  while (circuit.parts.some(({ id }) => id === name) || taken.includes(name)) name += "x";
  return partId(name);
}

/** A name that no node has yet. */
export function freshNode<T>({ set }: Acting<T>, wish: string): NodeId {
  let name = wish;
  while (set.network.nodes.some((node) => node === name)) name += "x";
  return nodeId(name);
}
