import { type Complex, complex, type Fraction } from "mathjs";
import { exact, exactValue, isSource, omegaOf, phasorOf, type RawCircuit, type RawElement } from "./elements";
import { type Field, phasorField, rationalField } from "./field";
import { type Branch, type Equation, type Layout, relationsOf } from "./relations";

/**
 * Linear circuits by the sparse tableau, as a second opinion on the solver. Nothing is eliminated beforehand: with n
 * nodes besides the reference nodes and b branches the unknowns are e (n node voltages), v and i (b branch voltages
 * and currents), and the n + 2b equations are
 *
 *     A·i = 0          Kirchhoff's current law, A the reduced incidence matrix (+1 where a branch leaves a node)
 *     v − Aᵀ·e = 0     Kirchhoff's voltage law
 *     one relation a branch (an op amp gives its two to the input branch and none to the output branch)
 *
 * Source: Hachtel, Brayton, Gustavson, "The sparse tableau approach to network analysis and design",
 * IEEE Trans. Circuit Theory 18(1), 1971.
 */
export type Network<S> = {
  /** Branch names: a part's id; `"T1 primary"` and `"T1 secondary"`; `"U1 in"` and `"U1"` (its output, out to reference). */
  readonly branches: readonly string[];
  readonly nodes: readonly string[];
  /** Nodes whose voltage is set to 0: the reference node, and one in each section that nothing ties to it. */
  readonly grounded: ReadonlySet<string>;
  /** Branch voltages, currents and node voltages with these sources on and all other independent ones zeroed. */
  readonly answer: (acting: readonly string[]) => Answer<S>;
};

export type Answer<S> = {
  readonly node: (name: string) => S;
  /** v(from) − v(to). */
  readonly between: (from: string, to: string) => S;
  readonly voltage: (branch: string) => S;
  readonly current: (branch: string) => S;
};

/** The DC network in exact rationals: capacitors open, inductors short; sinusoids count as zeroed. Null where singular. */
export function dcNetwork(circuit: RawCircuit): Network<Fraction> | null {
  return network(circuit, rationalField, (source) =>
    source.amplitude === undefined ? exactValue(source.value ?? 0) : exact.fraction(0),
  );
}

/** The network for phasors of angular frequency omega (rad/s); sources of other frequencies count as zeroed. Null where singular. */
export function phasorNetwork(circuit: RawCircuit, omega: number): Network<Complex> | null {
  return network(circuit, phasorField(omega), (source) =>
    source.amplitude !== undefined && omegaOf(source) === omega ? phasorOf(source) : complex(0, 0),
  );
}

/** The angular frequencies at which something acts, ascending; 0 stands for constant sources. */
export function omegasOf(circuit: RawCircuit): readonly number[] {
  return [...new Set(circuit.elements.filter(isSource).map(omegaOf))].sort((a, b) => a - b);
}

export function sourcesOf(circuit: RawCircuit): readonly string[] {
  return circuit.elements.filter(isSource).map((element) => element.id);
}

function network<S>(circuit: RawCircuit, field: Field<S>, sourceValue: (source: RawElement) => S): Network<S> | null {
  const layout = layoutOf(circuit);
  if (layout.isOpenEnded) return null;
  const unknowns = unknownsOf(layout);
  const equations = equationsOf(layout, field);
  const zero = field.number(exact.fraction(0));
  const matrix = equations.map(({ terms }) => {
    const row = new Array<S>(unknowns.size).fill(zero);
    // A part may join a node to itself or follow its own current, so terms of one unknown are collected.
    for (const [unknown, coefficient] of terms) {
      const column = unknowns.get(unknown);
      if (column === undefined) throw new Error(`no unknown ${unknown}`);
      row[column] = field.subtract(row[column] as S, field.subtract(zero, coefficient));
    }
    return row;
  });
  const solve = field.factor(matrix);
  if (solve === null) return null;
  const answer = (acting: readonly string[]): Answer<S> => {
    const x = solve(equations.map(({ source }) => (source && acting.includes(source.id) ? sourceValue(source) : zero)));
    return answerOf(layout, field, (unknown) => x[unknowns.get(unknown) ?? -1]);
  };
  return {
    branches: layout.branches.map((branch) => branch.name),
    nodes: layout.nodes,
    grounded: layout.grounded,
    answer,
  };
}

/**
 * What is left of each of the circuit's DC equations when somebody's voltages and currents are put into them: all 0
 * where Kirchhoff's laws and every branch relation hold exactly.
 */
