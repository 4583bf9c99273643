import { listed } from "../circuit/problemText";
import type { BranchIndex, NodeIndex } from "../solve/network";
import { branchIndex, nodeIndex } from "../solve/superposition";
import { type Acting, branchOf, endsOf, joinedName } from "./acting";
import { gainOf } from "./controls";
import {
  type Expr,
  evaluate,
  known,
  over,
  plus,
  type QuantityExpr,
  type SignedTerm,
  sumOf,
  times,
  unknown,
} from "./expression";
import { expectedOf } from "./lastHop";
import { type Link, linksOf } from "./loopLinks";
import { currentName, type Name } from "./names";
import { substituted } from "./nodeEquations";
import type { Notebook } from "./notebook";
import { writeImpedance } from "./planWriter";
import { pieceImpedance } from "./portImpedance";
import { combinedIn } from "./ports";
import { branchCurrentName, branchLabel, impedanceOf, pairName, sourceValueOf, voltageBetween } from "./quantities";
import type { Task } from "./route";
import type { Shortcut } from "./shortcut";
import { solveFor } from "./solveFor";

/**
 * A circuit that is one loop, or is once current sources beside resistances are voltages in series with them: one current
 * by Kirchhoff's voltage law, then what is wanted from it. Dependent voltages may follow it.
 */
export function loopShortcut<T>(acting: Acting<T>, task: Task<T>): Shortcut<T> | null {
  const links = linksOf(acting);
  if (links === null) return null;
  const loop = new Loop(acting, task, links);
  return loop.isWorkable ? { cost: loop.cost, used: loop.used, write: (notebook) => loop.write(notebook) } : null;
}

class Loop<T> {
  private readonly acting: Acting<T>;
  private readonly task: Task<T>;
  private readonly links: readonly Link<T>[];
  private readonly wanted: { readonly link: Link<T>; readonly branch: BranchIndex } | null;
  /** The current is counted along the walk times this. */
  private readonly direction: 1 | -1;
  private readonly name: Name;
  private readonly isDirect: boolean;
  private readonly drives = new Map<Link<T>, Expr<T>>();
  private readonly resistances = new Map<Link<T>, Expr<T>>();

  constructor(acting: Acting<T>, task: Task<T>, links: readonly Link<T>[]) {
    this.acting = acting;
    this.task = task;
    this.links = links;
    const { linear } = task;
    const branch = linear.kind === "current" ? branchIndex(acting.set.network, linear.through, linear.winding) : -1;
    const link = links.find(({ branches }) => branches.includes(branch));
    this.wanted = link === undefined ? null : { link, branch };
    const isOwn = this.wanted !== null && link?.branches.length === 1;
    this.isDirect = isOwn;
    const shown = isOwn ? branch : this.singleBranch();
    const place = links.find(({ branches }) => branches.includes(shown)) as Link<T>;
    const isAlong = endsOf(acting, shown).plus === place.from ? 1 : -1;
    const isForward = linear.kind === "voltage" || linear.direction === "forward" || !isOwn ? 1 : -1;
    this.direction = (isAlong * isForward) as 1 | -1;
    this.name = isOwn ? task.name : branchCurrentName(acting, shown);
  }

  /** The links as their parts are listed. */
  private inOrder(): readonly Link<T>[] {
    return [...this.links].sort((a, b) => (a.branches[0] as number) - (b.branches[0] as number));
  }

  /** A part that carries the loop's current by itself, a resistance if there is one. */
  private singleBranch(): BranchIndex {
    const single = this.inOrder().filter(({ branches }) => branches.length === 1);
    const chosen = single.find(({ resistance }) => resistance !== null) ?? single[0];
    return chosen?.branches[0] ?? (this.links[0]?.branches[0] as BranchIndex);
  }

  get isWorkable(): boolean {
    const { acting, task } = this;
    const nodes = new Set(this.links.map(({ from }) => from));
    const isSingle = this.links.some(({ branches }) => branches.length === 1);
    const isThere =
      task.linear.kind === "voltage"
        ? [task.linear.from, task.linear.to].every((node) =>
            nodes.has(acting.joined(nodeIndex(acting.set.network, node))),
          )
        : this.wanted !== null && acting.laws[this.wanted.branch]?.kind !== "current";
    return isSingle && isThere && this.dependents().every((link) => this.controlOf(link) !== null) && this.isDriven();
  }

