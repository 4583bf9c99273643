import type { BranchIndex } from "../solve/network";
import { branchIndex, nodeIndex } from "../solve/superposition";
import { type Acting, branchOf, endsOf } from "./acting";
import { amplifierShortcut } from "./amplifierSteps";
import { drivenShortcut } from "./driven";
import { known, negative } from "./expression";
import { expectedOf } from "./lastHop";
import type { Notebook } from "./notebook";
import { sourceValueOf } from "./quantities";
import type { Task } from "./route";

/** A derivation that needs no set of equations, ready to be written. */
export type Shortcut<T> = {
  /** Its lines, and a little more for those that are harder to see. */
  readonly cost: number;
  /** Branches whose impedances are put in. */
  readonly used: readonly BranchIndex[];
  write(notebook: Notebook<T>): void;
};

/** The shortest chain of shortcuts to what is wanted; null where none reaches it. */
export function shortcutFor<T>(acting: Acting<T>, task: Task<T>): Shortcut<T> | null {
  return (
    whereNothingIs(acting, task) ??
    whatIsGiven(acting, task) ??
    amplifierShortcut(acting, task) ??
    drivenShortcut(acting, task)
  );
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
    cost: 1,
    used: [],
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

/** What an independent source sets by itself: its own current, or the voltage between its own nodes. */
function whatIsGiven<T>(acting: Acting<T>, { linear, name }: Task<T>): Shortcut<T> | null {
  const { network } = acting.set;
  const [unit, kind] = linear.kind === "voltage" ? (["V", "voltage"] as const) : (["A", "current"] as const);
  const sourceOf = (): { readonly branch: BranchIndex; readonly isForward: boolean } | null => {
    if (linear.kind === "current") {
      const branch = branchIndex(network, linear.through, linear.winding);
      return { branch, isForward: linear.direction === "forward" };
    }
    const [from, to] = [linear.from, linear.to].map((node) => acting.joined(nodeIndex(network, node)));
    const ends = (i: BranchIndex) => endsOf(acting, i);
    const branch = acting.live.find((i) => {
      const { plus, minus } = ends(i);
      return (
        acting.laws[i]?.kind === "voltage" &&
        [plus, minus].includes(from as number) &&
        [plus, minus].includes(to as number)
      );
    });
    return branch === undefined ? null : { branch, isForward: ends(branch).plus === from };
  };
  const source = sourceOf();
  if (source === null || acting.laws[source.branch]?.kind !== kind) return null;
  const value = sourceValueOf(acting, source.branch);
  const { part } = branchOf(acting, source.branch);
  return {
    cost: 1,
    used: [],
    write: (notebook) =>
      notebook.state(
        {
          rule: source.isForward ? { kind: kind === "voltage" ? "same-voltage" : "same-current" } : { kind: "sign" },
          sentence: source.isForward
            ? `${part} sets this ${kind} itself.`
            : `${part} sets this ${kind} itself, counted the other way: the sign changes.`,
          parts: [part],
          nodes: linear.kind === "voltage" ? [linear.from, linear.to] : [],
        },
        [{ left: name, right: source.isForward ? value : negative(value), unit, expected: expectedOf(acting, linear) }],
      ),
  };
}
