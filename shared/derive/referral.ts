import type { NodeId } from "../circuit";
import { listed } from "../circuit/problemText";
import { blocksOf } from "../solve/blocks";
import type { BranchIndex, Law, NodeIndex, Pair } from "../solve/network";
import { type Acting, branchOf, endsOf, nodeName } from "./acting";
import { type Expr, over, square, times } from "./expression";
import { symbolOf } from "./names";
import { sketchOf } from "./opening";
import { impedanceOf, partOf, ratioOf, sourceValueOf } from "./quantities";
import { changed, freshNode, freshPart, type Rewriting, type StandIn } from "./rewriting";
import type { Kept } from "./wyeDelta";

/** A line, and a little for each part that is referred, since each has a formula. */
const COST = { line: 1, part: 0.2 } as const;

/** What stays, and the two nodes between which the circuit is looked into, if it is. */
type HeldFast = Omit<Kept, "ends"> & { readonly port?: readonly [NodeIndex, NodeIndex] };

/** The edge of that port among the branches. */
const PORT = -1;

/** The two sides of an ideal transformer: its windings, and what forms closed paths with each. */
type Sides = {
  readonly windings: readonly [BranchIndex, BranchIndex];
  readonly parts: readonly [readonly BranchIndex[], readonly BranchIndex[]];
};

/**
 * The circuits in which one side of an ideal transformer is referred to the other and the transformer is gone: voltages
 * times k, impedances times k², currents over k, with k = n towards the primary and 1/n towards the secondary. The side
 * that holds what is kept stays. Source: common practice, no source.
 */
export function referrals<T>(acting: Acting<T>, kept: HeldFast): readonly Rewriting<T>[] {
  return acting.live.flatMap((i) => {
    const sides = acting.laws[i]?.kind === "primary" ? sidesOf(acting, i, kept) : null;
    if (sides === null) return [];
    return ([0, 1] as const).flatMap((side) =>
      isFree(acting, sides, side, kept) ? referred(acting, sides, side) : [],
    );
  });
}

/** Null where more than one node joins the sides, or nothing is on one of them. */
function sidesOf<T>(acting: Acting<T>, primary: BranchIndex, { port }: HeldFast): Sides | null {
  const secondary = acting.live.find((i) => {
    const law = acting.laws[i] as Law<T>;
    return law.kind === "secondary" && law.primary === primary;
  });
  if (secondary === undefined) return null;
  const edges = acting.live.map((edge) => {
    const { plus, minus } = endsOf(acting, edge);
    return { edge, ends: [plus, minus] as const };
  });
  if (port !== undefined) edges.push({ edge: PORT, ends: port });
  const blocks = blocksOf(edges.filter(({ ends: [a, b] }) => a !== b));
  const sideOf = (winding: BranchIndex): readonly BranchIndex[] =>
    (blocks.find((block) => block.includes(winding)) ?? []).filter((i) => i !== winding);
  const parts = [sideOf(primary), sideOf(secondary)] as const;
  const isApart = !parts[0].includes(secondary) && parts.every((side) => side.length > 0);
  return isApart ? { windings: [primary, secondary], parts } : null;
}

/** Whether a side holds impedances and independent sources only, and nothing of what is kept. */
function isFree<T>(acting: Acting<T>, { windings, parts }: Sides, side: 0 | 1, kept: HeldFast): boolean {
  const own = parts[side];
  if (own.includes(PORT)) return false;
  const isPlain = own.every((i) => ["admittance", "voltage", "current"].includes(acting.laws[i]?.kind ?? ""));
  const { plus, minus } = endsOf(acting, windings[side]);
  const inside = new Set(own.flatMap((i) => Object.values(endsOf(acting, i))));
  // Its ends may be those of the other side as well, where a common node ties the two.
  const there = [windings[1 - side] as BranchIndex, ...(parts[1 - side] ?? [])].filter((i) => i !== PORT);
  const other = new Set(there.flatMap((i) => Object.values(endsOf(acting, i))));
  const isHeld = kept.nodes.some((node) => inside.has(acting.joined(node)) && !other.has(acting.joined(node)));
  const isWanted = kept.branches.some((i) => own.includes(i) || windings.includes(i));
  return isPlain && !isHeld && !isWanted && plus !== minus;
}

