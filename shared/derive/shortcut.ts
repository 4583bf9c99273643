import type { BranchIndex, NodeIndex } from "../solve/network";
import { branchIndex, nodeIndex } from "../solve/superposition";
import { type Acting, branchOf, endsOf, isCoupled, joinedName, nodeName } from "./acting";
import { amplifierShortcut } from "./amplifierSteps";
import { type Expr, evaluate, known, negative, type SignedTerm } from "./expression";
import { branchesUsed, type Fact, type Inference, linesOf, type Plan, planOver, type Step } from "./facts";
import { smallestCut } from "./kirchhoff";
import { expectedOf } from "./lastHop";
import type { Rule } from "./line";
import { type Name, symbolOf } from "./names";
import type { Notebook } from "./notebook";
import { writePhasors } from "./opening";
import { isRegular, pieceImpedance } from "./portImpedance";
import { closedKey, currentKey, gatheredSteps, partsOf, voltageKey } from "./portSteps";
import { oriented, type Port, PortMaker, reduced, withInner } from "./ports";
import { pairName, sourceValueOf, voltageBetween } from "./quantities";
import type { Task } from "./route";
import { Sketcher } from "./sketcher";
import { type Driver, type Goal, viewsOf } from "./views";

/** What is wanted as a fact: the fact itself, or its opposite; or a sum of currents that meet where it flows. */
type Target = { readonly key: string; readonly sign: 1 | -1 };

/** A derivation by series, parallel, division and transformation, ready to be written. */
export type Shortcut<T> = {
  /** Lines besides the opening ones. */
  readonly lines: number;
  write(notebook: Notebook<T>): void;
};

/** More nodes than this and the voltage law is tried for what is wanted alone. */
const MOST_NODES = 9;

/**
 * The shortest chain of shortcuts from one acting source to what is wanted; null where the circuit is not all series
 * and parallel seen from that source, or something in it follows something else.
 */
export function shortcutFor<T>(acting: Acting<T>, task: Task<T>): Shortcut<T> | null {
  const nothing = whereNothingIs(acting, task);
  if (nothing !== null) return nothing;
  const amplifier = amplifierShortcut(acting, task);
  if (amplifier !== null) return amplifier;
  const source = soleSource(acting);
  if (source === null) return null;
  const { plus, minus } = endsOf(acting, source);
  const isVoltage = acting.laws[source]?.kind === "voltage";
  const [from, to] = isVoltage ? [plus, minus] : [minus, plus];
  const maker = new PortMaker(acting);
  const others = acting.live.filter((i) => i !== source);
  const ports = reduced(maker, others, new Set([from, to]));
  const [only] = ports;
  if (ports.length !== 1 || only === undefined || !isRegular(acting, only)) return null;
  const root = oriented(only, from, to);
  const facts = new Map<string, Fact<T>>();
  const driverKey = isVoltage ? voltageKey(from, to) : currentKey(root);
  const driver: Driver = { kind: isVoltage ? "voltage" : "current", key: driverKey };
  const target = targetOf(acting, task, root, source);
  if (target === null) return null;
  const given: Step<T> = {
    kind: "same",
    head: driverKey,
    body: [],
    cost: 0,
    of: () => sourceValueOf(acting, source),
  };
  let best: Shortcut<T> | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const view of viewsOf(acting, maker, root, driver, target.goal, facts)) {
    const steps = [given, ...view.steps, ...lawSteps(acting, task, root, facts), ...target.steps];
    const plan = planOver(steps);
    const lines = linesOf(plan, target.key);
    if (lines === null || lines.cost > least - 1e-9) continue;
    least = lines.cost;
    best = writing(acting, task, plan, facts, target, lines.count, new Sketcher(acting, view.root));
  }
  return best;
}

/** The one source of a circuit that holds nothing else but impedances. */
function soleSource<T>(acting: Acting<T>): BranchIndex | null {
  if (isCoupled(acting)) return null;
  const sources = acting.live.filter((i) => acting.laws[i]?.kind !== "admittance");
  const [only] = sources;
  return sources.length === 1 && only !== undefined ? only : null;
}

/** Zeros that are seen without any calculation. */
function whereNothingIs<T>(acting: Acting<T>, { linear, name }: Task<T>): Shortcut<T> | null {
  const { network, arithmetic } = acting.set;
  const zero = (
    unit: "V" | "A",
    sentence: string,
    parts: readonly string[],
    nodes: readonly string[],
  ): Shortcut<T> => ({
    lines: 1,
    write: (notebook) =>
      notebook.state({ rule: { kind: "nothing-flows" }, sentence, parts, nodes }, [
        { left: name, right: known(null, arithmetic.zero, unit), unit, expected: expectedOf(acting, linear) },
      ]),
  });
  if (linear.kind === "voltage") {
    const [from, to] = [nodeIndex(network, linear.from), nodeIndex(network, linear.to)];
    if (acting.joined(from) !== acting.joined(to)) return null;
    return zero("V", `Nothing drives a voltage between ${linear.from} and ${linear.to}.`, [], [linear.from, linear.to]);
  }
  const i = branchIndex(network, linear.through, linear.winding);
  const isOut = acting.idle.includes(i) || acting.shorted.includes(i) || acting.laws[i]?.kind === "open";
  return isOut ? zero("A", `${linear.through} carries no current.`, [linear.through], []) : null;
}

