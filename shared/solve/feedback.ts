import type { Problem } from "../circuit";
import type { Branch, Network, NodeIndex } from "./network";
import { nodeSets } from "./nodeSets";

/**
 * Op amps whose output cannot move their inputs, and those that it moves the wrong way only.
 *
 * A path of feedback runs from the output over parts and through other active parts (from what they follow to what they
 * drive), but not through a node that voltage sources and shorts hold at a fixed voltage to the reference. What the
 * output drives into such a node it changes all the same is the currents between these nodes, and so whatever follows
 * one of them. A path found here need not work; the equations tell.
 */
export function feedbackProblems<T>(network: Network<T>): Problem[] {
  if (!network.branches.some(({ law }) => law.kind === "opAmp")) return [];
  const isHeld = heldNodes(network);
  const reached = influence(network, isHeld);
  return network.branches.flatMap(({ part, plus, law }): Problem[] => {
    if (law.kind !== "opAmp") return [];
    const moved = reached(plus);
    if (moved.has(law.inputs.minus)) return [];
    return [{ code: moved.has(law.inputs.plus) ? "opAmpPositiveFeedback" : "opAmpWithoutFeedback", part }];
  });
}

/** Nodes that independent voltage sources and shorts tie to the reference. */
function heldNodes<T>(network: Network<T>): (node: NodeIndex) => boolean {
  const sets = nodeSets(network.nodes.length);
  for (const { plus, minus, law } of network.branches) {
    if (law.kind === "voltage" || law.kind === "short") sets.join(plus, minus);
  }
  const held = sets.find(network.reference);
  return (node) => sets.find(node) === held;
}

/** For a node, the set of nodes whose voltage it can move. */
function influence<T>(
  network: Network<T>,
  isHeld: (node: NodeIndex) => boolean,
): (from: NodeIndex) => ReadonlySet<NodeIndex> {
  const next: NodeIndex[][] = network.nodes.map(() => []);
  const link = (from: NodeIndex, to: NodeIndex): void => {
    if (!isHeld(from) && !isHeld(to)) next[from]?.push(to);
  };
  for (const branch of network.branches) linkBranch(network, branch, link);
  const movedByHeldCurrents = network.branches.flatMap(({ plus, minus, law }) => {
    if (law.kind !== "ccvs" && law.kind !== "cccs") return [];
    const control = network.branches[law.control] as Branch<T>;
    return isHeld(control.plus) && isHeld(control.minus) ? [plus, minus] : [];
  });
  return (from) => {
    // An input joined straight to the output is moved by it without any step.
    const reached = new Set([from, ...movedByHeldCurrents].filter((node) => !isHeld(node)));
    const queue = [...reached];
    for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
      for (const to of next[at] ?? []) {
        if (reached.has(to)) continue;
        reached.add(to);
        queue.push(to);
      }
    }
    return reached;
  };
}

function linkBranch<T>(
  network: Network<T>,
  { plus, minus, law }: Branch<T>,
  link: (from: NodeIndex, to: NodeIndex) => void,
): void {
  const ends = [plus, minus];
  const drive = (from: readonly NodeIndex[]): void => {
    for (const a of from) for (const b of ends) link(a, b);
  };
  switch (law.kind) {
    case "open":
    case "current":
      return;
    case "admittance":
    case "short":
    case "voltage":
      drive(ends);
      return;
    case "vcvs":
      drive([...ends, law.control.plus, law.control.minus]);
      return;
    case "vccs":
      drive([law.control.plus, law.control.minus]);
      return;
    case "ccvs":
    case "cccs": {
      const control = network.branches[law.control] as Branch<T>;
      drive([control.plus, control.minus, ...(law.kind === "ccvs" ? ends : [])]);
      return;
    }
    case "opAmp":
      drive([law.inputs.plus, law.inputs.minus]);
      return;
    case "primary":
      drive([...ends, law.secondary.plus, law.secondary.minus]);
      return;
    case "secondary": {
      const primary = network.branches[law.primary] as Branch<T>;
      drive([...ends, primary.plus, primary.minus]);
      return;
    }
  }
}
