import type { Circuit, NodeId, PartId, Problem } from "../circuit";
import type { Rational } from "../quantity";
import { add, negate, ZERO } from "../quantity";
import { feedbackProblems } from "./feedback";
import type { Branch, BranchIndex, Network, NodeIndex } from "./network";
import { type NodeSets, nodeSets } from "./nodeSets";

/**
 * What the graph of a network says before any algebra.
 *
 * `sectionOf[node]` is the lowest node of its section: the nodes whose voltages are fixed relative to each other. That
 * node is the section's own reference. `isDetermined[node]` is false where a section's voltages relative to the rest are
 * anybody's guess. `kept[branch]` marks shorts that stay in the equations because a source follows their current.
 */
export type Structure = {
  readonly problems: readonly Problem[];
  readonly sectionOf: readonly NodeIndex[];
  readonly isDetermined: readonly boolean[];
  readonly kept: ReadonlySet<BranchIndex>;
};

/** Faults after which the equations have no single solution, so that solving makes no sense. */
export function structureOf<T>(network: Network<T>, circuit: Circuit): Structure {
  const constants = constantValues(circuit);
  const kept = keptShorts(network);
  const sections = sectionsOf(network);
  return {
    problems: [
      ...loopProblems(network, constants),
      ...sections.problems(constants),
      ...feedbackProblems(network),
      ...controlProblems(network, kept, sections.sets),
    ],
    sectionOf: network.nodes.map((_, node) => sections.sets.find(node)),
    isDetermined: network.nodes.map((_, node) => !sections.floating.has(sections.sets.find(node))),
    kept,
  };
}

/** Values of the constant sources; a sinusoid is left out. */
function constantValues(circuit: Circuit): ReadonlyMap<PartId, Rational> {
  const values = new Map<PartId, Rational>();
  for (const part of circuit.parts) {
    if (part.kind === "voltage-source" && part.voltage.kind === "dc") values.set(part.id, part.voltage.value);
    if (part.kind === "current-source" && part.current.kind === "dc") values.set(part.id, part.current.value);
  }
  return values;
}

function keptShorts<T>(network: Network<T>): Set<BranchIndex> {
  const kept = new Set<BranchIndex>();
  for (const { law } of network.branches) {
    if (law.kind !== "ccvs" && law.kind !== "cccs") continue;
    if (network.branches[law.control]?.law.kind === "short") kept.add(law.control);
  }
  return kept;
}

/** Sum of the values, each negated where its sign says so; null where one of the sources is a sinusoid. */
function sumOf(
  terms: readonly { part: PartId; sign: 1 | -1 }[],
  values: ReadonlyMap<PartId, Rational>,
): Rational | null {
  let total = ZERO;
  for (const { part, sign } of terms) {
    const value = values.get(part);
    if (value === undefined) return null;
    total = add(total, sign === 1 ? value : negate(value));
  }
  return total;
}

/** A step along a branch: sign 1 from its plus to its minus terminal. */
type Step = { readonly branch: BranchIndex; readonly to: NodeIndex; readonly sign: 1 | -1 };

/** Voltage sources that close a loop of voltage sources and shorts: equal or not, their currents are not determined. */
function loopProblems<T>(network: Network<T>, values: ReadonlyMap<PartId, Rational>): Problem[] {
  const problems: Problem[] = [];
  const sets = nodeSets(network.nodes.length);
  const steps: Step[][] = network.nodes.map(() => []);
  const tie = (index: BranchIndex, { plus, minus }: Branch<T>): boolean => {
    if (!sets.join(plus, minus)) return false;
    steps[plus]?.push({ branch: index, to: minus, sign: 1 });
    steps[minus]?.push({ branch: index, to: plus, sign: -1 });
    return true;
  };
  network.branches.forEach((branch, i) => {
    if (branch.law.kind === "short") tie(i, branch);
  });
  network.branches.forEach((branch, i) => {
    if (branch.law.kind !== "voltage" || tie(i, branch)) return;
    const path = pathBetween(steps, branch.minus, branch.plus);
    const around = [{ branch: i, sign: 1 as const }, ...path].map(({ branch: at, sign }) => {
      const { part, law } = network.branches[at] as Branch<T>;
      return { part, sign, isSource: law.kind === "voltage" };
    });
    const mismatch = sumOf(
      around.filter((step) => step.isSource),
      values,
    );
    const inOrder = [i, ...path.map((step) => step.branch)].sort((a, b) => a - b);
    const parts = inOrder.map((at) => (network.branches[at] as Branch<T>).part);
    problems.push({ code: "voltageSourceLoop", parts, mismatch });
  });
  return problems;
}

/** The steps from one node to another in a forest; the two are known to be joined. */
function pathBetween(steps: readonly (readonly Step[])[], from: NodeIndex, to: NodeIndex): Step[] {
  const arrival = new Map<NodeIndex, { step: Step; before: NodeIndex } | null>([[from, null]]);
  const queue = [from];
  for (let at = queue.pop(); at !== undefined && at !== to; at = queue.pop()) {
    for (const step of steps[at] ?? []) {
      if (arrival.has(step.to)) continue;
      arrival.set(step.to, { step, before: at });
      queue.push(step.to);
    }
  }
  const path: Step[] = [];
  for (let reached = arrival.get(to); reached; reached = arrival.get(reached.before)) path.unshift(reached.step);
  return path;
}

