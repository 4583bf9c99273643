import { unreachable } from "../quantity";
import { blocksOf } from "../solve/blocks";
import type { BranchIndex, Law, NodeIndex } from "../solve/network";
import { type Acting, branchOf, endsOf, joinedName } from "./acting";
import { gainOf } from "./controls";
import { type Expr, negative, times } from "./expression";
import { type Fact, linesOf, planOver, type Step } from "./facts";
import { currentName } from "./names";
import { type Planned, planned } from "./planWriter";
import { isRegular } from "./portImpedance";
import { currentKey, voltageKey } from "./portSteps";
import { oriented, type Port, PortMaker, reduced } from "./ports";
import { branchLabel, sourceValueOf } from "./quantities";
import type { Task } from "./route";
import type { Shortcut } from "./shortcut";
import { Sketcher } from "./sketcher";
import { addPairFact, holdsVoltage, lawSteps, ownCurrent, pairOf, type Target, targetOf } from "./target";
import { type Goal, goalIsIn, plainView, type View, viewsOf } from "./views";

/** A source and the piece that it alone drives, from the source's one end to its other; null where it drives nothing. */
export type Driven = {
  readonly source: BranchIndex;
  readonly root: Port | null;
  readonly from: NodeIndex;
  readonly to: NodeIndex;
};

/** More blocks than this are no chain that a person sees at once. */
const MOST_PIECES = 6;

/**
 * The shortest chain of shortcuts to what is wanted where each block of the circuit holds one source and, seen from it,
 * is all series and parallel. Sources may follow what is found in other blocks, as long as that goes round in no circle.
 */
export function drivenShortcut<T>(acting: Acting<T>, task: Task<T>): Shortcut<T> | null {
  const maker = new PortMaker(acting);
  const pieces = piecesOf(acting, maker);
  if (pieces === null) return null;
  const target = targetOf(acting, task, pieces);
  if (target === null) return null;
  const facts = new Map<string, Fact<T>>();
  const drivers = pieces.flatMap((piece) => driverSteps(acting, pieces, piece, facts) ?? []);
  const laws = [...lawSteps(acting, task, pieces, facts), ...drivers, ...target.steps];
  let best: Planned<T> | null = null;
  for (const views of viewSets(acting, maker, pieces, target.goal, facts)) {
    const plan = planOver([...views.flatMap(({ steps }) => steps), ...laws]);
    const lines = linesOf(plan, target.key);
    if (lines === null || (best !== null && lines.cost > best.cost - 1e-9)) continue;
    const roots = views.map(({ root }) => root);
    best = { plan, facts, target, cost: lines.cost, sketcher: new Sketcher(acting, roots) };
  }
  return best === null ? null : planned(acting, task, best);
}

/** Every block with its source; null where one has several, or none that is all series and parallel seen from it. */
function piecesOf<T>(acting: Acting<T>, maker: PortMaker<T>): readonly Driven[] | null {
  const edges = acting.live.map((edge) => {
    const { plus, minus } = endsOf(acting, edge);
    return { edge, ends: [plus, minus] as const };
  });
  const blocks = blocksOf(edges.filter(({ ends: [a, b] }) => a !== b));
  if (blocks.length > MOST_PIECES || edges.some(({ edge, ends: [a, b] }) => a === b && !fixesNothing(acting, edge))) {
    return null;
  }
  const pieces: Driven[] = [];
  for (const block of blocks) {
    const piece = pieceOf(acting, maker, block);
    if (piece === null) return null;
    pieces.push(piece);
  }
  return pieces;
}

/** A current source across a short drives nothing. */
const fixesNothing = <T>({ laws }: Acting<T>, i: BranchIndex): boolean => laws[i]?.kind === "current";

function pieceOf<T>(acting: Acting<T>, maker: PortMaker<T>, block: readonly BranchIndex[]): Driven | null {
  const sources = block.filter((i) => acting.laws[i]?.kind !== "admittance");
  const [source] = sources;
  if (source === undefined || sources.length !== 1 || !isSource(acting, source)) return null;
  const { plus, minus } = endsOf(acting, source);
  const [from, to] = holdsVoltage(acting, source) ? [plus, minus] : [minus, plus];
  if (block.length === 1) return holdsVoltage(acting, source) ? { source, root: null, from, to } : null;
  const ports = reduced(
    maker,
    block.filter((i) => i !== source),
    new Set([from, to]),
  );
  const [only] = ports;
  if (ports.length !== 1 || only === undefined || !isRegular(acting, only)) return null;
  return { source, root: oriented(only, from, to), from, to };
}