  /** Whether the resistances do not add up to 0 without dependent sources. */
  private isDriven(): boolean {
    const { add, isZero, zero } = this.acting.set.arithmetic;
    const sum = this.links.reduce(
      (total, { resistance }) => (resistance === null ? total : add(total, pieceImpedance(this.acting, resistance))),
      zero,
    );
    return !isZero(sum) || this.dependents().length > 0;
  }

  get used(): readonly BranchIndex[] {
    return this.links.flatMap(({ resistance }) => resistance?.parts ?? []);
  }

  get cost(): number {
    const combined = this.links.reduce(
      (sum, { resistance }) => sum + (resistance === null ? 0 : combinedIn(resistance)),
      0,
    );
    const transformed = this.links.filter(({ pushing }) => pushing.length > 0).length;
    const following = this.dependents().length;
    const hop = this.isDirect ? 0 : this.task.linear.kind === "voltage" ? 1 : 2;
    return combined + 1.1 * transformed + following + 1 + (following > 0 ? 1 : 0) + hop;
  }

  private dependents(): readonly Link<T>[] {
    return this.links.filter(({ source }) => source !== null && source.law.kind !== "voltage");
  }

  write(notebook: Notebook<T>): void {
    for (const link of this.links) this.writeLink(link, notebook);
    const current = this.writeCurrent(notebook);
    if (current !== null) this.writeWanted(current, notebook);
  }

  private writeLink(link: Link<T>, notebook: Notebook<T>): void {
    const { acting } = this;
    const { resistance, pushing } = link;
    if (resistance === null) return;
    const own =
      resistance.make.kind === "branch"
        ? impedanceOf(acting, resistance.make.branch)
        : writeImpedance(acting, resistance, resistance.name, notebook);
    this.resistances.set(link, own);
    if (pushing.length === 0) return;
    const { arithmetic } = acting.set;
    const name = this.nameOfTransformed(link);
    const sum = sumOf(pushing.map(({ branch, sign }): SignedTerm<T> => ({ sign, of: sourceValueOf(acting, branch) })));
    const right = times(sum, own);
    const parts = pushing.map(({ branch }) => branchOf(acting, branch).part);
    // What the voltage would be with nothing joined: the solver's, and the drop of the loop's current taken back.
    const through = this.solvedCurrent();
    const drop = arithmetic.multiply(pieceImpedance(acting, resistance), through);
    const expected = arithmetic.add(drop, arithmetic.negate(voltageBetween(acting, link.from, link.to)));
    notebook.state(
      {
        rule: { kind: "source-transformation", to: "voltage" },
        sentence: `Source transformation: ${listed(parts)} beside ${resistance.name.text} ${parts.length === 1 ? "becomes" : "become"} a voltage in series with it.`,
        parts: [...parts, ...resistance.parts.map((i) => branchOf(acting, i).part)],
        nodes: [joinedName(acting, link.from), joinedName(acting, link.to)],
      },
      [{ left: name, right, unit: "V", expected }],
    );
    this.drives.set(link, known(name, evaluate(right, arithmetic), "V"));
  }

  /** Vt; Vt1, Vt2 and so on where there are several. */
  private nameOfTransformed(link: Link<T>): Name {
    const transformed = this.links.filter(({ pushing }) => pushing.length > 0);
    const mark = transformed.length === 1 ? "t" : `t${transformed.indexOf(link) + 1}`;
    return { text: `V${mark}`, latex: `V_{\\mathrm{${mark}}}` };
  }

  /** The loop's current along the walk, by the solver. */
  private solvedCurrent(): T {
    const { acting } = this;
    const i = this.singleBranch();
    const link = this.links.find(({ branches }) => branches.includes(i)) as Link<T>;
    const current = acting.response.branchCurrent(i);
    return endsOf(acting, i).plus === link.from ? current : acting.set.arithmetic.negate(current);
  }

  /** Voltages along the walk that do not depend on the current, as they drive it: positive pushes along. */
  private drive(link: Link<T>): SignedTerm<T>[] {
    const push = this.drives.get(link);
    if (push !== undefined) return [{ sign: 1, of: push }];
    const { source } = link;
    if (source?.law.kind !== "voltage") return [];
    return [{ sign: -source.sign as 1 | -1, of: sourceValueOf(this.acting, source.branch) }];
  }

