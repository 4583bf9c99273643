import { listed } from "../circuit/problemText";
import type { BranchIndex, NodeIndex } from "../solve/network";
import { type Acting, endsOf, joinedName } from "./acting";
import { type Expr, over, plus, times } from "./expression";
import { type Name, symbolOf } from "./names";
import type { Notebook } from "./notebook";
import { sketchOf } from "./opening";
import { writeImpedance } from "./planWriter";
import { impedanceBetween, pieceImpedance, regularSum, transferImpedance } from "./portImpedance";
import { partsOf } from "./portSteps";
import { combinedIn, oriented, type Port, PortMaker, reduced } from "./ports";
import { impedanceOf } from "./quantities";
import { changed, freshNode, freshPart, type Rewriting, type StandIn } from "./rewriting";

/** Three formulas in one line: more than a line, less than the two equations that they save. */
const COST = { delta: 1.5, wye: 1.6 } as const;

/** Three pieces between three nodes; those of a wye meet in `middle`, and `of[i]` leads to `ends[i]`. */
type Three = {
  readonly ends: readonly [NodeIndex, NodeIndex, NodeIndex];
  /** Of a delta, `of[i]` lies opposite `ends[i]`. */
  readonly of: readonly [Port, Port, Port];
  readonly middle: NodeIndex | null;
};

/** What must be left: branches, and nodes; and two ends between which all is to come to one piece. */
export type Kept = {
  readonly branches: readonly BranchIndex[];
  readonly nodes: readonly NodeIndex[];
  readonly ends: readonly [NodeIndex, NodeIndex];
};

/**
 * What deltas and wyes of a circuit can be turned into. What is kept stays, as do all nodes at which something else than a
 * resistance ends. Resistances are combined as far as they go first.
 */
export function wyeDeltaRewritings<T>(acting: Acting<T>, kept: Kept): readonly Rewriting<T>[] {
  const isAdmittance = (i: BranchIndex): boolean => acting.laws[i]?.kind === "admittance";
  const endsAt = (i: BranchIndex): readonly NodeIndex[] => {
    const { plus: start, minus: end } = endsOf(acting, i);
    return [start, end];
  };
  const others = acting.live.filter((i) => !isAdmittance(i));
  const nodes = new Set([...kept.nodes.map(acting.joined), ...[...others, ...kept.branches].flatMap(endsAt)]);
  const all = reduced(new PortMaker(acting), acting.live.filter(isAdmittance), nodes);
  const ports = all.filter(({ parts }) => !parts.some((i) => kept.branches.includes(i)));
  const threes = [...deltasOf(ports), ...wyesOf(ports, nodes, piecesAt(all))];
  return threes
    .filter((three) => reducesToOne(convertedEdges(all, three), kept.ends))
    .flatMap((three) => rewritten(acting, three) ?? []);
}

type Edge = readonly [NodeIndex, NodeIndex];

/** Where pieces lie after a conversion; the middle of a new wye is node −1. */
function convertedEdges(ports: readonly Port[], { ends, of, middle }: Three): Edge[] {
  const rest = ports.filter((port) => !of.includes(port)).map(({ from, to }): Edge => [from, to]);
  const [a, b, c] = ends;
  if (middle === null) return [...rest, [a, -1], [b, -1], [c, -1]];
  return [...rest, [a, b], [b, c], [c, a]];
}

/** Whether edges come to one by taking together what is in parallel and in series. */
function reducesToOne(edges: readonly Edge[], [from, to]: readonly [NodeIndex, NodeIndex]): boolean {
  let left = edges;
  for (let before = -1; before !== left.length; ) {
    before = left.length;
    left = [...new Map(left.map((edge) => [[...edge].sort((a, b) => a - b).join(), edge])).values()];
    for (const node of new Set(left.flat())) {
      if (node === from || node === to) continue;
      const here = left.filter((edge) => edge.includes(node));
      const [a, b] = here.map(([start, end]) => (start === node ? end : start));
      if (here.length !== 2 || a === undefined || b === undefined || a === b) continue;
      left = [...left.filter((edge) => !here.includes(edge)), [a, b]];
    }
  }
  return left.length === 1;
}

