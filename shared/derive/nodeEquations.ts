// Long for one reason: each law of a branch says here what it holds, ties, constrains and carries, over one set of unknowns.
import { listed } from "../circuit/problemText";
import type { UnitSymbol } from "../quantity";
import { unreachable } from "../quantity";
import type { Branch, BranchIndex, Law, NodeIndex } from "../solve/network";
import { nodeSets } from "../solve/nodeSets";
import { type Linear, nodeIndex } from "../solve/superposition";
import { type Acting, branchOf, endsOf, joinedName } from "./acting";
import { type Controls, controlsOf, writeControls } from "./controls";
import {
  type Expr,
  known,
  negative,
  over,
  type QuantityExpr,
  type SignedTerm,
  sumOf,
  times,
  unknown,
} from "./expression";
import { isTie } from "./kirchhoff";
import { forward } from "./lastHop";
import type { Name } from "./names";
import type { Balance, Notebook } from "./notebook";
import {
  branchCurrentName,
  branchLabel,
  difference,
  impedanceOf,
  pairName,
  ratioOf,
  sourceValueOf,
} from "./quantities";
import { solveFor } from "./solveFor";

/** What a set of equations has found: every voltage and current as a formula in what is now known. */
export type Found<T> = {
  /** Voltage of a node to the reference; null for 0. */
  nodeVoltage(node: NodeIndex): Expr<T> | null;
  /** Voltage from one node to another, where there is a shorter way than by the reference. */
  between?(from: NodeIndex, to: NodeIndex): Expr<T> | null;
  /** Current from plus to minus where a law gives it; null where only Kirchhoff's current law does. */
  branchCurrent(branch: BranchIndex): Expr<T> | null;
  /** One of the unknowns is the wanted quantity, under its own name. */
  readonly isWanted: boolean;
};

/** What is wanted, where it may be one of the unknowns: it then gets its own name. */
export type WantedName = { readonly linear: Linear; readonly name: Name };

/** An equation with the words that go with it. */
type Planned<T> = Balance<T> & {
  readonly rule: "node-equation" | "supernode" | "constraint";
  readonly sentence: string;
  readonly parts: readonly string[];
  readonly nodes: readonly string[];
  /** The branch whose law it is, for a constraint. */
  readonly branch?: BranchIndex;
};

/** Node equations of an acting circuit, not yet written: how many unknowns they would have, and how to write them. */
export type NodeEquations<T> = {
  readonly unknowns: number;
  /** Lines down to what is wanted, about. */
  readonly lines: number;
  write(notebook: Notebook<T>): Found<T> | null;
};

/**
 * Nodal analysis as a person writes it: voltages of nodes that sources hold are put in, nodes that voltage sources tie
 * together share one equation, what dependent sources follow is an unknown with an equation of its own.
 */
export function nodeEquations<T>(acting: Acting<T>, wanted: WantedName | null = null): NodeEquations<T> {
  const setup = new NodeSetup(acting, wanted);
  return { unknowns: setup.unknowns.size, lines: setup.lines, write: (notebook) => setup.write(notebook) };
}

class NodeSetup<T> {
  readonly unknowns = new Map<string, QuantityExpr<T>>();
  private readonly acting: Acting<T>;
  private readonly voltages = new Map<NodeIndex, Expr<T> | null>();
  private readonly currents = new Map<BranchIndex, Expr<T>>();
  private readonly controls: Controls<T>;
  /** Branches whose constraint is used up by a voltage put in directly. */
  private readonly settled = new Set<BranchIndex>();
  private readonly equalInputs: BranchIndex[] = [];

  /** The key of the unknown that is wanted itself. */
  private wantedKey: string | null = null;
  private readonly wanted: WantedName | null;

  constructor(acting: Acting<T>, wanted: WantedName | null) {
    this.acting = acting;
    this.wanted = wanted;
    this.groundSections();
    this.holdBySources();
    for (const i of acting.live) if (this.isFollowed(i)) this.currentUnknown(i);
    this.levelInputs();
    for (const node of this.nodes()) if (!this.voltages.has(node)) this.voltages.set(node, this.nodeUnknown(node));
    this.controls = controlsOf(acting, this.found(), this.unknowns);
  }