  private writeCurrent(notebook: Notebook<T>): Expr<T> | null {
    const { acting, links, direction } = this;
    const { arithmetic } = acting.set;
    const solved = this.solvedCurrent();
    const value = direction === 1 ? solved : arithmetic.negate(solved);
    const driving = sumOf(
      links
        .flatMap((link) => this.drive(link))
        .map(({ sign, of }): SignedTerm<T> => ({ sign: (sign * direction) as 1 | -1, of }))
        .sort((a, b) => b.sign - a.sign),
    );
    const resistances = this.inOrder().flatMap((link) => this.resistances.get(link) ?? []);
    const parts = links.flatMap(({ branches }) => branches.map((i) => branchOf(acting, i).part));
    const nodes = links.map(({ from }) => joinedName(acting, from));
    if (this.dependents().length > 0) return this.solveWithControls(value, driving, { parts, nodes }, notebook);
    const right = over(driving, plus(...resistances));
    notebook.state(
      {
        rule: { kind: "voltage-law" },
        sentence: `One loop, so one current: the voltages that drive it over the sum of the ${acting.set.stimulus.frequency === null ? "resistances" : "impedances"}.`,
        parts,
        nodes,
      },
      [{ left: this.name, right, unit: "A", expected: value }],
    );
    return known(this.name, evaluate(right, arithmetic), "A");
  }

  private solveWithControls(
    value: T,
    driving: Expr<T>,
    where: { readonly parts: readonly string[]; readonly nodes: readonly string[] },
    notebook: Notebook<T>,
  ): Expr<T> | null {
    const { acting, direction } = this;
    const current: QuantityExpr<T> = unknown("I", this.name, value, "A");
    const terms: SignedTerm<T>[] = this.inOrder().flatMap((link): SignedTerm<T>[] => {
      const own = this.resistances.get(link);
      return own === undefined ? [] : [{ sign: 1, of: times(own, current) }];
    });
    for (const link of this.dependents()) {
      const { branch, law, sign } = link.source as NonNullable<Link<T>["source"]>;
      const control = this.controlOf(link);
      if (control === null || (law.kind !== "vcvs" && law.kind !== "ccvs")) return null;
      const meaning = control.meaning(current);
      const part = branchLabel(acting, branch);
      const isItself = meaning.kind === "quantity";
      if (!isItself) {
        notebook.balance(
          {
            rule: { kind: "control" },
            sentence: `${part} stays on and follows ${control.name.text}, which ${this.name.text} makes.`,
            parts: [part],
          },
          [{ left: unknown("control", control.name, control.value, control.unit), right: meaning, unit: control.unit }],
        );
      }
      const factor = times(gainOf(acting, branch, law), ...(meaning.kind === "product" ? meaning.factors : [meaning]));
      terms.push({ sign: (sign * direction) as 1 | -1, of: factor });
    }
    const balance = { left: sumOf(terms), right: driving, unit: "V" } as const;
    notebook.balance(
      {
        rule: { kind: "voltage-law" },
        sentence: `Kirchhoff's voltage law around the one loop, along ${this.name.text}.`,
        ...where,
      },
      [balance],
    );
    const found = solveFor(new Map([["I", current]]), [balance], notebook);
    return found === null ? null : substituted(current, found);
  }

  /** What a dependent source follows, in terms of the loop's current; null where it is not so simple. */
  private controlOf(link: Link<T>): {
    readonly name: Name;
    readonly value: T;
    readonly unit: "V" | "A";
    meaning(current: Expr<T>): Expr<T>;
  } | null {
    const { acting } = this;
    const law = link.source?.law;
    if (law?.kind === "vcvs" && typeof law.control === "object") {
      const [from, to] = [acting.joined(law.control.plus), acting.joined(law.control.minus)];
      const across = this.links.find(
        (each) => (each.from === from && each.to === to) || (each.from === to && each.to === from),
      );
      if (across?.resistance?.make.kind !== "branch" || across.pushing.length > 0) return null;
      const { branch } = across.resistance.make;
      const isAlong = (across.from === from ? 1 : -1) * this.direction === 1;
      const own = impedanceOf(acting, branch);
      return {
        name: pairName(acting, from, to),
        value: voltageBetween(acting, from, to),
        unit: "V",
        meaning: (current) => (isAlong ? times(own, current) : sumOf([{ sign: -1, of: times(own, current) }])),
      };
    }
    if (law?.kind !== "ccvs" || typeof law.control !== "number") return null;
    const { control } = law;
    const through = this.links.find(({ branches }) => branches.length === 1 && branches[0] === control);
    if (through === undefined) return null;
    const isAlong = (endsOf(acting, control).plus === through.from ? 1 : -1) * this.direction === 1;
    return {
      name: currentName(branchLabel(acting, control)),
      value: acting.response.branchCurrent(control),
      unit: "A",
      meaning: (current) => (isAlong ? current : sumOf([{ sign: -1, of: current }])),
    };
  }