/** The pieces that end at each node. */
function piecesAt(ports: readonly Port[]): ReadonlyMap<NodeIndex, readonly Port[]> {
  const at = new Map<NodeIndex, Port[]>();
  for (const port of ports) for (const end of [port.from, port.to]) at.set(end, [...(at.get(end) ?? []), port]);
  return at;
}

const hasEnds = ({ from, to }: Port, a: NodeIndex, b: NodeIndex): boolean =>
  (from === a && to === b) || (from === b && to === a);

function deltasOf(ports: readonly Port[]): Three[] {
  return ports.flatMap((first, i) =>
    ports.slice(i + 1).flatMap((second, j): Three[] => {
      const { from: a, to: b } = first;
      const shared = [second.from, second.to].find((end) => end === a || end === b);
      const c = second.from === shared ? second.to : second.from;
      if (shared === undefined || c === a || c === b) return [];
      const open = shared === a ? b : a;
      const third = ports.slice(i + j + 2).find((port) => hasEnds(port, c, open));
      // `first` lies opposite c, `second` opposite the end that it does not have, `third` opposite the shared one.
      return third === undefined ? [] : [{ ends: [c, open, shared], of: [first, second, third], middle: null }];
    }),
  );
}

function wyesOf(
  ports: readonly Port[],
  kept: ReadonlySet<NodeIndex>,
  at: ReadonlyMap<NodeIndex, readonly Port[]>,
): Three[] {
  const middles = new Set(ports.flatMap(({ from, to }) => [from, to]));
  return [...middles].flatMap((middle): Three[] => {
    const [a, b, c, ...more] = at.get(middle) ?? [];
    if (kept.has(middle) || a === undefined || b === undefined || c === undefined || more.length > 0) return [];
    const far = (port: Port): NodeIndex => (port.from === middle ? port.to : port.from);
    const ends = [far(a), far(b), far(c)] as const;
    return new Set(ends).size === 3 ? [{ ends, of: [a, b, c], middle }] : [];
  });
}

/** The corners that are not this one. */
const OTHERS = [
  [1, 2],
  [2, 0],
  [0, 1],
] as const;

