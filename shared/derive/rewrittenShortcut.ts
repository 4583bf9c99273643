import type { BranchIndex, NodeIndex } from "../solve/network";
import { branchIndex, nodeIndex } from "../solve/superposition";
import { type Acting, endsOf } from "./acting";
import { drivenShortcut } from "./driven";
import { loopShortcut } from "./oneLoop";
import { referrals } from "./referral";
import type { Rewriting } from "./rewriting";
import type { Task } from "./route";
import type { Shortcut } from "./shortcut";
import { sourceSums } from "./sourceSums";
import { wyeDeltaRewritings } from "./wyeDelta";

/** More rewritings than this, one after the other, are harder to follow than equations. */
const MOST_REWRITINGS = 3;
/** And no more than this are tried at each of them. */
const MOST_CANDIDATES = 4;

/**
 * The cheapest way where plain shortcuts do not reach: the circuit as one loop, or rewritten once or more and then by
 * shortcuts; null where none is cheaper than `most`.
 */
export function rewrittenShortcut<T>(
  acting: Acting<T>,
  task: Task<T>,
  most: number,
  depth = MOST_REWRITINGS,
): Shortcut<T> | null {
  const loop = loopShortcut(acting, task);
  let best: Shortcut<T> | null = loop !== null && loop.cost < most ? loop : null;
  if (depth === 0) return best;
  for (const rewriting of rewritingsOf(acting, task)) {
    const left: number = (best?.cost ?? most) - rewriting.cost;
    if (left <= 0) continue;
    const plain = drivenShortcut(rewriting.acting, task);
    const rest: Shortcut<T> | null = plain ?? rewrittenShortcut(rewriting.acting, task, left, depth - 1);
    if (rest !== null && rest.cost < left) best = after(acting, rewriting, rest);
  }
  return best;
}

function after<T>(acting: Acting<T>, rewriting: Rewriting<T>, rest: Shortcut<T>): Shortcut<T> {
  const isOld = (i: BranchIndex): boolean => i < acting.set.network.branches.length;
  return {
    cost: rewriting.cost + rest.cost,
    used: [...new Set([...rewriting.used, ...rest.used.filter(isOld)])].sort((a, b) => a - b),
    write: (notebook) => {
      rewriting.write(notebook);
      rest.write(notebook);
    },
  };
}

function rewritingsOf<T>(acting: Acting<T>, task: Task<T>): readonly Rewriting<T>[] {
  const kept = keptBy(acting, task);
  const lone = loneSource(acting);
  if (lone === null) {
    // Sums come to the same in any order, so one is tried first and the rest follow it.
    const [sum] = sourceSums(acting, kept);
    return sum === undefined ? referrals(acting, kept).slice(0, MOST_CANDIDATES) : [sum];
  }
  const { plus, minus } = endsOf(acting, lone);
  return plus === minus ? [] : wyeDeltaRewritings(acting, { ...kept, ends: [plus, minus] });
}

/** The one source of a circuit that holds nothing else but impedances. */
function loneSource<T>({ live, laws }: Acting<T>): BranchIndex | null {
  const [only, ...others] = live.filter((i) => laws[i]?.kind !== "admittance");
  const kind = only === undefined ? undefined : laws[only]?.kind;
  return others.length === 0 && only !== undefined && (kind === "voltage" || kind === "current") ? only : null;
}

/** What is wanted, which no rewriting may take away. */
function keptBy<T>(
  acting: Acting<T>,
  { linear }: Task<T>,
): { readonly branches: readonly BranchIndex[]; readonly nodes: readonly NodeIndex[] } {
  const { network } = acting.set;
  if (linear.kind === "voltage") {
    return { branches: [], nodes: [nodeIndex(network, linear.from), nodeIndex(network, linear.to)] };
  }
  return { branches: [branchIndex(network, linear.through, linear.winding)], nodes: [] };
}
