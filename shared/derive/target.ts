import type { BranchIndex, NodeIndex } from "../solve/network";
import { branchIndex, nodeIndex } from "../solve/superposition";
import { type Acting, branchOf, joinedName, nodeName } from "./acting";
import type { Driven } from "./driven";
import type { Expr, SignedTerm } from "./expression";
import type { Fact, Inference, Step } from "./facts";
import { smallestCut } from "./kirchhoff";
import { currentKey, voltageKey } from "./portSteps";
import { type Port, withInner } from "./ports";
import { pairName, voltageBetween } from "./quantities";
import type { Task } from "./route";
import type { Goal } from "./views";

/** What is wanted as a fact: the fact itself, or its opposite; or a sum of currents that meet where it flows. */
export type Target = { readonly key: string; readonly sign: 1 | -1 };

/** More nodes than this and the voltage law is tried for what is wanted alone. */
const MOST_NODES = 9;

export type Aim<T> = Target & { readonly goal: Goal; readonly steps: readonly Step<T>[] };

/** What is wanted, as a fact of driven pieces; null where it is none. */
export function targetOf<T>(acting: Acting<T>, { linear }: Task<T>, pieces: readonly Driven[]): Aim<T> | null {
  const { network } = acting.set;
  if (linear.kind === "voltage") {
    const from = acting.joined(nodeIndex(network, linear.from));
    const to = acting.joined(nodeIndex(network, linear.to));
    const { key, sign } = pairOf(pieces, from, to, [from, to]);
    return { key, sign, goal: { kind: "nodes", from, to }, steps: [] };
  }
  const i = branchIndex(network, linear.through, linear.winding);
  const direction = linear.direction === "forward" ? 1 : -1;
  const goal: Goal = { kind: "branch", branch: i };
  const current = ownCurrent(acting, pieces, i);
  if (current !== null) {
    return { key: current.key, sign: (current.sign * direction) as 1 | -1, goal, steps: [] };
  }
  return cutTarget(acting, pieces, i, direction, goal);
}

/** The fact that is a branch's forward current; null where no piece has it. */
export function ownCurrent<T>(acting: Acting<T>, pieces: readonly Driven[], i: BranchIndex): Target | null {
  for (const { source, root } of pieces) {
    if (root === null) continue;
    // Current leaves a source at its plus terminal for a voltage, at its minus terminal for a current.
    if (i === source) return { key: currentKey(root), sign: holdsVoltage(acting, source) ? -1 : 1 };
    const port = withInner(root).find(({ make }) => make.kind === "branch" && make.branch === i);
    if (port?.make.kind === "branch") return { key: currentKey(port), sign: port.make.sign };
  }
  return null;
}

/** Whether a source fixes a voltage, and not a current. */
export function holdsVoltage<T>({ laws }: Acting<T>, i: BranchIndex): boolean {
  const kind = laws[i]?.kind;
  return kind === "voltage" || kind === "vcvs" || kind === "ccvs";
}

/** The current in a short, by Kirchhoff's current law around one end of it. */
function cutTarget<T>(
  acting: Acting<T>,
  pieces: readonly Driven[],
  i: BranchIndex,
  direction: 1 | -1,
  goal: Goal,
): Aim<T> | null {
  const cut = smallestCut(acting, i, (other) => pieces.some(({ source }) => source === other));
  if (cut === null) return null;
  const terms = cut.others.map(({ branch, sign }) => ({
    target: ownCurrent(acting, pieces, branch),
    sign,
    branch,
  }));
  if (terms.some(({ target }) => target === null)) return null;
  const key = `C ${i}`;
  const nodes = [...new Set(cut.nodes.map((node) => nodeName(acting, node)))];
  const parts = [branchOf(acting, i).part, ...cut.others.map(({ branch }) => branchOf(acting, branch).part)];
  const step: Step<T> = {
    kind: "line",
    head: key,
    body: terms.map(({ target }) => (target as Target).key),
    cost: 1.04,
    infer: (given): Inference<T> => ({
      rule: { kind: "current-law" },
      right: {
        kind: "sum",
        terms: given
          .map((of, place): SignedTerm<T> => {
            const { target, sign } = terms[place] as (typeof terms)[number];
            return { sign: ((target as Target).sign * sign * direction) as 1 | -1, of };
          })
          .sort((a, b) => b.sign - a.sign),
      },
      sentence:
        nodes.length === 1
          ? `Kirchhoff's current law at node ${nodes[0]}.`
          : `Kirchhoff's current law at node ${joinedName(acting, cut.nodes[0] as NodeIndex)}, which is one with all that is shorted to it on that side.`,
      parts,
      nodes,
    }),
  };
  return { key, sign: 1, goal, steps: [step] };
}