type Aim<T> = Target & { readonly goal: Goal; readonly steps: readonly Step<T>[] };

function targetOf<T>(acting: Acting<T>, { linear }: Task<T>, root: Port, source: BranchIndex): Aim<T> | null {
  const { network } = acting.set;
  if (linear.kind === "voltage") {
    const from = acting.joined(nodeIndex(network, linear.from));
    const to = acting.joined(nodeIndex(network, linear.to));
    const { key, sign } = pairOf(root, from, to, [from, to]);
    return { key, sign, goal: { kind: "nodes", from, to }, steps: [] };
  }
  const i = branchIndex(network, linear.through, linear.winding);
  const direction = linear.direction === "forward" ? 1 : -1;
  const goal: Goal = { kind: "branch", branch: i };
  const current = ownCurrent(acting, root, source, i);
  if (current !== null) {
    return { key: current.key, sign: (current.sign * direction) as 1 | -1, goal, steps: [] };
  }
  return cutTarget(acting, root, source, i, direction, goal);
}

/** The fact that is a branch's forward current. */
function ownCurrent<T>(acting: Acting<T>, root: Port, source: BranchIndex, i: BranchIndex): Target | null {
  // Current leaves a source at its plus terminal for a voltage, at its minus terminal for a current.
  if (i === source) return { key: currentKey(root), sign: acting.laws[i]?.kind === "voltage" ? -1 : 1 };
  const port = withInner(root).find(({ make }) => make.kind === "branch" && make.branch === i);
  return port?.make.kind === "branch" ? { key: currentKey(port), sign: port.make.sign } : null;
}

