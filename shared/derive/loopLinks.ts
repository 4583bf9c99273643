import type { BranchIndex, Law, NodeIndex } from "../solve/network";
import { type Acting, endsOf } from "./acting";
import { isRegular } from "./portImpedance";
import { oriented, type Port, PortMaker, reduced } from "./ports";

/** What lies between two nodes next to each other on the loop, walked from `from` to `to`. */
export type Link<T> = {
  readonly from: NodeIndex;
  readonly to: NodeIndex;
  readonly branches: readonly BranchIndex[];
  /** Null for a source. */
  readonly resistance: Port | null;
  /** Current sources beside the resistance, 1 where they push along the walk. */
  readonly pushing: readonly { readonly branch: BranchIndex; readonly sign: 1 | -1 }[];
  /** A source of voltage, 1 where its plus comes first. */
  readonly source: { readonly branch: BranchIndex; readonly law: Law<T>; readonly sign: 1 | -1 } | null;
};

/** The loop link by link, null for another shape. */
export function linksOf<T>(acting: Acting<T>): readonly Link<T>[] | null {
  const bundles = new Map<string, BranchIndex[]>();
  const at = new Map<NodeIndex, Set<string>>();
  for (const i of acting.live) {
    const { plus: start, minus: end } = endsOf(acting, i);
    if (start === end) return null;
    const key = [start, end].sort((a, b) => a - b).join();
    bundles.set(key, [...(bundles.get(key) ?? []), i]);
    for (const node of [start, end]) at.set(node, new Set([...(at.get(node) ?? []), key]));
  }
  if (bundles.size < 3 || [...at.values()].some(({ size }) => size !== 2)) return null;
  const links: Link<T>[] = [];
  const maker = new PortMaker(acting);
  let node = [...at.keys()][0] as NodeIndex;
  let key: string | undefined = [...(at.get(node) ?? [])][0];
  for (let count = 0; count < bundles.size && key !== undefined; count++) {
    const own = bundles.get(key) as BranchIndex[];
    const { plus: start, minus: end } = endsOf(acting, own[0] as BranchIndex);
    const next = start === node ? end : start;
    const link = linkOf(acting, maker, own, node, next);
    if (link === null) return null;
    links.push(link);
    key = [...(at.get(next) ?? [])].find((other) => other !== key);
    node = next;
  }
  // A walk that came back early has left out another loop.
  return node === links[0]?.from && new Set(links.map(({ from }) => from)).size === bundles.size ? links : null;
}

function linkOf<T>(
  acting: Acting<T>,
  maker: PortMaker<T>,
  branches: readonly BranchIndex[],
  from: NodeIndex,
  to: NodeIndex,
): Link<T> | null {
  const kindOf = (i: BranchIndex) => acting.laws[i]?.kind;
  const base = { from, to, branches };
  const [only] = branches;
  if (branches.length === 1 && only !== undefined && ["voltage", "vcvs", "ccvs"].includes(kindOf(only) ?? "")) {
    const sign = endsOf(acting, only).plus === from ? 1 : -1;
    return { ...base, resistance: null, pushing: [], source: { branch: only, law: acting.laws[only] as Law<T>, sign } };
  }
  const admittances = branches.filter((i) => kindOf(i) === "admittance");
  const currents = branches.filter((i) => kindOf(i) === "current");
  const [port] = reduced(maker, admittances, new Set([from, to]));
  if (port === undefined || admittances.length + currents.length < branches.length || !isRegular(acting, port))
    return null;
  const pushing = currents.map((branch) => ({ branch, sign: endsOf(acting, branch).plus === from ? 1 : -1 }) as const);
  return { ...base, resistance: oriented(port, from, to), pushing, source: null };
}