  get lines(): number {
    const { size } = this.unknowns;
    return 1 + size + (size > 0 ? 1 : 0) + (this.wantedKey === null ? 1 : 0);
  }

  /** Nodes that live branches or op amp inputs meet. */
  private nodes(): readonly NodeIndex[] {
    const { acting } = this;
    const met = acting.live.flatMap((i) => {
      const { plus, minus: other } = endsOf(acting, i);
      const law = acting.laws[i] as Law<T>;
      if (law.kind === "opAmp") return [plus, other, acting.joined(law.inputs.plus), acting.joined(law.inputs.minus)];
      return [plus, other];
    });
    return [...new Set(met)];
  }

  /** The reference, and in each part of the circuit that only a transformer or nothing ties to it one node more. */
  private groundSections(): void {
    const { acting } = this;
    const { sectionOf } = acting.set.structure;
    for (const root of new Set([acting.set.network.reference, ...sectionOf])) {
      this.voltages.set(acting.joined(root), null);
    }
  }

  /** Voltages that independent sources hold, from the reference outwards. */
  private holdBySources(): void {
    const { acting } = this;
    for (let grew = true; grew; ) {
      grew = false;
      for (const i of acting.live) {
        if (acting.laws[i]?.kind !== "voltage") continue;
        const { plus, minus: other } = endsOf(acting, i);
        if (this.voltages.has(plus) === this.voltages.has(other)) continue;
        const value = sourceValueOf(acting, i);
        if (this.voltages.has(other)) this.voltages.set(plus, addTo(this.voltages.get(other) ?? null, value));
        else this.voltages.set(other, difference(this.voltages.get(plus) ?? null, value));
        this.settled.add(i);
        grew = true;
      }
    }
  }

  /** Ideal inputs are equal: the inverting one is called by the voltage of the other where that closes no circle. */
  private levelInputs(): void {
    const { acting } = this;
    for (const i of acting.live) {
      const law = acting.laws[i] as Law<T>;
      if (law.kind !== "opAmp") continue;
      const [a, b] = [acting.joined(law.inputs.plus), acting.joined(law.inputs.minus)];
      if (a === b) {
        this.settled.add(i);
        continue;
      }
      const [from, to] = this.voltages.has(b) && !this.voltages.has(a) ? [b, a] : [a, b];
      if (this.voltages.has(to)) continue;
      if (!this.voltages.has(from)) this.voltages.set(from, this.nodeUnknown(from));
      this.voltages.set(to, this.voltages.get(from) ?? null);
      this.settled.add(i);
      this.equalInputs.push(i);
    }
  }

  private nodeUnknown(node: NodeIndex): Expr<T> {
    const { acting } = this;
    const key = `V ${node}`;
    const quantity = unknown(key, this.nameOf(node), acting.response.nodeVoltage(node), "V");
    this.unknowns.set(key, quantity);
    return quantity;
  }

  /** The wanted quantity's own name where it is the voltage of this node. */
  private nameOf(node: NodeIndex): Name {
    const { acting, wanted } = this;
    const { network } = acting.set;
    if (wanted?.linear.kind === "voltage") {
      const [from, to] = [nodeIndex(network, wanted.linear.from), nodeIndex(network, wanted.linear.to)];
      if (acting.joined(from) === node && this.voltages.get(acting.joined(to)) === null) {
        this.wantedKey = `V ${node}`;
        return wanted.name;
      }
    }
    return pairName(acting, node, network.reference);
  }

  private isFollowed(i: BranchIndex): boolean {
    const { acting } = this;
    if (!isTie(acting, i) && !acting.held.has(i)) return false;
    if (acting.laws[i]?.kind === "primary") return true;
    return acting.live.some((other) => {
      const law = acting.laws[other] as Law<T>;
      return (law.kind === "ccvs" || law.kind === "cccs") && law.control === i;
    });
  }

  private currentUnknown(i: BranchIndex): void {
    const { acting } = this;
    const key = `I ${i}`;
    const quantity = unknown(key, branchCurrentName(acting, i), acting.response.branchCurrent(i), "A");
    this.unknowns.set(key, quantity);
    this.currents.set(i, quantity);
  }

