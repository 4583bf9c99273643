import type { BranchIndex } from "../solve/network";
import { branchIndex, nodeIndex } from "../solve/superposition";
import type { Acting } from "./acting";
import { amplifierShortcut } from "./amplifierSteps";
import { drivenShortcut } from "./driven";
import { known } from "./expression";
import { expectedOf } from "./lastHop";
import type { Notebook } from "./notebook";
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
  return whereNothingIs(acting, task) ?? amplifierShortcut(acting, task) ?? drivenShortcut(acting, task);
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