function rewritten<T>(acting: Acting<T>, three: Three): Rewriting<T> | null {
  const { ends, of, middle } = three;
  const [a, b, c] = of.map((port) => pieceImpedance(acting, port)) as [T, T, T];
  const { add, multiply } = acting.set.arithmetic;
  const products = [multiply(a, b), multiply(b, c), multiply(c, a)];
  if (regularSum(acting, middle === null ? [a, b, c] : products) === null) return null;
  const parts = of.flatMap((port) => partsOf(acting, port));
  const branches = of.flatMap((port) => port.parts);
  const letter = acting.set.stimulus.frequency === null ? "R" : "Z";
  const corner = (i: number): string => joinedName(acting, ends[i] as NodeIndex);
  const made: string[] = [];
  const named = (wish: string) => {
    const id = freshPart(acting, wish, made);
    made.push(id);
    return id;
  };
  const star = acting.set.network.nodes.length;
  const standIns = OTHERS.map(([j, k], i): StandIn<T> => {
    const [near, far] = [ends[j] as NodeIndex, ends[k] as NodeIndex];
    if (middle !== null) {
      const impedance = transferImpedance(acting, branches, near, far, ends[i] as NodeIndex);
      return {
        id: named(`${letter}${corner(j)}${corner(k)}`),
        kind: "resistor",
        plus: near,
        minus: far,
        of: parts,
        impedance,
      };
    }
    const impedance = armOf(acting, branches, ends[i] as NodeIndex, near, far);
    return {
      id: named(`${letter}${corner(i)}`),
      kind: "resistor",
      plus: ends[i] as NodeIndex,
      minus: star,
      of: parts,
      impedance,
    };
  });
  const node = freshNode(acting, "y");
  const first = standIns[0] as Extract<StandIn<T>, { kind: "resistor" }>;
  const center = (): T => {
    const { response, set } = acting;
    const { negate, divide } = set.arithmetic;
    // The arm to the first corner carries what the delta's two sides there carry.
    const [j, k] = OTHERS[0];
    const drop = (far: NodeIndex): T => add(response.nodeVoltage(ends[0]), negate(response.nodeVoltage(far)));
    const current = add(divide(drop(ends[j]), c), divide(drop(ends[k]), b));
    return add(response.nodeVoltage(ends[0]), negate(multiply(first.impedance, current)));
  };
  const isDelta = middle === null;
  const after = changed(acting, {
    gone: branches,
    come: standIns,
    nodes: isDelta ? [{ name: node, voltage: center(), near: ends[0] }] : [],
  });
  const combined = of.reduce((lines, port) => lines + combinedIn(port), 0);
  return {
    acting: after,
    cost: (isDelta ? COST.delta : COST.wye) + combined,
    used: branches,
    write: (notebook) => {
      const own = of.map((port) => pieceFormula(acting, port, notebook));
      const text = own.map((expr) => (expr.kind === "quantity" ? expr.name?.text : null) ?? "a resistance");
      notebook.adopt(after.standsFor, isDelta ? [node] : []);
      notebook.state(
        {
          rule: { kind: "wye-delta", to: isDelta ? "wye" : "delta" },
          sentence: isDelta
            ? `${listed(text)} form a delta between ${listed(ends.map((_, i) => corner(i)))}: turn it into a wye with its middle at ${node}.`
            : `${listed(text)} form a wye around ${joinedName(acting, middle)}: turn it into a delta.`,
          parts,
          nodes: ends.map((_, i) => corner(i)),
        },
        standIns.map((standIn, i) => ({
          left: symbolOf(standIn.id),
          right: isDelta ? armFormula(own, i) : sideFormula(own, i),
          unit: "Ω",
          expected: (standIn as typeof first).impedance,
        })),
        sketchOf(after),
      );
    },
  };
}

/** R1 itself, or the name of what is first combined. */
function pieceFormula<T>(acting: Acting<T>, port: Port, notebook: Notebook<T>): Expr<T> {
  if (port.make.kind === "branch") return impedanceOf(acting, port.make.branch);
  const name: Name = port.name;
  return writeImpedance(acting, oriented(port, port.from, port.to), name, notebook);
}

/** The product of the two sides that meet in a corner over the sum of all three. */
function armFormula<T>(sides: readonly Expr<T>[], i: number): Expr<T> {
  const [j, k] = OTHERS[i] as readonly [number, number];
  return over(times(sides[j] as Expr<T>, sides[k] as Expr<T>), plus(...sides));
}

/** The sum of all products of two arms over the arm to the opposite corner. */
function sideFormula<T>(arms: readonly Expr<T>[], i: number): Expr<T> {
  const [a, b, c] = arms as readonly [Expr<T>, Expr<T>, Expr<T>];
  return over(plus(times(a, b), times(b, c), times(c, a)), arms[i] as Expr<T>);
}

/** An arm from what the solver has between the corners: (Zab + Zca − Zbc)/2. */
function armOf<T>(acting: Acting<T>, branches: readonly BranchIndex[], a: NodeIndex, b: NodeIndex, c: NodeIndex): T {
  const { add, divide, negate, one } = acting.set.arithmetic;
  const between = (from: NodeIndex, to: NodeIndex): T => impedanceBetween(acting, branches, from, to);
  return divide(add(add(between(a, b), between(c, a)), negate(between(b, c))), add(one, one));
}