type Sections = {
  readonly sets: NodeSets;
  readonly floating: ReadonlySet<NodeIndex>;
  problems(values: ReadonlyMap<PartId, Rational>): Problem[];
};

/** Laws that leave the voltage between their two nodes entirely to the rest of the circuit. */
function leavesVoltageOpen<T>(branch: Branch<T>): boolean {
  return branch.law.kind === "open" || branch.law.kind === "current";
}

function sectionsOf<T>(network: Network<T>): Sections {
  const sets = nodeSets(network.nodes.length);
  for (const branch of network.branches) {
    if (!leavesVoltageOpen(branch)) sets.join(branch.plus, branch.minus);
    if (branch.law.kind === "opAmp") sets.join(branch.law.inputs.plus, branch.law.inputs.minus);
  }
  const roots = new Set(network.nodes.map((_, node) => sets.find(node)));
  roots.delete(sets.find(network.reference));
  const descriptions = [...roots].map((root) => describeSection(network, sets, root));
  const floating = new Set(descriptions.filter((d) => d.tie !== "transformer").map((d) => d.root));
  return {
    sets,
    floating,
    problems: (values) => descriptions.map((section) => sectionProblem(network, section, values)),
  };
}

type Section = {
  readonly root: NodeIndex;
  readonly nodes: readonly NodeIndex[];
  readonly inside: readonly PartId[];
  readonly crossing: readonly Branch<unknown>[];
  readonly heldOffBy: readonly PartId[];
  readonly tie: "current sources" | "transformer" | "open branches" | "nothing";
};

function describeSection<T>(network: Network<T>, sets: NodeSets, root: NodeIndex): Section {
  const isInside = (node: NodeIndex): boolean => sets.find(node) === root;
  const touching = network.branches.filter(({ plus, minus }) => isInside(plus) || isInside(minus));
  const crosses = ({ plus, minus }: Branch<T>): boolean => isInside(plus) !== isInside(minus);
  const crossing = touching.filter((branch) => crosses(branch) && branch.law.kind === "current");
  const heldOffBy = touching.filter((branch) => crosses(branch) && branch.law.kind === "open").map((b) => b.part);
  const isWindingHere = ({ law }: Branch<T>): boolean => law.kind === "primary" || law.kind === "secondary";
  const hasTransformer = touching.some(isWindingHere);
  return {
    root,
    nodes: network.nodes.flatMap((_, node) => (isInside(node) ? [node] : [])),
    inside: touching.filter((branch) => !crosses(branch)).map((branch) => branch.part),
    crossing,
    heldOffBy,
    tie:
      crossing.length > 0
        ? "current sources"
        : hasTransformer
          ? "transformer"
          : heldOffBy.length > 0
            ? "open branches"
            : "nothing",
  };
}

function sectionProblem<T>(network: Network<T>, section: Section, values: ReadonlyMap<PartId, Rational>): Problem {
  const nodes = section.nodes.map((node) => network.nodes[node] as NodeId);
  if (section.tie === "current sources") {
    const here = new Set(section.nodes);
    // A current runs through its source from plus to minus, so it enters the section where minus lies inside.
    const terms = section.crossing.map(({ part, minus }) => ({
      part,
      sign: here.has(minus) ? (1 as const) : (-1 as const),
    }));
    return { code: "currentSourceCut", parts: terms.map(({ part }) => part), nodes, mismatch: sumOf(terms, values) };
  }
  if (section.tie === "transformer") {
    const chosen = network.nodes[section.root] as NodeId;
    return { code: "isolatedSection", nodes, parts: section.inside, chosen };
  }
  return { code: "floatingSection", nodes, parts: section.inside, heldOffBy: section.heldOffBy };
}

/** Controls whose value the laws leave open: two nodes of different sections, or a short that others bypass. */
function controlProblems<T>(network: Network<T>, kept: ReadonlySet<BranchIndex>, sets: NodeSets): Problem[] {
  const shorted = nodeSets(network.nodes.length);
  network.branches.forEach((branch, i) => {
    if (branch.law.kind === "short" && !kept.has(i)) shorted.join(branch.plus, branch.minus);
  });
  const bypassed = new Set<BranchIndex>();
  for (const i of kept) {
    const { plus, minus } = network.branches[i] as Branch<T>;
    if (!shorted.join(plus, minus)) bypassed.add(i);
  }
  return network.branches.flatMap(({ part, law }): Problem[] => {
    if ((law.kind === "ccvs" || law.kind === "cccs") && bypassed.has(law.control)) {
      return [{ code: "controlUndetermined", part, control: network.branches[law.control]?.part ?? "" }];
    }
    if (law.kind === "vcvs" || law.kind === "vccs") {
      const { plus, minus } = law.control;
      if (sets.find(plus) !== sets.find(minus)) {
        return [{ code: "controlUndetermined", part, control: `${network.nodes[plus]}, ${network.nodes[minus]}` }];
      }
    }
    return [];
  });
}