function isSource<T>({ laws }: Acting<T>, i: BranchIndex): boolean {
  const kind = laws[i]?.kind;
  return (
    kind === "voltage" || kind === "current" || kind === "vcvs" || kind === "vccs" || kind === "ccvs" || kind === "cccs"
  );
}

/** The pieces as they are; and, one after the other, what source transformations make of that where the goal is. */
function viewSets<T>(
  acting: Acting<T>,
  maker: PortMaker<T>,
  pieces: readonly Driven[],
  goal: Goal,
  facts: Map<string, Fact<T>>,
): readonly (readonly View<T>[])[] {
  const driverOf = ({ source, root, from, to }: Driven & { readonly root: Port }) =>
    holdsVoltage(acting, source)
      ? ({ kind: "voltage", key: voltageKey(from, to), name: branchOf(acting, source).part } as const)
      : ({ kind: "current", key: currentKey(root), name: branchOf(acting, source).part } as const);
  const whole = pieces.flatMap((piece) => (piece.root === null ? [] : [{ ...piece, root: piece.root }]));
  const plain = whole.map((piece) => plainView(acting, piece.root, driverOf(piece), goal, facts));
  const place = whole.findIndex(({ root }) => goalIsIn(acting, root, goal));
  const seen = whole[place];
  if (seen === undefined) return [plain];
  return viewsOf(acting, maker, seen.root, driverOf(seen), goal, facts).map((view) =>
    plain.map((other, i) => (i === place ? view : other)),
  );
}

/** What a source gives: its value, or its gain times what it follows. */
function driverSteps<T>(
  acting: Acting<T>,
  pieces: readonly Driven[],
  piece: Driven,
  facts: Map<string, Fact<T>>,
): Step<T>[] | null {
  const { source, root, from, to } = piece;
  const law = acting.laws[source];
  const isVoltage = holdsVoltage(acting, source);
  if (isVoltage) addPairFact(acting, voltageKey(from, to), from, to, facts);
  const head = isVoltage ? voltageKey(from, to) : root === null ? null : currentKey(root);
  if (law === undefined || head === null) return null;
  if (law.kind === "voltage" || law.kind === "current") {
    return [{ kind: "same", head, body: [], cost: 0, of: () => sourceValueOf(acting, source) }];
  }
  if (law.kind !== "vcvs" && law.kind !== "vccs" && law.kind !== "ccvs" && law.kind !== "cccs") return null;
  const control = controlTarget(acting, pieces, law);
  if (control === null) return null;
  const part = branchLabel(acting, source);
  const key = isVoltage ? head : `D ${source}`;
  if (!isVoltage) {
    facts.set(key, { key, name: currentName(part), unit: "A", expected: () => acting.response.branchCurrent(source) });
  }
  const step: Step<T> = {
    kind: "line",
    head: key,
    body: [control.key],
    cost: 1,
    infer: ([given]) => {
      const followed = control.sign === 1 ? (given as Expr<T>) : negative(given as Expr<T>);
      const name = given?.kind === "quantity" ? given.name?.text : undefined;
      return {
        rule: { kind: "control" },
        right: times(gainOf(acting, source, law), followed),
        sentence: `${part} stays on and follows ${name ?? "what was found"}.`,
        parts: [part],
        nodes: [joinedName(acting, from), joinedName(acting, to)],
      };
    },
  };
  if (isVoltage) return [step];
  return [step, { kind: "same", head, body: [key], cost: 0, of: ([only]) => only as Expr<T> }];
}

/** What a source follows, as a fact. */
function controlTarget<T>(
  acting: Acting<T>,
  pieces: readonly Driven[],
  law: Extract<Law<T>, { kind: "vcvs" | "vccs" | "ccvs" | "cccs" }>,
): Target | null {
  switch (law.kind) {
    case "ccvs":
    case "cccs":
      return ownCurrent(acting, pieces, law.control);
    case "vcvs":
    case "vccs": {
      const [plus, minus] = [acting.joined(law.control.plus), acting.joined(law.control.minus)];
      return plus === minus ? null : pairOf(pieces, plus, minus);
    }
    default:
      return unreachable(law);
  }
}