  private found(): Found<T> {
    return {
      nodeVoltage: (node) => this.voltages.get(this.acting.joined(node)) ?? null,
      branchCurrent: (i) => this.currentOf(i),
      isWanted: this.wantedKey !== null,
    };
  }

  private across(i: BranchIndex): Expr<T> | null {
    const { plus, minus: other } = endsOf(this.acting, i);
    return difference(this.voltages.get(plus) ?? null, this.voltages.get(other) ?? null);
  }

  private currentOf(i: BranchIndex): Expr<T> | null {
    const { acting } = this;
    const law = acting.laws[i] as Law<T>;
    const own = this.currents.get(i);
    if (own !== undefined) return own;
    switch (law.kind) {
      case "admittance": {
        if (!acting.live.includes(i)) return this.nothing("A");
        const voltage = this.across(i);
        return voltage === null ? this.nothing("A") : over(voltage, impedanceOf(acting, i));
      }
      case "open":
        return this.nothing("A");
      case "current":
        return sourceValueOf(acting, i);
      case "vccs":
      case "cccs":
        return this.controls.product(i);
      case "secondary": {
        const primary = this.currents.get(law.primary);
        if (primary === undefined) return null;
        return negative(times(ratioOf(acting, i), primary));
      }
      case "short":
      case "voltage":
      case "vcvs":
      case "ccvs":
      case "opAmp":
      case "primary":
        return null;
      default:
        return unreachable(law);
    }
  }

  private nothing(unit: UnitSymbol): Expr<T> {
    return known(null, this.acting.set.arithmetic.zero, unit);
  }

  write(notebook: Notebook<T>): Found<T> | null {
    this.writeUnknowns(notebook);
    const equations = [...this.currentLaws(), ...this.constraints()];
    const explained = new Set(this.controls.balances.map(({ source }) => source));
    const laws = new Map(
      equations.flatMap(({ branch, left, right, unit }) =>
        branch !== undefined && explained.has(branch) ? [[branch, { left, right, unit }] as const] : [],
      ),
    );
    writeControls(this.acting, this.controls, notebook, laws);
    for (const { rule, sentence, parts, nodes, branch, ...balance } of equations) {
      if (branch !== undefined && laws.has(branch)) continue;
      const kind =
        rule === "constraint"
          ? ({ kind: "constraint" } as const)
          : ({ kind: "node-equation", isSupernode: rule === "supernode" } as const);
      notebook.balance({ rule: kind, sentence, parts, nodes }, [balance]);
    }
    const solved = solveFor(this.wantedLast(), [...this.controls.balances, ...equations], notebook);
    return solved && this.foundWith(solved);
  }

  /** The unknowns, that which is wanted at the end. */
  private wantedLast(): ReadonlyMap<string, QuantityExpr<T>> {
    const last = ([key]: readonly [string, unknown]): number => (key === this.wantedKey ? 1 : 0);
    return new Map([...this.unknowns].sort((a, b) => last(a) - last(b)));
  }

  /** The same formulas with the unknowns' values put in. */
  private foundWith(solved: ReadonlyMap<string, Expr<T>>): Found<T> {
    const put = (expr: Expr<T> | null): Expr<T> | null => (expr === null ? null : substituted(expr, solved));
    const found = this.found();
    return {
      nodeVoltage: (node) => put(found.nodeVoltage(node)),
      branchCurrent: (i) => put(found.branchCurrent(i)),
      isWanted: found.isWanted,
    };
  }

