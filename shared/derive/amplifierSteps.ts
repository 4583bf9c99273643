import type { BranchIndex, Law, NodeIndex } from "../solve/network";
import { branchIndex, nodeIndex } from "../solve/superposition";
import { type Acting, branchOf, endsOf, joinedName } from "./acting";
import { type Expr, evaluate, known, negative, over, plus, times } from "./expression";
import { isTie, smallestCut } from "./kirchhoff";
import { writeLastHop } from "./lastHop";
import type { Rule } from "./line";
import type { Name } from "./names";
import type { Found } from "./nodeEquations";
import type { Notebook } from "./notebook";
import { type Port, PortMaker, reduced } from "./ports";
import { impedanceOf, pairName, sourceValueOf, voltageBetween } from "./quantities";
import type { Task } from "./route";
import type { Shortcut } from "./shortcut";

/** How the voltage of a node to the reference is known: held, or the output of a stage, or divided. */
type Known<T> = {
  readonly needs: readonly NodeIndex[];
  /** Null where it needs no line. */
  readonly line: { readonly rule: Rule; readonly sentence: string; readonly parts: readonly string[] } | null;
  right(voltageAt: (node: NodeIndex) => Expr<T> | null): Expr<T> | null;
  readonly uses: readonly BranchIndex[];
};

/**
 * Op amp circuits with one voltage source on, stage by stage from the input: inverting (or summing), non-inverting and
 * follower stages by their closed forms. Null where a stage has another shape, or what is wanted lies elsewhere.
 */
export function amplifierShortcut<T>(acting: Acting<T>, task: Task<T>): Shortcut<T> | null {
  const isAllowed = (i: BranchIndex): boolean => {
    const kind = acting.laws[i]?.kind;
    return kind === "admittance" || kind === "voltage" || kind === "opAmp";
  };
  const hasOpAmp = acting.live.some((i) => acting.laws[i]?.kind === "opAmp");
  if (!hasOpAmp || !acting.live.every(isAllowed)) return null;
  const stages = new Stages(acting);
  const needed = neededNodes(acting, task);
  if (needed === null || !needed.every((node) => stages.isKnown(node))) return null;
  return {
    cost: 1,
    used: stages.used(needed),
    write: (notebook) => {
      const wanted = wantedNode(acting, task);
      const isStage = wanted !== null && stages.hasLine(wanted);
      stages.write(needed, notebook, isStage ? { node: wanted, name: task.name } : null);
      if (!isStage) writeLastHop(acting, task.linear, task.name, stages.found(), notebook);
    },
  };
}

/** Nodes whose voltages the last line speaks of; null where it cannot be written from voltages. */
function neededNodes<T>(acting: Acting<T>, { linear }: Task<T>): NodeIndex[] | null {
  const { network } = acting.set;
  if (linear.kind === "voltage") {
    return [linear.from, linear.to].map((node) => acting.joined(nodeIndex(network, node)));
  }
  const i = branchIndex(network, linear.through, linear.winding);
  const endNodes = (branch: BranchIndex): NodeIndex[] => {
    const { plus: start, minus: end } = endsOf(acting, branch);
    return [start, end];
  };
  if (!isTie(acting, i)) return endNodes(i);
  const cut = smallestCut(acting, i);
  if (cut === null || cut.others.some(({ branch }) => acting.laws[branch]?.kind !== "admittance")) return null;
  return cut.others.flatMap(({ branch }) => endNodes(branch));
}

function wantedNode<T>(acting: Acting<T>, { linear }: Task<T>): NodeIndex | null {
  if (linear.kind !== "voltage") return null;
  const { network } = acting.set;
  const [from, to] = [linear.from, linear.to].map((node) => acting.joined(nodeIndex(network, node)));
  return to === acting.joined(network.reference) && from !== undefined ? from : null;
}

class Stages<T> {
  private readonly acting: Acting<T>;
  private readonly known = new Map<NodeIndex, Known<T>>();
  private readonly written = new Map<NodeIndex, Expr<T> | null>();
  private readonly ports: readonly Port[];
  private readonly ground: NodeIndex;

  constructor(acting: Acting<T>) {
    this.acting = acting;
    this.ground = acting.joined(acting.set.network.reference);
    const kept = new Set([this.ground]);
    for (const i of acting.live) {
      const law = acting.laws[i] as Law<T>;
      if (law.kind === "admittance") continue;
      const { plus: start, minus: end } = endsOf(acting, i);
      kept.add(start).add(end);
      if (law.kind === "opAmp") kept.add(acting.joined(law.inputs.plus)).add(acting.joined(law.inputs.minus));
    }
    const admittances = acting.live.filter((i) => acting.laws[i]?.kind === "admittance");
    this.ports = reduced(new PortMaker(acting), admittances, kept);
    this.known.set(this.ground, { needs: [], line: null, right: () => null, uses: [] });
    this.holdBySources();
    for (let grew = true; grew; ) grew = this.findStage();
  }

