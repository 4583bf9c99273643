import { unreachable } from "../circuit";
import type { Arithmetic } from "./arithmetic";
import type { Branch, BranchIndex, Network, NodeIndex } from "./network";
import { nodeSets } from "./nodeSets";

/** More loops than this and the dense equations are not worth their time. */
const MOST_LOOPS = 60;

/** What loop analysis finds with all sources acting: branch currents, and voltages along the tree. */
export type LoopSolution<T> = {
  readonly branchCurrents: readonly T[];
  /** Voltage of a node less that of another; null where no tree joins them. */
  voltageBetween(from: NodeIndex, to: NodeIndex): T | null;
};

/** A linear form in the unknowns plus a constant. */
type Form<T> = { readonly terms: ReadonlyMap<number, T>; readonly constant: T };

/** A branch on a path; sign 1 where the path runs from its plus to its minus terminal. */
type Step = { readonly branch: BranchIndex; readonly sign: 1 | -1 };

/**
 * The second method: loop analysis of the whole circuit with all sources acting at once.
 *
 * A spanning tree is chosen; each branch outside it (a link) carries an unknown loop current; Kirchhoff's voltage law
 * around each loop, or the branch's own law where that fixes its current, gives the equations. Shares nothing with the
 * nodal equations but the branch laws and the elimination. Null where it does not apply: too many loops, a nullor that
 * loops can't express, or equations without a single solution (for instance shorts that bypass each other).
 * `values[s]` is the value of `network.sources[s]`. Source: Desoer and Kuh, Basic Circuit Theory, ch. 11 (from memory).
 */
export function solveByLoops<T>(
  network: Network<T>,
  arithmetic: Arithmetic<T>,
  values: readonly T[],
): LoopSolution<T> | null {
  const tree = spanningTree(network);
  const links = network.branches.flatMap((_, i) => (tree.has(i) ? [] : [i]));
  if (links.length > MOST_LOOPS) return null;
  const loops = new LoopEquations(network, arithmetic, values, tree, links);
  return loops.solve();
}

/** Laws that fix a current, or leave both to others: better links than branches of the tree. */
function fixesCurrent<T>({ law }: Branch<T>): boolean {
  switch (law.kind) {
    case "current":
    case "cccs":
    case "vccs":
    case "open":
    case "secondary":
      return true;
    case "opAmp":
    case "admittance":
    case "short":
    case "voltage":
    case "vcvs":
    case "ccvs":
    case "primary":
      return false;
    default:
      return unreachable(law);
  }
}

/** Tree branches whose voltage is an unknown: left open by their law, or given by voltages that may run over themselves. */
function hasOwnVoltage<T>(branch: Branch<T>): boolean {
  return fixesCurrent(branch) || ["opAmp", "vcvs", "primary"].includes(branch.law.kind);
}

function spanningTree<T>(network: Network<T>): Set<BranchIndex> {
  const sets = nodeSets(network.nodes.length);
  const tree = new Set<BranchIndex>();
  const take = (wanted: (branch: Branch<T>) => boolean): void => {
    network.branches.forEach((branch, i) => {
      if (!tree.has(i) && wanted(branch) && sets.join(branch.plus, branch.minus)) tree.add(i);
    });
  };
  take((branch) => !fixesCurrent(branch) && branch.law.kind !== "opAmp");
  // Only where nothing better reaches a node; its voltage then becomes an unknown.
  take((branch) => branch.law.kind !== "open");
  return tree;
}

class LoopEquations<T> {
  private readonly network: Network<T>;
  private readonly arithmetic: Arithmetic<T>;
  private readonly values: readonly T[];
  private readonly links: readonly BranchIndex[];
  /** Unknown of a link's current, or of the voltage of a tree branch whose law does not give it. */
  private readonly unknownOf = new Map<BranchIndex, number>();
  private readonly currents: Form<T>[];
  private readonly steps: { readonly step: Step; readonly to: NodeIndex }[][];

  constructor(
    network: Network<T>,
    arithmetic: Arithmetic<T>,
    values: readonly T[],
    tree: ReadonlySet<BranchIndex>,
    links: readonly BranchIndex[],
  ) {
    this.network = network;
    this.arithmetic = arithmetic;
    this.values = values;
    this.links = links;
    this.steps = network.nodes.map(() => []);
    for (const branch of tree) {
      const { plus, minus } = network.branches[branch] as Branch<T>;
      this.steps[plus]?.push({ step: { branch, sign: 1 }, to: minus });
      this.steps[minus]?.push({ step: { branch, sign: -1 }, to: plus });
    }
    for (const link of links) this.unknownOf.set(link, this.unknownOf.size);
    for (const branch of tree) {
      if (hasOwnVoltage(network.branches[branch] as Branch<T>)) this.unknownOf.set(branch, this.unknownOf.size);
    }
    this.currents = this.currentForms(tree);
  }

  solve(): LoopSolution<T> | null {
    const { arithmetic } = this;
    const equations = this.equations();
    if (equations === null || equations.length !== this.unknownOf.size) return null;
    const side = new Map<number, T>();
    equations.forEach(({ constant }, row) => {
      if (!arithmetic.isZero(constant)) side.set(row, arithmetic.negate(constant));
    });
    const rows = equations.map(({ terms }) => terms);
    const elimination = arithmetic.solve({ order: rows.length, rows, rightHandSides: [side] });
    if (!elimination.ok) return null;
    const evaluate = ({ terms, constant }: Form<T>): T => arithmetic.add(elimination.solution(0, [...terms]), constant);
    return {
      branchCurrents: this.currents.map(evaluate),
      voltageBetween: (from, to) => {
        const form = this.voltageForm(from, to);
        return form && evaluate(form);
      },
    };
  }

