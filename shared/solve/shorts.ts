import type { Arithmetic } from "./arithmetic";
import type { Branch, BranchIndex, Network, NodeIndex } from "./network";
import { nodeSets } from "./nodeSets";
import type { Structure } from "./structure";

/** A test source of 1 A that enters the circuit at `plus` and leaves it at `minus`. */
export type TestCurrent = { readonly plus: NodeIndex; readonly minus: NodeIndex };

/** Merged shorts as a forest to send current through, and those whose current no law determines. */
export type Shorts = { readonly tree: readonly BranchIndex[]; readonly undetermined: readonly BranchIndex[] };

export function mergedShorts<T>(network: Network<T>, structure: Structure): Shorts {
  const merged = network.branches.flatMap((branch, i) =>
    branch.law.kind === "short" && !structure.kept.has(i) ? [i] : [],
  );
  if (merged.length === 0) return { tree: [], undetermined: [] };
  const sets = nodeSets(network.nodes.length);
  const ends = (i: BranchIndex): Branch<T> => network.branches[i] as Branch<T>;
  const tree = merged.filter((i) => sets.join(ends(i).plus, ends(i).minus));
  const chords = merged.filter((i) => !tree.includes(i));
  // A branch of the tree stands on a loop exactly where its ends stay joined without it.
  const isBypassed = (branch: BranchIndex): boolean => {
    const rest = nodeSets(network.nodes.length);
    for (const i of merged) if (i !== branch) rest.join(ends(i).plus, ends(i).minus);
    return rest.find(ends(branch).plus) === rest.find(ends(branch).minus);
  };
  return { tree, undetermined: chords.length === 0 ? [] : merged.filter(isBypassed) };
}

/** Currents of a forest of shorts by Kirchhoff's current law, from the leaves inwards; `currentOf` gives all others. */
export function shortCurrents<T>(
  network: Network<T>,
  arithmetic: Arithmetic<T>,
  currentOf: (branch: BranchIndex) => T,
  tree: readonly BranchIndex[],
  test: TestCurrent | null,
): ReadonlyMap<BranchIndex, T> {
  const { add, negate, zero, one } = arithmetic;
  /** Current leaving each node through everything but the shorts still to be found. */
  const leaving = new Array<T>(network.nodes.length).fill(zero);
  const leave = (node: NodeIndex, current: T): void => {
    leaving[node] = add(leaving[node] as T, current);
  };
  network.branches.forEach(({ plus, minus, law }, i) => {
    // Kept shorts have a current of their own, merged ones none yet.
    if (law.kind === "short" && arithmetic.isZero(currentOf(i))) return;
    leave(plus, currentOf(i));
    leave(minus, negate(currentOf(i)));
  });
  if (test) {
    leave(test.plus, negate(one));
    leave(test.minus, one);
  }
  const at = new Map<NodeIndex, Set<BranchIndex>>();
  for (const i of tree) {
    const { plus, minus } = network.branches[i] as Branch<T>;
    for (const node of [plus, minus]) at.set(node, (at.get(node) ?? new Set()).add(i));
  }
  const currents = new Map<BranchIndex, T>();
  const leaves = [...at].flatMap(([node, ends]) => (ends.size === 1 ? [node] : []));
  for (let node = leaves.pop(); node !== undefined; node = leaves.pop()) {
    const [branch] = at.get(node) ?? [];
    if (branch === undefined) continue;
    const { plus, minus } = network.branches[branch] as Branch<T>;
    const other = plus === node ? minus : plus;
    const away = negate(leaving[node] as T);
    currents.set(branch, plus === node ? away : negate(away));
    leave(other, negate(away));
    at.get(node)?.delete(branch);
    at.get(other)?.delete(branch);
    if (at.get(other)?.size === 1) leaves.push(other);
  }
  return currents;
}
