import type { BranchIndex, NodeIndex } from "../solve/network";
import { type Acting, branchOf } from "./acting";

/**
 * The branches by which all current leaves a set of nodes, found for a branch whose own law says nothing of its
 * current: its `plus` end with all that shorts and ideal voltages tie to it without passing through the branch.
 * `sign` is 1 where the branch's forward current leaves the set. Null where shorts or voltages close a loop around it.
 */
export type Cut = {
  readonly nodes: readonly NodeIndex[];
  readonly others: readonly { readonly branch: BranchIndex; readonly sign: 1 | -1 }[];
};

/** Of the two sides of a branch, the one with fewer other branches to count; `side` says which of its ends is inside. */
export function smallestCut<T>(
  acting: Acting<T>,
  branch: BranchIndex,
  isKnown: (other: BranchIndex) => boolean = () => false,
): (Cut & { readonly side: 1 | -1 }) | null {
  const { plus, minus } = branchOf(acting, branch);
  const sides = [
    { side: 1 as const, cut: cutFrom(acting, branch, plus, 1, isKnown) },
    { side: -1 as const, cut: cutFrom(acting, branch, minus, -1, isKnown) },
  ].flatMap(({ side, cut }) => (cut === null ? [] : [{ ...cut, side }]));
  const [first, second] = sides;
  if (first === undefined) return second ?? null;
  if (second === undefined) return first;
  return second.others.length < first.others.length ? second : first;
}

function cutFrom<T>(
  acting: Acting<T>,
  branch: BranchIndex,
  start: NodeIndex,
  side: 1 | -1,
  isKnown: (other: BranchIndex) => boolean = () => false,
): Cut | null {
  const { network } = acting.set;
  const { plus, minus } = branchOf(acting, branch);
  const inside = new Set([start]);
  for (let grew = true; grew; ) {
    grew = false;
    network.branches.forEach((other, i) => {
      if (i === branch || !isTie(acting, i) || isKnown(i)) return;
      if (inside.has(other.plus) === inside.has(other.minus)) return;
      inside.add(other.plus).add(other.minus);
      grew = true;
    });
  }
  if (inside.has(plus) === inside.has(minus)) return null;
  const isIdle = new Set([...acting.shorted, ...acting.idle]);
  const others = network.branches.flatMap((other, i) => {
    if (i === branch || acting.laws[i]?.kind === "open" || isIdle.has(i)) return [];
    if (inside.has(other.plus) === inside.has(other.minus)) return [];
    const leaves = inside.has(other.plus) ? 1 : -1;
    // Σ leaving = 0, so this branch leaves with what the others bring in: its sign turns with the side.
    return [{ branch: i, sign: (-leaves * side) as 1 | -1 }];
  });
  return { nodes: [...inside], others };
}

/** Branches whose current only Kirchhoff's current law gives. */
export function isTie<T>(acting: Acting<T>, i: BranchIndex): boolean {
  const kind = acting.laws[i]?.kind;
  return (
    kind === "short" ||
    kind === "voltage" ||
    kind === "vcvs" ||
    kind === "ccvs" ||
    kind === "opAmp" ||
    kind === "primary"
  );
}