/** The fact that is the voltage between two nodes, in the orientation of the pieces where they have one. */
export function pairOf(
  pieces: readonly Driven[],
  from: NodeIndex,
  to: NodeIndex,
  wanted: readonly NodeIndex[] = [],
): Target {
  const runs = (first: NodeIndex, second: NodeIndex): boolean =>
    innerOf(pieces).some(
      (port) =>
        (port.from === first && port.to === second) ||
        (port.make.kind === "series" && runsFrom(port.make.of, first, second)),
    );
  const forward = { key: voltageKey(from, to), sign: 1 } as const;
  const backward = { key: voltageKey(to, from), sign: -1 } as const;
  if (runs(from, to)) return forward;
  if (runs(to, from)) return backward;
  // No piece says which way: as it is wanted, else towards the reference, which is the first node.
  const isWanted = wanted.includes(from) && wanted.includes(to);
  return (isWanted ? wanted[0] === from : from > to) ? forward : backward;
}

/** All pieces, and sources that stand alone as pieces without one. */
function innerOf(pieces: readonly Driven[]): readonly Port[] {
  return pieces.flatMap(({ root }) => (root === null ? [] : withInner(root)));
}

/** Whether a row passes one node before another. */
function runsFrom(of: readonly Port[], first: NodeIndex, second: NodeIndex): boolean {
  const order = [...of.map((port) => port.from), of.at(-1)?.to];
  const [a, b] = [order.indexOf(first), order.indexOf(second)];
  return a >= 0 && b > a;
}

/** Kirchhoff's voltage law over two known voltages, for every pair of nodes, or for the wanted pair in a large circuit. */
export function lawSteps<T>(
  acting: Acting<T>,
  { linear }: Task<T>,
  pieces: readonly Driven[],
  facts: Map<string, Fact<T>>,
): Step<T>[] {
  const { network } = acting.set;
  const held = pieces.flatMap(({ root, from, to }) => (root === null ? [from, to] : []));
  const nodes = [...new Set([...innerOf(pieces).flatMap(({ from, to }) => [from, to]), ...held])];
  const wanted =
    linear.kind === "voltage"
      ? [[acting.joined(nodeIndex(network, linear.from)), acting.joined(nodeIndex(network, linear.to))] as const]
      : [];
  const ends: readonly NodeIndex[] = wanted.flat();
  const pairs =
    nodes.length > MOST_NODES ? wanted : nodes.flatMap((a, i) => nodes.slice(i + 1).map((b) => [a, b] as const));
  return pairs.flatMap(([a, b]) => {
    const head = pairOf(pieces, a, b, ends);
    const [from, to] = head.sign === 1 ? [a, b] : [b, a];
    addPairFact(acting, head.key, from, to, facts);
    return nodes.flatMap((via): Step<T>[] => {
      if (via === a || via === b) return [];
      const [first, second] = [pairOf(pieces, from, via, ends), pairOf(pieces, via, to, ends)];
      return [
        {
          kind: "line",
          head: head.key,
          body: [first.key, second.key],
          cost: 1.04,
          infer: ([one, two]) => ({
            rule: { kind: "voltage-law" },
            right: {
              kind: "sum",
              terms: [
                { sign: first.sign, of: one as Expr<T> },
                { sign: second.sign, of: two as Expr<T> },
              ].sort((x, y) => y.sign - x.sign) as SignedTerm<T>[],
            },
            sentence: `Kirchhoff's voltage law by way of node ${joinedName(acting, via)}.`,
            parts: [],
            nodes: [from, via, to].map((node) => joinedName(acting, node)),
          }),
        },
      ];
    });
  });
}

export function addPairFact<T>(
  acting: Acting<T>,
  key: string,
  from: NodeIndex,
  to: NodeIndex,
  facts: Map<string, Fact<T>>,
): void {
  if (facts.has(key)) return;
  facts.set(key, {
    key,
    name: pairName(acting, from, to),
    unit: "V",
    expected: () => voltageBetween(acting, from, to),
  });
}