  private writeUnknowns(notebook: Notebook<T>): void {
    const { acting } = this;
    const reference = joinedName(acting, acting.set.network.reference);
    const names = [...this.unknowns.values()].map(({ name }) => name?.text ?? "");
    const level = this.equalInputs.map((i) => branchOf(acting, i).part);
    const levels =
      level.length === 1
        ? `${level[0]} holds its inputs equal and takes no current into them`
        : `${listed(level)} hold their inputs equal and take no current into them`;
    const what =
      names.length === 0
        ? `Sources hold every node voltage`
        : `Count voltages from node ${reference}; unknown: ${listed(names)}`;
    const nodes = this.nodes().map((node) => joinedName(acting, node));
    const said = this.equalInputs.flatMap((i) => {
      const law = acting.laws[i] as Extract<Law<T>, { kind: "opAmp" }>;
      const { part } = branchOf(acting, i);
      const value = this.voltages.get(acting.joined(law.inputs.minus)) ?? this.nothing("V");
      const left = pairName(acting, law.inputs.minus, acting.set.network.reference);
      const name = value.kind === "quantity" ? value.name?.text : null;
      if (name === left.text) return [];
      return [{ part, left, right: value, level: acting.response.nodeVoltage(law.inputs.minus) }];
    });
    const sentence = level.length === 0 ? `${what}.` : `${what}; ${levels}.`;
    const parts = said.map(({ part }) => part);
    notebook.balance(
      { rule: { kind: "node-voltages" }, sentence, parts, nodes },
      said.map(({ left, right, level }) => ({
        left: unknown("level", left, level, "V"),
        right,
        unit: "V" as const,
      })),
    );
  }

  /** Kirchhoff's current law for each node, or group of nodes that voltages tie together, that none ties to a known one. */
  private currentLaws(): Planned<T>[] {
    const { acting } = this;
    const sets = nodeSets(acting.set.network.nodes.length);
    const ties = acting.live.filter((i) => isTie(acting, i) && !this.currents.has(i));
    for (const i of ties) {
      const { plus, minus: other } = endsOf(acting, i);
      sets.join(plus, other);
    }
    // The reference and what is tied to it: the currents there are whatever the ties make them.
    const { network, structure } = acting.set;
    const grounded = new Set([network.reference, ...structure.sectionOf].map((root) => sets.find(acting.joined(root))));
    const groups = new Map<NodeIndex, NodeIndex[]>();
    for (const node of this.nodes()) groups.set(sets.find(node), [...(groups.get(sets.find(node)) ?? []), node]);
    return [...groups].flatMap(([root, nodes]) => (grounded.has(root) ? [] : (this.currentLaw(nodes, ties) ?? [])));
  }

  private currentLaw(nodes: readonly NodeIndex[], ties: readonly BranchIndex[]): Planned<T>[] | null {
    const { acting } = this;
    const inside = new Set(nodes);
    const leaving: SignedTerm<T>[] = [];
    const entering: SignedTerm<T>[] = [];
    const parts: string[] = [];
    for (const i of acting.live) {
      const { plus, minus: other } = endsOf(acting, i);
      if (inside.has(plus) === inside.has(other)) continue;
      const isOut = inside.has(plus);
      const law = acting.laws[i] as Law<T>;
      const current = law.kind === "admittance" ? this.outward(i, isOut) : this.currentOf(i);
      if (current === null || isNothing(current, acting)) continue;
      parts.push(branchOf(acting, i).part);
      if (law.kind === "admittance") leaving.push(forward({ sign: 1, of: current }));
      else if (law.kind === "current") entering.push({ sign: isOut ? -1 : 1, of: current });
      else leaving.push({ sign: isOut ? 1 : -1, of: current });
    }
    if (parts.length === 0) return null;
    const tying = ties.filter((i) => {
      const { plus, minus: other } = endsOf(acting, i);
      return inside.has(plus) && inside.has(other);
    });
    const names = nodes.map((node) => joinedName(acting, node));
    const isSupernode = nodes.length > 1;
    const sentence = isSupernode
      ? `Kirchhoff's current law for the supernode of ${listed(names)}, which ${listed(tying.map((i) => branchLabel(acting, i)))} ${tying.length === 1 ? "ties" : "tie"} together.`
      : `Kirchhoff's current law at node ${names[0]}: what leaves through ${acting.set.stimulus.frequency === null ? "resistances" : "impedances"} is what sources bring in.`;
    const zero = this.nothing("A");
    return [
      {
        left: leaving.length === 0 ? zero : sumOf(leaving),
        right: entering.length === 0 ? zero : sumOf(entering),
        unit: "A",
        rule: isSupernode ? "supernode" : "node-equation",
        sentence:
          isSupernode || entering.length > 0
            ? sentence
            : `Kirchhoff's current law at node ${names[0]}: the currents that leave it add up to 0.`,
        parts,
        nodes: names,
      },
    ];
  }