function referred<T>(acting: Acting<T>, { windings, parts }: Sides, side: 0 | 1): Rewriting<T>[] {
  const { set, response } = acting;
  const { add, divide, isZero, multiply, negate, one } = set.arithmetic;
  const own = parts[side];
  const [from, to] = [endsOf(acting, windings[side]), endsOf(acting, windings[1 - side] as BranchIndex)];
  const ratio = ratioOf(acting, windings[0]);
  if (ratio.kind !== "quantity" || isZero(ratio.value)) return [];
  const factor = side === 1 ? ratio.value : divide(one, ratio.value);
  const mark = side === 1 ? "p" : "s";
  const moved = new Map<NodeIndex, NodeIndex>([
    [from.plus, to.plus],
    [from.minus, to.minus],
  ]);
  const nodes: { name: NodeId; voltage: T; near: NodeIndex }[] = [];
  for (const node of new Set(own.flatMap((i) => Object.values(endsOf(acting, i))))) {
    if (moved.has(node)) continue;
    moved.set(node, set.network.nodes.length + nodes.length);
    const drop = add(response.nodeVoltage(node), negate(response.nodeVoltage(from.minus)));
    const voltage = add(response.nodeVoltage(to.minus), multiply(factor, drop));
    nodes.push({ name: freshNode(acting, `${nodeName(acting, node)}${mark}`), voltage, near: to.minus });
  }
  const made: string[] = [];
  const standIns = own.map((i): StandIn<T> => {
    const { part } = branchOf(acting, i);
    const { plus, minus } = endsOf(acting, i);
    const ends: Pair = { plus: moved.get(plus) as NodeIndex, minus: moved.get(minus) as NodeIndex };
    const named = acting.laws[i]?.kind === "admittance" && partOf(acting, i).kind !== "resistor" ? `Z${part}` : part;
    const id = freshPart(acting, `${named}${mark}`, made);
    made.push(id);
    const law = acting.laws[i] as Law<T>;
    const base = { ...ends, id, of: [part] };
    const current = divide(response.branchCurrent(i), factor);
    const voltage = multiply(factor, response.branchVoltage(i));
    if (law.kind === "admittance") {
      const impedance = isZero(current) ? multiply(multiply(factor, factor), law.impedance) : divide(voltage, current);
      return { ...base, kind: "resistor", impedance };
    }
    if (law.kind === "voltage") return { ...base, kind: "voltage-source", value: voltage, current };
    return { ...base, kind: "current-source", value: current };
  });
  const after = changed(acting, { gone: [...windings, ...own], come: standIns, nodes });
  const { part } = branchOf(acting, windings[0]);
  const formulas = own.map((i) => formulaOf(acting, i, ratio, side));
  return [
    {
      acting: after,
      cost: COST.line + COST.part * own.length,
      used: own.filter((i) => acting.laws[i]?.kind === "admittance"),
      write: (notebook) => {
        notebook.adopt(
          after.standsFor,
          nodes.map(({ name }) => name),
        );
        notebook.state(
          {
            rule: { kind: "referral", to: side === 1 ? "primary" : "secondary" },
            sentence: sentenceOf(acting, own, part, ratio.name?.text ?? "n", side),
            parts: [part, ...own.map((i) => branchOf(acting, i).part)],
          },
          standIns.map((standIn, place) => ({
            left: symbolOf(standIn.id),
            right: formulas[place] as Expr<T>,
            unit: standIn.kind === "resistor" ? "Ω" : standIn.kind === "voltage-source" ? "V" : "A",
            expected: standIn.kind === "resistor" ? standIn.impedance : standIn.value,
          })),
          sketchOf(after),
        );
      },
    },
  ];
}

/** n²·R, n·V and I/n towards the primary; R/n², V/n and n·I towards the secondary. */
function formulaOf<T>(acting: Acting<T>, i: BranchIndex, ratio: Expr<T>, side: 0 | 1): Expr<T> {
  const isImpedance = acting.laws[i]?.kind === "admittance";
  const own = isImpedance ? impedanceOf(acting, i) : sourceValueOf(acting, i);
  const factor = isImpedance ? square(ratio) : ratio;
  const isTimes = (side === 1) !== (acting.laws[i]?.kind === "current");
  return isTimes ? times(factor, own) : over(own, factor);
}

function sentenceOf<T>(acting: Acting<T>, own: readonly BranchIndex[], part: string, n: string, side: 0 | 1): string {
  const has = (kind: string): boolean => own.some((i) => acting.laws[i]?.kind === kind);
  const [by, opposite] = side === 1 ? ["times", "over"] : ["over", "times"];
  const impedances = acting.set.stimulus.frequency === null ? "resistances" : "impedances";
  const said = [
    ...(has("voltage") ? [`voltages ${by} ${n}`] : []),
    ...(has("current") ? [`currents ${opposite} ${n}`] : []),
    ...(has("admittance") ? [`${impedances} ${by} ${n}²`] : []),
  ];
  const [here, there] = side === 1 ? ["secondary", "primary"] : ["primary", "secondary"];
  return `Refer the ${here} side of ${part} to its ${there}: ${listed(said)}.`;
}
