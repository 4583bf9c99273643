import { branchIndex } from "../solve/superposition";
import { type Acting, branchOf, nodeName } from "./acting";
import { type Expr, evaluate, known, negative } from "./expression";
import { branchesUsed, type Fact, type Inference, type Plan, planOver } from "./facts";
import { expectedOf } from "./lastHop";
import type { Rule } from "./line";
import { type Name, symbolOf } from "./names";
import type { Notebook } from "./notebook";
import { pieceImpedance } from "./portImpedance";
import { closedKey, gatheredSteps, partsOf } from "./portSteps";
import { type Port, withInner } from "./ports";
import type { Task } from "./route";
import type { Shortcut } from "./shortcut";
import { Sketcher } from "./sketcher";
import type { Target } from "./target";

/** A plan for what is wanted, ready to be written. */
export type Planned<T> = {
  readonly plan: Plan<T>;
  readonly facts: ReadonlyMap<string, Fact<T>>;
  readonly target: Target;
  readonly cost: number;
  readonly sketcher: Sketcher<T>;
};

/** The lines of a plan, the last under the name of what is wanted. */
export function planned<T>(
  acting: Acting<T>,
  task: Task<T>,
  { plan, facts, target, cost, sketcher }: Planned<T>,
): Shortcut<T> {
  const origin = originOf(plan, target.key);
  const isDirect = target.sign === 1 && plan.get(origin)?.kind === "line";
  return {
    cost: cost + (isDirect ? 0 : 1),
    used: branchesUsed(plan, target.key),
    write: (notebook) => {
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

/** A piece's impedance as a formula, after the lines that combine it into one, the last of them under the given name. */
export function writeImpedance<T>(acting: Acting<T>, whole: Port, name: Name, notebook: Notebook<T>): Expr<T> {
  const facts = new Map<string, Fact<T>>();
  const plan = planOver(withInner(whole).flatMap((port) => gatheredSteps(acting, port, facts)));
  const key = closedKey(whole);
  const isLine = plan.get(key)?.kind === "line";
  const sketcher = new Sketcher(acting, [whole]);
  return new PlanWriter(plan, facts, notebook, sketcher, isLine ? { origin: key, name } : null).resolve(key);
}

/** The same where the impedance itself is what is asked for: a lone part is said to be it. */
export function writeWholeImpedance<T>(acting: Acting<T>, whole: Port, name: Name, notebook: Notebook<T>): void {
  const found = writeImpedance(acting, whole, name, notebook);
  if (whole.make.kind !== "branch") return;
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

  private write(key: string, { rule, right, sentence, parts, nodes, combines, transforms }: Inference<T>): Expr<T> {
    const fact = this.facts.get(key);
    const isLast = this.last !== null && this.last.origin === key;
    const name = isLast && this.last !== null ? this.last.name : (fact?.name ?? symbolOf(key));
    const value = evaluate(right, this.notebook.arithmetic);
    const expected = fact?.expected() ?? value;
    const unit = fact?.unit ?? "A";
    const combined = combines === undefined ? null : this.sketcher.combine(combines);
    const sketch = transforms === undefined ? combined : this.sketcher.transform(transforms);
    this.notebook.state({ rule, sentence, parts, nodes }, [{ left: name, right, unit, expected }], sketch);
    return known(name, value, unit);
  }
}