  isKnown(node: NodeIndex): boolean {
    return this.known.has(node);
  }

  hasLine(node: NodeIndex): boolean {
    return (this.known.get(node)?.line ?? null) !== null;
  }

  private holdBySources(): void {
    const { acting } = this;
    for (const i of acting.live) {
      if (acting.laws[i]?.kind !== "voltage") continue;
      const { plus: start, minus: end } = endsOf(acting, i);
      const value = sourceValueOf(acting, i);
      const [node, right] = end === this.ground ? [start, value] : [end, negative(value)];
      if (start === this.ground || end === this.ground) {
        this.known.set(node, { needs: [], line: null, right: () => right, uses: [] });
      }
    }
  }

  /** Adds one more node whose voltage follows; false where there is none. */
  private findStage(): boolean {
    const { acting } = this;
    for (const i of acting.live) {
      const law = acting.laws[i] as Law<T>;
      if (law.kind !== "opAmp") continue;
      const [input, feedback] = [acting.joined(law.inputs.plus), acting.joined(law.inputs.minus)];
      const { plus: out } = endsOf(acting, i);
      if (!this.known.has(input)) {
        const divided = this.divided(input);
        if (divided === null) continue;
        this.known.set(input, divided);
        return true;
      }
      if (this.known.has(out)) continue;
      const stage = this.stage(i, input, feedback, out);
      if (stage === null) continue;
      this.known.set(out, stage);
      if (!this.known.has(feedback)) {
        this.known.set(feedback, { needs: [input], line: null, right: (at) => at(input), uses: [] });
      }
      return true;
    }
    return false;
  }

  private at(node: NodeIndex): readonly { readonly port: Port; readonly far: NodeIndex }[] {
    return this.ports
      .filter(({ from, to }) => from === node || to === node)
      .map((port) => ({ port, far: port.from === node ? port.to : port.from }));
  }

  /** An input between a known node and the reference: no current goes in, so the voltage divides. */
  private divided(node: NodeIndex): Known<T> | null {
    const here = this.at(node);
    const upper = here.find(({ far }) => far !== this.ground && this.known.has(far));
    const lower = here.find(({ far }) => far === this.ground);
    if (upper === undefined || lower === undefined || here.length !== 2) return null;
    const [high, low] = [this.impedance(upper.port), this.impedance(lower.port)];
    if (high === null || low === null) return null;
    return {
      needs: [upper.far],
      line: {
        rule: { kind: "voltage-division" },
        sentence: `No current goes into the input at node ${joinedName(this.acting, node)}, so the voltage divides as the resistances.`,
        parts: this.partsOf([upper.port, lower.port]),
      },
      right: (at) => times(at(upper.far) as Expr<T>, over(low, plus(high, low))),
      uses: [...upper.port.parts, ...lower.port.parts],
    };
  }

  private stage(i: BranchIndex, input: NodeIndex, feedback: NodeIndex, out: NodeIndex): Known<T> | null {
    const { part } = branchOf(this.acting, i);
    const equal = `${part} holds its inputs equal and takes no current into them`;
    if (feedback === out) {
      const line = { rule: opAmpRule("follower"), sentence: `${equal}: it is a follower.`, parts: [part] };
      return { needs: [input], line, right: (at) => at(input), uses: [] };
    }
    const here = this.at(feedback);
    const back = here.find(({ far }) => far === out);
    const others = here.filter(({ far }) => far !== out);
    if (back === undefined || others.length === 0 || !others.every(({ far }) => this.known.has(far))) return null;
    const across = this.impedance(back.port);
    const each = others.map(({ port, far }) => ({ far, own: this.impedance(port) }));
    const driven = each.filter(({ far }) => far !== this.ground);
    // With no voltage across them, parts from the input to the reference have no say in an inverting stage.
    const counted = input === this.ground ? driven : each;
    if (across === null || counted.some(({ own }) => own === null)) return null;
    const parts = [part, ...this.partsOf([back.port, ...others.map(({ port }) => port)])];
    const uses = [...back.port.parts, ...others.flatMap(({ port }) => port.parts)];
    if (input === this.ground) return this.inverting(across, driven, { parts, uses, equal });
    const [only] = each;
    if (driven.length > 0 || only === undefined || each.length !== 1) return null;
    const right = (at: (node: NodeIndex) => Expr<T> | null): Expr<T> => {
      const one = known(null, this.acting.set.arithmetic.one, "1");
      return times(at(input) as Expr<T>, plus(one, over(across, only.own as Expr<T>)));
    };
    const line = { rule: opAmpRule("non-inverting"), sentence: `${equal}: a non-inverting amplifier.`, parts };
    return { needs: [input], line, right, uses };
  }