  /** An admittance's current away from a node, so that the node's own voltage comes first. */
  private outward(i: BranchIndex, isOut: boolean): Expr<T> {
    const { plus, minus: other } = endsOf(this.acting, i);
    const [near, far] = isOut ? [plus, other] : [other, plus];
    const voltage = difference(this.voltages.get(near) ?? null, this.voltages.get(far) ?? null);
    return voltage === null ? this.nothing("A") : over(voltage, impedanceOf(this.acting, i));
  }

  /** What each tying branch says of the voltages of its ends. */
  private constraints(): Planned<T>[] {
    const { acting } = this;
    return acting.live.flatMap((i): Planned<T>[] => {
      if (this.settled.has(i) || !(isTie(acting, i) || acting.held.has(i))) return [];
      const branch = branchOf(acting, i);
      const law = acting.laws[i] as Law<T>;
      const planned = this.constraint(i, branch, law);
      if (planned === null) return [];
      const { plus, minus: other } = endsOf(acting, i);
      return [
        {
          ...planned,
          unit: "V",
          rule: "constraint",
          branch: i,
          parts: [branch.part],
          nodes: [joinedName(acting, plus), joinedName(acting, other)],
        },
      ];
    });
  }

  private constraint(
    i: BranchIndex,
    branch: Branch<T>,
    law: Law<T>,
  ): { left: Expr<T>; right: Expr<T>; sentence: string } | null {
    const { acting } = this;
    const zero = this.nothing("V");
    const across = this.across(i) ?? zero;
    switch (law.kind) {
      case "voltage":
        return {
          left: across,
          right: sourceValueOf(acting, i),
          sentence: `${branch.part} fixes the voltage between its nodes.`,
        };
      case "vcvs":
      case "ccvs":
        return {
          left: across,
          right: this.controls.product(i),
          sentence: `The voltage of ${branch.part} follows its control.`,
        };
      case "short":
        return { left: across, right: zero, sentence: `${branch.part} is a short: no voltage between its nodes.` };
      case "opAmp": {
        const [a, b] = [this.found().nodeVoltage(law.inputs.plus), this.found().nodeVoltage(law.inputs.minus)];
        return { left: b ?? zero, right: a ?? zero, sentence: `${branch.part} holds its inputs equal.` };
      }
      case "primary": {
        const { plus, minus: other } = law.secondary;
        const secondary = difference(this.found().nodeVoltage(plus), this.found().nodeVoltage(other));
        const right = secondary === null ? zero : times(ratioOf(acting, i), secondary);
        return {
          left: across,
          right,
          sentence: `${branch.part} sets the primary voltage to its ratio times the secondary voltage; the secondary current is minus the ratio times the primary's.`,
        };
      }
      case "admittance":
      case "open":
      case "current":
      case "vccs":
      case "cccs":
      case "secondary":
        return null;
      default:
        return unreachable(law);
    }
  }
}

/** A number that is 0 and has no name, or so many times it: nothing to write. */
function isNothing<T>(expr: Expr<T>, acting: Acting<T>): boolean {
  const { set } = acting;
  if (expr.kind === "product") return expr.factors.some((factor) => isNothing(factor, acting));
  return expr.kind === "quantity" && expr.name === null && set.arithmetic.isZero(expr.value);
}

function addTo<T>(base: Expr<T> | null, value: Expr<T>): Expr<T> {
  return base === null
    ? value
    : sumOf([
        { sign: 1, of: base },
        { sign: 1, of: value },
      ]);
}

/** A formula with what was unknown now known. */
export function substituted<T>(expr: Expr<T>, solved: ReadonlyMap<string, Expr<T>>): Expr<T> {
  switch (expr.kind) {
    case "quantity":
      return (expr.unknown === null ? undefined : solved.get(expr.unknown)) ?? expr;
    case "sum":
      return sumOf(expr.terms.map(({ sign, of }) => ({ sign, of: substituted(of, solved) })));
    case "product":
      return times(...expr.factors.map((factor) => substituted(factor, solved)));
    case "quotient":
      return over(substituted(expr.over, solved), substituted(expr.under, solved));
    case "square":
      return { kind: "square", of: substituted(expr.of, solved) };
    default:
      return unreachable(expr);
  }
}