export function dcResiduals(circuit: RawCircuit, acting: readonly string[], answer: Answer<Fraction>): Fraction[] {
  const read = (unknown: string): Fraction => {
    const [kind, name] = [unknown.slice(0, 1), unknown.slice(2)];
    return kind === "e" ? answer.node(name) : kind === "v" ? answer.voltage(name) : answer.current(name);
  };
  // No node is left out here, so that it does not matter which one of a section somebody counts voltages from.
  const layout = { ...layoutOf(circuit), grounded: new Set<string>() };
  return equationsOf(layout, rationalField).map(({ terms, source }) => {
    const known = source && acting.includes(source.id) ? exactValue(source.value ?? 0) : exact.fraction(0);
    const left = terms.map(([unknown, coefficient]) => exact.multiply(coefficient, read(unknown)) as Fraction);
    return left.reduce((rest, term) => exact.subtract(rest, term) as Fraction, known);
  });
}

function answerOf<S>(layout: Layout, field: Field<S>, lookUp: (unknown: string) => S | undefined): Answer<S> {
  const read = (unknown: string): S => {
    const value = lookUp(unknown);
    if (value === undefined) throw new Error(`no unknown ${unknown}`);
    return value;
  };
  const node = (name: string) => (layout.grounded.has(name) ? field.number(exact.fraction(0)) : read(`e ${name}`));
  return {
    node,
    between: (from, to) => field.subtract(node(from), node(to)),
    voltage: (branch) => read(`v ${branch}`),
    current: (branch) => read(`i ${branch}`),
  };
}

function layoutOf(circuit: RawCircuit): Layout {
  const reference = circuit.reference ?? circuit.elements[0]?.nodes[0] ?? "0";
  const branches = circuit.elements.flatMap((element) => branchesOf(element, reference));
  const nodes = [...new Set(circuit.elements.flatMap((element) => element.nodes))];
  const grounds = groundsOf(nodes, branches, reference);
  return { branches, nodes, grounded: new Set(grounds.values()), isOpenEnded: followsNothing(circuit, grounds) };
}

function branchesOf(element: RawElement, reference: string): Branch[] {
  const { id: name, nodes } = element;
  const branch = (label: string, from: string | undefined, to: string | undefined): Branch => {
    if (from === undefined || to === undefined) throw new Error(`${name}: too few nodes`);
    return { name: label, element, from, to };
  };
  switch (element.kind) {
    case "ideal-opamp":
      return [branch(`${name} in`, nodes[0], nodes[1]), branch(name, nodes[2], reference)];
    case "ideal-transformer":
      return [branch(`${name} primary`, nodes[0], nodes[1]), branch(`${name} secondary`, nodes[2], nodes[3])];
    default:
      return [branch(name, nodes[0], nodes[1])];
  }
}

/** The ground of each node's section: the reference node, or the first node of a section that no branch ties to it. */
function groundsOf(nodes: readonly string[], branches: readonly Branch[], reference: string): Map<string, string> {
  const grounds = new Map<string, string>();
  for (const start of [reference, ...nodes]) {
    const waiting = [start];
    for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
      if (grounds.has(node)) continue;
      grounds.set(node, start);
      for (const { from, to } of branches) if (from === node || to === node) waiting.push(from === node ? to : from);
    }
  }
  return grounds;
}

/** Whether a source follows the voltage between two sections, which nothing fixes. */
function followsNothing({ elements }: RawCircuit, grounds: ReadonlyMap<string, string>): boolean {
  return elements.some(({ control }) => {
    const [plus = "", minus = ""] = control?.voltage ?? [];
    return grounds.get(plus) !== grounds.get(minus);
  });
}

function unknownsOf({ nodes, branches, grounded }: Layout): ReadonlyMap<string, number> {
  const names = [
    ...nodes.filter((node) => !grounded.has(node)).map((node) => `e ${node}`),
    ...branches.map((branch) => `v ${branch.name}`),
    ...branches.map((branch) => `i ${branch.name}`),
  ];
  return new Map(names.map((name, index) => [name, index]));
}

function equationsOf<S>(layout: Layout, field: Field<S>): Equation<S>[] {
  const one = field.number(exact.fraction(1));
  const minusOne = field.number(exact.fraction(-1));
  const isFree = (node: string) => !layout.grounded.has(node);
  const currentLaw = layout.nodes.filter(isFree).map((node) => ({
    terms: layout.branches.flatMap(({ name, from, to }): [string, S][] => [
      ...(from === node ? [[`i ${name}`, one] as [string, S]] : []),
      ...(to === node ? [[`i ${name}`, minusOne] as [string, S]] : []),
    ]),
  }));
  const voltageLaw = layout.branches.map(({ name, from, to }) => ({
    terms: [
      [`v ${name}`, one] as const,
      ...(isFree(from) ? [[`e ${from}`, minusOne] as const] : []),
      ...(isFree(to) ? [[`e ${to}`, one] as const] : []),
    ],
  }));
  const relations = layout.branches.flatMap((branch) => relationsOf(branch, layout, field));
  return [...currentLaw, ...voltageLaw, ...relations];
}
