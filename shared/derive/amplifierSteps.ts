import { listed } from "../circuit/problemText";
import type { BranchIndex, Law, NodeIndex } from "../solve/network";
import { branchIndex, nodeIndex } from "../solve/superposition";
import { type Acting, branchOf, endsOf, joinedName } from "./acting";
import { type Expr, evaluate, known, minus, negative, over, plus, sumOf, times } from "./expression";
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
  /** Two impedances that divide another node's voltage. */
  readonly division?: {
    readonly far: NodeIndex;
    readonly high: Expr<T>;
    readonly low: Expr<T>;
    readonly ports: readonly Port[];
  };
};

/**
 * Op amp circuits driven by voltage sources, stage by stage from the input: inverting, summing, non-inverting, difference
 * and follower stages by their closed forms. Null where a stage has another shape, or what is wanted lies elsewhere.
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

/** What leads to the inverting input, besides the feedback. */
type Branches<T> = readonly { readonly far: NodeIndex; readonly own: Expr<T> }[];

type StageParts<T> = {
  readonly parts: string[];
  readonly uses: number[];
  readonly equal: string;
  readonly across: Expr<T>;
};

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

  /** An input that known nodes reach by impedances: no current goes in, so the voltage divides, or is a weighted mean. */
  private divided(node: NodeIndex): Known<T> | null {
    if (this.isDriven(node)) return null;
    const here = this.at(node);
    const each = here.map(({ port, far }) => ({ port, far, own: this.impedance(port) }));
    const driven = each.filter(({ far }) => far !== this.ground);
    if (driven.length === 0 || !each.every(({ far, own }) => this.known.has(far) && own !== null)) return null;
    const ports = here.map(({ port }) => port);
    const [upper] = driven;
    const lower = each.find(({ far }) => far === this.ground);
    const needs = driven.map(({ far }) => far);
    const where = `No current goes into the input at node ${joinedName(this.acting, node)}`;
    const uses = ports.flatMap(({ parts }) => parts);
    const parts = this.partsOf(ports);
    if (upper !== undefined && each.length === 1) {
      const line = {
        rule: { kind: "nothing-flows" } as const,
        sentence: `${where}, so none flows in ${listed(parts)} either.`,
        parts,
      };
      return { needs, line, right: (at) => at(upper.far), uses };
    }
    if (upper !== undefined && lower !== undefined && each.length === 2) {
      const [high, low] = [upper.own as Expr<T>, lower.own as Expr<T>];
      return {
        needs,
        line: {
          rule: { kind: "voltage-division" },
          sentence: `${where}, so the voltage divides as the ${this.word}.`,
          parts,
        },
        right: (at) => times(at(upper.far) as Expr<T>, over(low, plus(high, low))),
        uses,
        division: { far: upper.far, high, low, ports },
      };
    }
    const one = known(null, this.acting.set.arithmetic.one, "1");
    return {
      needs,
      line: { rule: { kind: "current-law" }, sentence: `${where}: Kirchhoff's current law there.`, parts },
      right: (at) =>
        over(
          plus(...driven.map(({ far, own }) => over(at(far) as Expr<T>, own as Expr<T>))),
          plus(...each.map(({ own }) => over(one, own as Expr<T>))),
        ),
      uses,
    };
  }

  /** Whether a source or an op amp's output ends at a node. */
  private isDriven(node: NodeIndex): boolean {
    const { acting } = this;
    return acting.live.some(
      (i) => acting.laws[i]?.kind !== "admittance" && Object.values(endsOf(acting, i)).includes(node),
    );
  }

  private get word(): string {
    return this.acting.set.stimulus.frequency === null ? "resistances" : "impedances";
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
    const stage = { parts, uses, equal, across };
    if (driven.length > 0) return this.difference(input, each as Branches<T>, stage);
    const right = (at: (node: NodeIndex) => Expr<T> | null): Expr<T> =>
      times(at(input) as Expr<T>, this.nonInvertingGain(across, each as Branches<T>));
    const line = { rule: opAmpRule("non-inverting"), sentence: `${equal}: a non-inverting amplifier.`, parts };
    return { needs: [input], line, right, uses };
  }

  /** 1 + Rf/R, or with several resistances to the inverting input 1 + Rf/R1 + Rf/R2. */
  private nonInvertingGain(across: Expr<T>, each: Branches<T>): Expr<T> {
    const one = known(null, this.acting.set.arithmetic.one, "1");
    return plus(one, ...each.map(({ own }) => over(across, own)));
  }

  /** What the non-inverting input gives less what the inverting one does; (Rf/R)(V2 − V1) where both divide alike. */
  private difference(input: NodeIndex, each: Branches<T>, { parts, uses, equal, across }: StageParts<T>): Known<T> {
    const driven = each.filter(({ far }) => far !== this.ground);
    const [only, ...more] = each;
    const division = this.known.get(input)?.division;
    if (
      only !== undefined &&
      more.length === 0 &&
      division !== undefined &&
      this.dividesAlike(across, only.own, division)
    ) {
      return {
        needs: [division.far, only.far],
        line: {
          rule: opAmpRule("difference"),
          sentence: `${equal}: a difference amplifier with the same ratio at both inputs.`,
          parts: [...parts, ...this.partsOf(division.ports)],
        },
        right: (at) => times(over(across, only.own), minus(at(division.far) as Expr<T>, at(only.far) as Expr<T>)),
        uses: [...uses, ...division.ports.flatMap(({ parts: own }) => own)],
      };
    }
    return {
      needs: [input, ...driven.map(({ far }) => far)],
      line: { rule: opAmpRule("difference"), sentence: `${equal}: a difference amplifier.`, parts },
      right: (at) =>
        sumOf([
          { sign: 1, of: times(at(input) as Expr<T>, this.nonInvertingGain(across, each)) },
          ...driven.map(({ far, own }) => ({ sign: -1 as const, of: times(at(far) as Expr<T>, over(across, own)) })),
        ]),
      uses,
    };
  }

  private dividesAlike(across: Expr<T>, own: Expr<T>, { high, low }: NonNullable<Known<T>["division"]>): boolean {
    const { arithmetic } = this.acting.set;
    const ratio = (a: Expr<T>, b: Expr<T>): T => evaluate(over(a, b), arithmetic);
    return this.acting.numerals.agree(ratio(across, own), ratio(low, high), "1");
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
    return { needs, line: { rule: opAmpRule(isOne ? "inverting" : "summing"), sentence, parts }, right, uses };
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

function opAmpRule(form: Extract<Rule, { kind: "op-amp" }>["form"]): Rule {
  return { kind: "op-amp", form };
}