  private inverting(
    across: Expr<T>,
    driven: readonly { readonly far: NodeIndex; readonly own: Expr<T> | null }[],
    { parts, uses, equal }: { parts: string[]; uses: number[]; equal: string },
  ): Known<T> | null {
    const [first, ...more] = driven;
    if (first === undefined) return null;
    const isOne = more.length === 0;
    const right = (at: (node: NodeIndex) => Expr<T> | null): Expr<T> => {
      if (isOne) return opposite(at(first.far) as Expr<T>, over(across, first.own as Expr<T>));
      const sum = plus(...driven.map(({ far, own }) => over(at(far) as Expr<T>, own as Expr<T>)));
      return negative(times(across, sum));
    };
    const sentence = isOne ? `${equal}: an inverting amplifier.` : `${equal}: an inverting summing amplifier.`;
    const needs = driven.map(({ far }) => far);
    return { needs, line: { rule: opAmpRule("inverting"), sentence, parts }, right, uses };
  }

  /** One branch, or a row of them. */
  private impedance(port: Port): Expr<T> | null {
    if (port.make.kind === "branch") return impedanceOf(this.acting, port.make.branch);
    if (port.make.kind === "parallel") return null;
    const each = port.make.of.map((inner) => this.impedance(inner));
    return each.some((expr) => expr === null) ? null : plus(...(each as Expr<T>[]));
  }

  private partsOf(ports: readonly Port[]): string[] {
    return ports.flatMap(({ parts }) => parts.map((i) => branchOf(this.acting, i).part));
  }

  used(nodes: readonly NodeIndex[]): BranchIndex[] {
    const seen = new Set<NodeIndex>();
    const visit = (node: NodeIndex): BranchIndex[] => {
      if (seen.has(node)) return [];
      seen.add(node);
      const how = this.known.get(node);
      return how === undefined ? [] : [...how.uses, ...how.needs.flatMap(visit)];
    };
    return [...new Set(nodes.flatMap(visit))].sort((a, b) => a - b);
  }

  /** Writes what leads to these nodes, each line once; the wanted one last and under its own name. */
  write(nodes: readonly NodeIndex[], notebook: Notebook<T>, wanted: { node: NodeIndex; name: Name } | null): void {
    const { acting } = this;
    const visit = (node: NodeIndex): Expr<T> | null => {
      if (this.written.has(node)) return this.written.get(node) ?? null;
      const how = this.known.get(node) as Known<T>;
      how.needs.forEach(visit);
      const right = how.right((at) => this.written.get(at) ?? null);
      if (how.line === null || right === null) {
        this.written.set(node, right);
        return right;
      }
      const name = wanted?.node === node ? wanted.name : pairName(acting, node, this.ground);
      const expected = voltageBetween(acting, node, this.ground);
      notebook.state({ ...how.line, nodes: [joinedName(acting, node)] }, [{ left: name, right, unit: "V", expected }]);
      const found = known(name, evaluate(right, acting.set.arithmetic), "V");
      this.written.set(node, found);
      return found;
    };
    nodes.forEach(visit);
  }

  found(): Found<T> {
    const { acting } = this;
    const voltage = (node: NodeIndex): Expr<T> | null => this.written.get(acting.joined(node)) ?? null;
    return {
      isWanted: false,
      nodeVoltage: voltage,
      branchCurrent: (i) => {
        if (acting.laws[i]?.kind !== "admittance") return null;
        const { plus: start, minus: end } = endsOf(acting, i);
        const [a, b] = [voltage(start), voltage(end)];
        const across = a === null ? (b === null ? null : negative(b)) : b === null ? a : plus(a, negative(b));
        const isOut = !acting.live.includes(i) || across === null;
        return isOut ? known(null, acting.set.arithmetic.zero, "A") : over(across, impedanceOf(acting, i));
      },
    };
  }
}

/** −a·b, with the sign of an a that is itself negative taken off. */
function opposite<T>(a: Expr<T>, b: Expr<T>): Expr<T> {
  const [only, ...others] = a.kind === "sum" ? a.terms : [];
  if (only?.sign === -1 && others.length === 0) return times(only.of, b);
  return negative(times(a, b));
}

function opAmpRule(form: "inverting" | "non-inverting" | "follower"): Rule {
  return { kind: "op-amp", form };
}