/** The current in a short, by Kirchhoff's current law around one end of it. */
function cutTarget<T>(
  acting: Acting<T>,
  root: Port,
  source: BranchIndex,
  i: BranchIndex,
  direction: 1 | -1,
  goal: Goal,
): Aim<T> | null {
  const cut = smallestCut(acting, i, (other) => other === source);
  if (cut === null) return null;
  const terms = cut.others.map(({ branch, sign }) => ({
    target: ownCurrent(acting, root, source, branch),
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
function pairOf(root: Port, from: NodeIndex, to: NodeIndex, wanted: readonly NodeIndex[] = []): Target {
  const runs = (first: NodeIndex, second: NodeIndex): boolean =>
    withInner(root).some(
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

/** Whether a row passes one node before another. */
function runsFrom(of: readonly Port[], first: NodeIndex, second: NodeIndex): boolean {
  const order = [...of.map((port) => port.from), of.at(-1)?.to];
  const [a, b] = [order.indexOf(first), order.indexOf(second)];
  return a >= 0 && b > a;
}

/** Kirchhoff's voltage law over two known voltages, for every pair of nodes, or for the wanted pair in a large circuit. */
function lawSteps<T>(acting: Acting<T>, { linear }: Task<T>, root: Port, facts: Map<string, Fact<T>>): Step<T>[] {
  const { network } = acting.set;
  const nodes = [...new Set(withInner(root).flatMap(({ from, to }) => [from, to]))];
  const wanted =
    linear.kind === "voltage"
      ? [[acting.joined(nodeIndex(network, linear.from)), acting.joined(nodeIndex(network, linear.to))] as const]
      : [];
  const ends: readonly NodeIndex[] = wanted.flat();
  const pairs =
    nodes.length > MOST_NODES ? wanted : nodes.flatMap((a, i) => nodes.slice(i + 1).map((b) => [a, b] as const));
  return pairs.flatMap(([a, b]) => {
    const head = pairOf(root, a, b, ends);
    const [from, to] = head.sign === 1 ? [a, b] : [b, a];
    addPairFact(acting, head.key, from, to, facts);
    return nodes.flatMap((via): Step<T>[] => {
      if (via === a || via === b) return [];
      const [first, second] = [pairOf(root, from, via, ends), pairOf(root, via, to, ends)];
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

function addPairFact<T>(
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

function writing<T>(
  acting: Acting<T>,
  task: Task<T>,
  plan: Plan<T>,
  facts: ReadonlyMap<string, Fact<T>>,
  target: Target,
  lines: number,
  sketcher: Sketcher<T>,
): Shortcut<T> {
  const origin = originOf(plan, target.key);
  const isDirect = target.sign === 1 && plan.get(origin)?.kind === "line";
  return {
    lines: lines + (isDirect ? 0 : 1),
    write: (notebook) => {
      writePhasors(acting, notebook, branchesUsed(plan, target.key));
      const writer = new PlanWriter(plan, facts, notebook, sketcher, isDirect ? { origin, name: task.name } : null);
      const found = writer.resolve(target.key);
      if (!isDirect) writeFinish(acting, task, found, target.sign, notebook);
    },
  };
}

/** The fact that another name for the same thing leads back to. */
function originOf<T>(plan: Plan<T>, key: string): string {
  const step = plan.get(key);
  const [only] = step?.body ?? [];
  return step?.kind === "same" && only !== undefined ? originOf(plan, only) : key;
}

function writeFinish<T>(acting: Acting<T>, task: Task<T>, found: Expr<T>, sign: 1 | -1, notebook: Notebook<T>): void {
  const { linear, name } = task;
  const unit = linear.kind === "voltage" ? "V" : "A";
  const isTurned = sign === -1;
  const what = linear.kind === "voltage" ? `from ${linear.from} to ${linear.to}` : `in ${linear.through}`;
  const same: Rule = linear.kind === "voltage" ? { kind: "same-voltage" } : { kind: "same-current" };
  const ends = runningEnds(acting, task);
  const turned =
    linear.kind === "voltage"
      ? `${textOf(found)} is counted from ${linear.to} to ${linear.from}, against ${name.text}: the sign changes.`
      : `${textOf(found)} runs from ${ends[1]} to ${ends[0]}, against the reference direction of ${name.text}: the sign changes.`;
  notebook.state(
    {
      rule: isTurned ? { kind: "sign" } : same,
      sentence: isTurned ? turned : `That is the ${linear.kind} ${what}.`,
      parts: linear.kind === "current" ? [linear.through] : [],
      nodes: linear.kind === "voltage" ? [linear.from, linear.to] : [],
    },
    [{ left: name, right: isTurned ? negative(found) : found, unit, expected: expectedOf(acting, linear) }],
  );
}

/** What a formula of one quantity is called. */
function textOf<T>(expr: Expr<T>): string {
  return expr.kind === "quantity" && expr.name !== null ? expr.name.text : "This";
}

/** The nodes between which a wanted current is counted. */
function runningEnds<T>(acting: Acting<T>, { linear }: Task<T>): readonly [string, string] {
  if (linear.kind === "voltage") return [linear.from, linear.to];
  const { plus, minus } = branchOf(acting, branchIndex(acting.set.network, linear.through, linear.winding));
  const ends = [nodeName(acting, plus), nodeName(acting, minus)] as const;
  return linear.direction === "forward" ? ends : [ends[1], ends[0]];
}

/** The lines that combine a piece into one impedance, the last of them under a name of its own. */
export function writeImpedance<T>(acting: Acting<T>, whole: Port, name: Name, notebook: Notebook<T>): void {
  const facts = new Map<string, Fact<T>>();
  const plan = planOver(withInner(whole).flatMap((port) => gatheredSteps(acting, port, facts)));
  const key = closedKey(whole);
  writePhasors(acting, notebook, branchesUsed(plan, key));
  const isLine = plan.get(key)?.kind === "line";
  const sketcher = new Sketcher(acting, whole);
  const writer = new PlanWriter(plan, facts, notebook, sketcher, isLine ? { origin: key, name } : null);
  const found = writer.resolve(key);
  if (isLine) return;
  notebook.state(
    {
      rule: { kind: "equivalent", what: "resistance" },
      sentence: "That alone is seen.",
      parts: partsOf(acting, whole),
    },
    [{ left: name, right: found, unit: "Ω", expected: pieceImpedance(acting, whole) }],
  );
}

/** Writes the lines of a plan in the order in which they are needed, each once. */
class PlanWriter<T> {
  private readonly done = new Map<string, Expr<T>>();
  private readonly plan: Plan<T>;
  private readonly facts: ReadonlyMap<string, Fact<T>>;
  private readonly notebook: Notebook<T>;
  private readonly sketcher: Sketcher<T>;
  private readonly last: { readonly origin: string; readonly name: Name } | null;

  constructor(
    plan: Plan<T>,
    facts: ReadonlyMap<string, Fact<T>>,
    notebook: Notebook<T>,
    sketcher: Sketcher<T>,
    last: { readonly origin: string; readonly name: Name } | null,
  ) {
    this.plan = plan;
    this.facts = facts;
    this.notebook = notebook;
    this.sketcher = sketcher;
    this.last = last;
  }

  resolve(key: string): Expr<T> {
    const before = this.done.get(key);
    if (before !== undefined) return before;
    const step = this.plan.get(key);
    if (step === undefined) throw new Error(`resolve: ${key} is not in the plan`);
    const given = step.body.map((premise) => this.resolve(premise));
    const expr = step.kind === "same" ? step.of(given) : this.write(key, step.infer(given));
    this.done.set(key, expr);
    return expr;
  }

  private write(key: string, { rule, right, sentence, parts, nodes, combines }: Inference<T>): Expr<T> {
    const fact = this.facts.get(key);
    const isLast = this.last !== null && this.last.origin === key;
    const name = isLast && this.last !== null ? this.last.name : (fact?.name ?? symbolOf(key));
    const value = evaluate(right, this.notebook.arithmetic);
    const expected = fact?.expected() ?? value;
    const unit = fact?.unit ?? "A";
    const sketch = combines === undefined ? null : this.sketcher.combine(combines);
    this.notebook.state({ rule, sentence, parts, nodes }, [{ left: name, right, unit, expected }], sketch);
    return known(name, value, unit);
  }
}
