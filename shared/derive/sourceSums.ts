import { listed } from "../circuit/problemText";
import type { BranchIndex, NodeIndex } from "../solve/network";
import { type Acting, branchOf, endsOf, joinedName } from "./acting";
import { type SignedTerm, sumOf } from "./expression";
import { symbolOf } from "./names";
import { sketchOf } from "./opening";
import { sourceValueOf } from "./quantities";
import { changed, freshPart, type Rewriting } from "./rewriting";
import type { Kept } from "./wyeDelta";

/** A line, and an easy one. */
const COST = 0.7;

/** Sources as a line of which the first sets the direction. */
type Signed = { readonly branch: BranchIndex; readonly sign: 1 | -1 };

/** Circuits in which current sources in parallel, or voltage sources in a row, have become one. */
export function sourceSums<T>(acting: Acting<T>, kept: Omit<Kept, "ends">): readonly Rewriting<T>[] {
  return [...parallelCurrents(acting, kept), ...voltageRows(acting, kept)];
}

function parallelCurrents<T>(acting: Acting<T>, kept: Omit<Kept, "ends">): Rewriting<T>[] {
  const sources = acting.live.filter((i) => acting.laws[i]?.kind === "current" && !kept.branches.includes(i));
  const byEnds = new Map<string, BranchIndex[]>();
  for (const i of sources) {
    const { plus, minus } = endsOf(acting, i);
    const key = [plus, minus].sort((a, b) => a - b).join();
    if (plus !== minus) byEnds.set(key, [...(byEnds.get(key) ?? []), i]);
  }
  return [...byEnds.values()].flatMap((same) => {
    const [first] = same;
    if (first === undefined || same.length < 2) return [];
    const { plus } = endsOf(acting, first);
    const signed = same.map((branch): Signed => ({ branch, sign: endsOf(acting, branch).plus === plus ? 1 : -1 }));
    return [summed(acting, signed, endsOf(acting, first), null)];
  });
}

/** Two voltage sources that meet where nothing else ends. */
function voltageRows<T>(acting: Acting<T>, kept: Omit<Kept, "ends">): Rewriting<T>[] {
  const nodes = new Set(acting.live.flatMap((i) => Object.values(endsOf(acting, i))));
  const isKept = (node: NodeIndex): boolean => kept.nodes.some((each) => acting.joined(each) === node);
  const isFollowed = (node: NodeIndex): boolean =>
    acting.live.some((i) => {
      const law = acting.laws[i];
      if (law?.kind === "opAmp") return [law.inputs.plus, law.inputs.minus].some((end) => acting.joined(end) === node);
      if (law?.kind !== "vcvs" && law?.kind !== "vccs") return false;
      return "plus" in law.control && [law.control.plus, law.control.minus].some((end) => acting.joined(end) === node);
    });
  return [...nodes].flatMap((node) => {
    const here = acting.live.filter((i) => Object.values(endsOf(acting, i)).includes(node));
    const [first, second] = here;
    if (first === undefined || second === undefined || here.length !== 2 || isKept(node) || isFollowed(node)) return [];
    if (here.some((i) => acting.laws[i]?.kind !== "voltage" || kept.branches.includes(i))) return [];
    if (node === acting.joined(acting.set.network.reference)) return [];
    const [a, b] = [endsOf(acting, first), endsOf(acting, second)];
    // Along the first source: in at one end, out at the other, and on through the second.
    const isForward = a.minus === node;
    const far = b.plus === node ? b.minus : b.plus;
    if (far === (isForward ? a.plus : a.minus)) return [];
    const isAlong = isForward ? b.plus === node : b.minus === node;
    const ends = isForward ? { plus: a.plus, minus: far } : { plus: far, minus: a.minus };
    const signed: Signed[] = [
      { branch: first, sign: 1 },
      { branch: second, sign: isAlong ? 1 : -1 },
    ];
    return [summed(acting, signed, ends, node)];
  });
}

function summed<T>(
  acting: Acting<T>,
  signed: readonly Signed[],
  ends: { readonly plus: NodeIndex; readonly minus: NodeIndex },
  between: NodeIndex | null,
): Rewriting<T> {
  const { add, negate, zero } = acting.set.arithmetic;
  const isVoltage = between !== null;
  const first = signed[0]?.branch as BranchIndex;
  const read = isVoltage ? acting.response.branchVoltage : acting.response.branchCurrent;
  const value = signed.reduce(
    (sum, { branch, sign }) => add(sum, sign === 1 ? read(branch) : negate(read(branch))),
    zero,
  );
  const id = freshPart(acting, isVoltage ? "Vs" : "Is");
  const parts = signed.map(({ branch }) => branchOf(acting, branch).part);
  const base = { ...ends, id, of: parts, value };
  const current = acting.response.branchCurrent(first);
  const after = changed(acting, {
    gone: signed.map(({ branch }) => branch),
    come: [isVoltage ? { ...base, kind: "voltage-source", current } : { ...base, kind: "current-source" }],
    nodes: [],
  });
  const terms = signed.map(({ branch, sign }): SignedTerm<T> => ({ sign, of: sourceValueOf(acting, branch) }));
  return {
    acting: after,
    cost: COST,
    used: [],
    write: (notebook) => {
      notebook.adopt(after.standsFor, []);
      notebook.state(
        {
          rule: { kind: "add-sources", how: isVoltage ? "series" : "parallel" },
          sentence: isVoltage
            ? `${listed(parts)} are in series: their voltages add, each with its sign.`
            : `${listed(parts)} join the same two nodes: their currents add, each with its sign.`,
          parts,
          nodes: [ends.plus, ends.minus].map((node) => joinedName(acting, node)),
        },
        [{ left: symbolOf(id), right: sumOf(terms), unit: isVoltage ? "V" : "A", expected: value }],
        sketchOf(after),
      );
    },
  };
}
