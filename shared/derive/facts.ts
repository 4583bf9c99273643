import type { UnitSymbol } from "../quantity";
import type { Expr } from "./expression";
import type { Rule } from "./line";
import type { Name } from "./names";
import type { Transformation } from "./sketcher";

/** Something that can be known: a voltage, a current, a resistance, each under a key of its own. */
export type Fact<T> = {
  readonly key: string;
  readonly name: Name;
  readonly unit: UnitSymbol;
  /** What the solver has for it. */
  expected(): T;
};

/** A line to be: how one fact follows from others. */
export type Inference<T> = {
  readonly rule: Rule;
  readonly right: Expr<T>;
  readonly sentence: string;
  readonly parts: readonly string[];
  readonly nodes: readonly string[];
  /** Ports by number that are drawn as one from here on. */
  readonly combines?: number;
  readonly transforms?: Transformation;
};

/** `head` follows from `body`: at the cost of a line, or for nothing where it is the same thing under another name. */
export type Step<T> = {
  readonly head: string;
  readonly body: readonly string[];
  readonly cost: number;
} & (
  | { readonly kind: "same"; of(given: readonly Expr<T>[]): Expr<T>; readonly branch?: number }
  | { readonly kind: "line"; infer(given: readonly Expr<T>[]): Inference<T> }
);

/** The cheapest way to each fact that can be reached, as the step that ends it. */
export type Plan<T> = ReadonlyMap<string, Step<T>>;

/**
 * Cheapest derivations over steps with several premises, by relaxation until nothing improves; a premise used twice is
 * counted twice, so the cost is a bound and {@link linesOf} the count. Source: Knuth, Inf. Process. Lett. 6(1), 1977.
 */
export function planOver<T>(steps: readonly Step<T>[]): Plan<T> {
  const cost = new Map<string, number>();
  const best = new Map<string, Step<T>>();
  for (let improved = true; improved; ) {
    improved = false;
    for (const step of steps) {
      let total = step.cost;
      for (const premise of step.body) total += cost.get(premise) ?? Number.POSITIVE_INFINITY;
      // A tolerance, or sums of fractions taken in another order would improve on themselves.
      if (total > (cost.get(step.head) ?? Number.POSITIVE_INFINITY) - 1e-9 || !Number.isFinite(total)) continue;
      cost.set(step.head, total);
      best.set(step.head, step);
      improved = true;
    }
  }
  return best;
}

/** The lines that lead to a fact, each counted once: how many, and what they cost; null where none do. */
export function linesOf<T>(plan: Plan<T>, goal: string): { readonly count: number; readonly cost: number } | null {
  const seen = new Set<string>();
  let [count, cost] = [0, 0];
  const visit = (key: string): boolean => {
    if (seen.has(key)) return true;
    seen.add(key);
    const step = plan.get(key);
    if (step === undefined) return false;
    if (step.kind === "line") count++;
    cost += step.cost;
    return step.body.every(visit);
  };
  return visit(goal) ? { count, cost } : null;
}

/** The branches whose own impedances a fact is found from. */
export function branchesUsed<T>(plan: Plan<T>, goal: string): number[] {
  const seen = new Set<string>();
  const used = new Set<number>();
  const visit = (key: string): void => {
    if (seen.has(key)) return;
    seen.add(key);
    const step = plan.get(key);
    if (step?.kind === "same" && step.branch !== undefined) used.add(step.branch);
    step?.body.forEach(visit);
  };
  visit(goal);
  return [...used].sort((a, b) => a - b);
}