  private writeWanted(current: Expr<T>, notebook: Notebook<T>): void {
    const { acting, task, wanted } = this;
    const { linear, name } = task;
    if (this.isDirect) return;
    if (linear.kind === "voltage") {
      const [from, to] = [linear.from, linear.to].map((node) => acting.joined(nodeIndex(acting.set.network, node)));
      const terms = this.between(from as NodeIndex, to as NodeIndex, current);
      this.stateVoltage(name, terms, expectedOf(acting, linear), [linear.from, linear.to], notebook);
      return;
    }
    if (wanted === null) return;
    const { from, to } = wanted.link;
    const { plus: start } = endsOf(acting, wanted.branch);
    const isForward = (start === from) === (linear.direction === "forward");
    const [a, b] = isForward ? [from, to] : [to, from];
    const voltage = pairName(acting, a, b);
    const value = voltageBetween(acting, a, b);
    this.stateVoltage(
      voltage,
      this.between(a, b, current),
      value,
      [a, b].map((node) => joinedName(acting, node)),
      notebook,
    );
    notebook.state({ rule: { kind: "ohm" }, sentence: `Ohm's law for ${linear.through}.`, parts: [linear.through] }, [
      {
        left: name,
        right: over(known(voltage, value, "V"), impedanceOf(acting, wanted.branch)),
        unit: "A",
        expected: expectedOf(acting, linear),
      },
    ]);
  }

  private stateVoltage(
    left: Name,
    terms: readonly SignedTerm<T>[],
    expected: T,
    nodes: readonly string[],
    notebook: Notebook<T>,
  ): void {
    const [only, ...more] = terms;
    const isOhm = only?.of.kind === "product" && more.length === 0;
    const right = sumOf([...terms].sort((a, b) => b.sign - a.sign));
    const sentence = isOhm
      ? `Ohm's law for the voltage from ${nodes[0]} to ${nodes[1]}.`
      : `Kirchhoff's voltage law on the way from ${nodes[0]} to ${nodes[1]}.`;
    notebook.state({ rule: { kind: isOhm ? "ohm" : "voltage-law" }, sentence, nodes }, [
      { left, right, unit: "V", expected },
    ]);
  }

  /** The voltage between two nodes of the loop, by the way with fewer terms that passes no dependent source. */
  private between(from: NodeIndex, to: NodeIndex, current: Expr<T>): readonly SignedTerm<T>[] {
    const { links } = this;
    const start = links.findIndex((link) => link.from === from);
    const turned = [...links.slice(start), ...links.slice(0, start)];
    const end = turned.findIndex((link) => link.to === to) + 1;
    const ways = [
      turned.slice(0, end).flatMap((link) => this.dropAlong(link, 1, current)),
      turned.slice(end).flatMap((link) => this.dropAlong(link, -1, current)),
    ] as const;
    const weight = (way: readonly SignedTerm<T>[]): number => way.length;
    return weight(ways[1]) < weight(ways[0]) ? ways[1] : ways[0];
  }

  /** Voltage along a link, in the direction of the walk or against it. */
  private dropAlong(link: Link<T>, walk: 1 | -1, current: Expr<T>): SignedTerm<T>[] {
    const own = this.resistances.get(link);
    const ohmic: SignedTerm<T>[] =
      own === undefined ? [] : [{ sign: (walk * this.direction) as 1 | -1, of: times(current, own) }];
    const driving = this.drive(link).map(({ sign, of }): SignedTerm<T> => ({ sign: (-sign * walk) as 1 | -1, of }));
    const { source } = link;
    if (source === null || source.law.kind === "voltage") return [...ohmic, ...driving];
    const { acting } = this;
    const control = this.controlOf(link);
    if (control === null || (source.law.kind !== "vcvs" && source.law.kind !== "ccvs")) return ohmic;
    const gain = gainOf(acting, source.branch, source.law);
    const followed = control.meaning(current);
    return [...ohmic, { sign: (source.sign * walk) as 1 | -1, of: times(gain, followed) }];
  }
}