  /** Each branch's current in link currents: its own, or for a branch of the tree those of the loops that run over it. */
  private currentForms(tree: ReadonlySet<BranchIndex>): Form<T>[] {
    const { one, zero } = this.arithmetic;
    const forms = this.network.branches.map(() => new Map<number, T>());
    for (const link of this.links) {
      const { plus, minus } = this.network.branches[link] as Branch<T>;
      const own = this.unknownOf.get(link) as number;
      forms[link]?.set(own, one);
      // The loop closes through the tree from the link's minus terminal back to its plus terminal.
      for (const { branch, sign } of this.path(minus, plus) ?? []) {
        if (tree.has(branch)) forms[branch]?.set(own, sign === 1 ? one : this.arithmetic.negate(one));
      }
    }
    return forms.map((terms) => ({ terms, constant: zero }));
  }

  private path(from: NodeIndex, to: NodeIndex): Step[] | null {
    const before = new Map<NodeIndex, { step: Step; node: NodeIndex } | null>([[from, null]]);
    const queue = [from];
    for (let at = queue.pop(); at !== undefined && at !== to; at = queue.pop()) {
      for (const { step, to: next } of this.steps[at] ?? []) {
        if (before.has(next)) continue;
        before.set(next, { step, node: at });
        queue.push(next);
      }
    }
    if (!before.has(to)) return null;
    const path: Step[] = [];
    for (let last = before.get(to); last; last = before.get(last.node)) path.unshift(last.step);
    return path;
  }

  private equations(): Form<T>[] | null {
    const equations: Form<T>[] = [];
    for (const index of this.unknownOf.keys()) {
      const equation = this.equationOf(index);
      if (equation === null) return null;
      equations.push(equation);
    }
    return equations;
  }

  /** One equation for each unknown's branch: form = 0. */
  private equationOf(index: BranchIndex): Form<T> | null {
    const { plus, minus, law } = this.network.branches[index] as Branch<T>;
    const { negate, one } = this.arithmetic;
    const current = this.currents[index] as Form<T>;
    switch (law.kind) {
      case "current":
        return this.sum(current, this.source(law.source), negate(one));
      case "open":
        return current;
      case "cccs":
        return this.sum(current, this.currents[law.control] as Form<T>, negate(law.gain));
      case "secondary":
        return this.sum(current, this.currents[law.primary] as Form<T>, law.ratio);
      case "vccs": {
        const control = this.voltageForm(law.control.plus, law.control.minus);
        return control && this.sum(current, control, negate(law.gain));
      }
      case "opAmp":
        return this.voltageForm(law.inputs.plus, law.inputs.minus);
      case "admittance":
      case "short":
      case "voltage":
      case "vcvs":
      case "ccvs":
      case "primary": {
        const along = this.voltageForm(plus, minus);
        const own = this.lawVoltage(index);
        return along && own && this.sum(along, own, negate(one));
      }
      default:
        return unreachable(law);
    }
  }

  /** Σ of the branch voltages along the tree; null where no tree joins the nodes. */
  private voltageForm(from: NodeIndex, to: NodeIndex): Form<T> | null {
    const { one, negate } = this.arithmetic;
    const path = this.path(from, to);
    if (path === null) return null;
    let total: Form<T> | null = this.nothing();
    for (const { branch, sign } of path) {
      const voltage = this.treeVoltage(branch);
      total = voltage && this.sum(total, voltage, sign === 1 ? one : negate(one));
      if (total === null) return null;
    }
    return total;
  }

  /** The voltage of a tree branch: its unknown, where its law leaves it open or refers to voltages, or else its law. */
  private treeVoltage(index: BranchIndex): Form<T> | null {
    const unknown = this.unknownOf.get(index);
    if (unknown === undefined) return this.lawVoltage(index);
    return { terms: new Map([[unknown, this.arithmetic.one]]), constant: this.arithmetic.zero };
  }

  /** The voltage of a branch by its own law. */
  private lawVoltage(index: BranchIndex): Form<T> | null {
    const { law } = this.network.branches[index] as Branch<T>;
    const scaled = (form: Form<T> | null, gain: T): Form<T> | null => form && this.sum(this.nothing(), form, gain);
    switch (law.kind) {
      case "admittance":
        return scaled(this.currents[index] as Form<T>, law.impedance);
      case "short":
        return this.nothing();
      case "voltage":
        return this.source(law.source);
      case "vcvs":
        return scaled(this.voltageForm(law.control.plus, law.control.minus), law.gain);
      case "ccvs":
        return scaled(this.currents[law.control] as Form<T>, law.gain);
      case "primary":
        return scaled(this.voltageForm(law.secondary.plus, law.secondary.minus), law.ratio);
      case "current":
      case "cccs":
      case "vccs":
      case "open":
      case "secondary":
      case "opAmp":
        return null;
      default:
        return unreachable(law);
    }
  }

  private nothing(): Form<T> {
    return { terms: new Map(), constant: this.arithmetic.zero };
  }

  private source(source: number | null): Form<T> {
    return { terms: new Map(), constant: source === null ? this.arithmetic.zero : (this.values[source] as T) };
  }

  /** a + factor · b. */
  private sum(a: Form<T>, b: Form<T>, factor: T): Form<T> {
    const { add, multiply, isZero } = this.arithmetic;
    const terms = new Map(a.terms);
    for (const [at, value] of b.terms) {
      const before = terms.get(at);
      const more = multiply(value, factor);
      const after = before === undefined ? more : add(before, more);
      if (isZero(after)) terms.delete(at);
      else terms.set(at, after);
    }
    return { terms, constant: add(a.constant, multiply(b.constant, factor)) };
  }
}
