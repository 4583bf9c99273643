import type { Problem } from "../circuit";
import { unreachable } from "../circuit";
import type { Arithmetic, LinearSystem, Term } from "./arithmetic";
import type { Branch, BranchIndex, Network, NodeIndex } from "./network";
import { type NodeSets, nodeSets } from "./nodeSets";
import { remembered } from "./remembered";
import { mergedShorts, type Shorts, shortCurrents, type TestCurrent } from "./shorts";
import type { Structure } from "./structure";

/**
 * What one right-hand side gives: voltages of nodes, voltages and currents (plus to minus) of branches. Each is worked
 * out when it is first asked for, since most questions are about few of them.
 */
export type Response<T> = {
  nodeVoltage(node: NodeIndex): T;
  branchVoltage(branch: BranchIndex): T;
  branchCurrent(branch: BranchIndex): T;
};

/**
 * What drives the circuit in one right-hand side: a value for each independent source acting at this frequency (V or
 * A, in the order of `network.sources`), and a test current.
 */
export type Excitation<T> = { readonly values: readonly T[]; readonly test: TestCurrent | null };

export type Responses<T> =
  | {
      readonly ok: true;
      /** One for each excitation. */
      readonly responses: readonly Response<T>[];
      readonly residual: number;
      readonly unknowns: number;
      /** Shorts bypassed by other shorts: the laws do not say how the current divides among them. */
      readonly undetermined: readonly BranchIndex[];
    }
  | { readonly ok: false; readonly problem: Problem };

/**
 * Modified nodal analysis, A·x = z: x holds the voltages of nodes (V, to the reference of their section) after wires
 * are merged, then the currents (A, plus to minus) of branches whose law does not give them from voltages. Rows are
 * Kirchhoff's current law at each such node, then the law of each such branch. Zeroing a source changes z alone, so
 * one elimination serves every excitation.
 * Problems: singularEquations. Source: Ho, Ruehli, Brennan, IEEE Trans. Circuits Syst. 22(6), 1975.
 */
export function respond<T>(
  network: Network<T>,
  structure: Structure,
  places: Unknowns,
  arithmetic: Arithmetic<T>,
  excitations: readonly Excitation<T>[],
): Responses<T> {
  const system = assemble(network, places, arithmetic, excitations);
  const elimination = arithmetic.solve(system);
  if (!elimination.ok) return { ok: false, problem: singular(network, places, arithmetic, elimination.nullVector) };
  const shorts = mergedShorts(network, structure);
  return {
    ok: true,
    responses: excitations.map((excitation, s) => {
      const read = (terms: readonly Term<T>[]): T => elimination.solution(s, terms);
      return response(network, places, arithmetic, read, shorts, excitation);
    }),
    residual: elimination.residual,
    unknowns: system.order,
    undetermined: shorts.undetermined,
  };
}

/** Where each unknown stands in x: −1 for a node held at 0 V, and for a branch that has no unknown of its own. */
export type Unknowns = {
  readonly order: number;
  readonly ofNode: readonly number[];
  readonly ofBranch: readonly number[];
};

/** The unknowns that the equations of a network have. */
export function unknownsOf<T>(network: Network<T>, structure: Structure): Unknowns {
  const merged = mergedNodes(network, structure);
  const grounds = new Set(structure.sectionOf.map((root) => merged.find(root)));
  const place = new Map<NodeIndex, number>();
  for (let node = 0; node < network.nodes.length; node++) {
    const root = merged.find(node);
    if (!grounds.has(root) && !place.has(root)) place.set(root, place.size);
  }
  let order = place.size;
  const controls = new Set(
    network.branches.flatMap(({ law }) => (law.kind === "ccvs" || law.kind === "cccs" ? [law.control] : [])),
  );
  const ofBranch = network.branches.map((branch, i) => (hasCurrentUnknown(branch, controls.has(i)) ? order++ : -1));
  return { order, ofNode: network.nodes.map((_, node) => place.get(merged.find(node)) ?? -1), ofBranch };
}

function mergedNodes<T>(network: Network<T>, structure: Structure): NodeSets {
  const sets = nodeSets(network.nodes.length);
  network.branches.forEach((branch, i) => {
    if (branch.law.kind === "short" && !structure.kept.has(i)) sets.join(branch.plus, branch.minus);
  });
  return sets;
}

function hasCurrentUnknown<T>({ law }: Branch<T>, isControl: boolean): boolean {
  switch (law.kind) {
    case "voltage":
    case "vcvs":
    case "ccvs":
    case "opAmp":
    case "primary":
      return true;
    case "short":
    case "current":
    case "cccs":
      // Followed by another source, their current must be there to be multiplied.
      return isControl;
    case "admittance":
    case "open":
    case "vccs":
    case "secondary":
      return false;
    default:
      return unreachable(law);
  }
}

/** Coefficients of unknowns, and of the right-hand side, that add up to a branch current or a node voltage. */
type Form<T> = {
  readonly terms: readonly Term<T>[];
  readonly source: number | null;
};

function voltageTerms<T>(places: Unknowns, plus: NodeIndex, minus: NodeIndex, gain: T, negative: T): [number, T][] {
  const terms: [number, T][] = [];
  const a = places.ofNode[plus] as number;
  const b = places.ofNode[minus] as number;
  if (a !== b) {
    if (a >= 0) terms.push([a, gain]);
    if (b >= 0) terms.push([b, negative]);
  }
  return terms;
}

/** gain · (voltage of plus − voltage of minus). */
function voltageForm<T>(
  places: Unknowns,
  arithmetic: Arithmetic<T>,
  plus: NodeIndex,
  minus: NodeIndex,
  gain: T,
): Form<T> {
  return { terms: voltageTerms(places, plus, minus, gain, arithmetic.negate(gain)), source: null };
}

/** The current of a branch in unknowns; `source` is an independent source whose value is added. */
function currentForm<T>(network: Network<T>, places: Unknowns, arithmetic: Arithmetic<T>, index: BranchIndex): Form<T> {
  const { plus, minus, law } = network.branches[index] as Branch<T>;
  const own = places.ofBranch[index] as number;
  if (own >= 0) return { terms: [[own, arithmetic.one]], source: null };
  switch (law.kind) {
    case "admittance":
      return voltageForm(places, arithmetic, plus, minus, law.admittance);
    case "vccs":
      return voltageForm(places, arithmetic, law.control.plus, law.control.minus, law.gain);
    case "current":
      return { terms: [], source: law.source };
    case "cccs":
      return scaled(currentForm(network, places, arithmetic, law.control), law.gain, arithmetic);
    case "secondary": {
      const primary = currentForm(network, places, arithmetic, law.primary);
      return scaled(primary, arithmetic.negate(law.ratio), arithmetic);
    }
    case "short": // merged: its current comes from Kirchhoff's law afterwards
    case "open":
      return { terms: [], source: null };
    case "voltage":
    case "vcvs":
    case "ccvs":
    case "opAmp":
    case "primary":
      throw new Error(`currentForm: a ${law.kind} branch has its own unknown`);
    default:
      return unreachable(law);
  }
}

function scaled<T>(form: Form<T>, gain: T, arithmetic: Arithmetic<T>): Form<T> {
  // Controls that are independent current sources have an unknown of their own, so no source is ever scaled.
  if (form.source !== null) throw new Error("scaled: a source stands in the form of a control");
  return { terms: form.terms.map(([at, coefficient]) => [at, arithmetic.multiply(coefficient, gain)]), source: null };
}

function assemble<T>(
  network: Network<T>,
  places: Unknowns,
  arithmetic: Arithmetic<T>,
  excitations: readonly Excitation<T>[],
): LinearSystem<T> {
  const rows = Array.from({ length: places.order }, (): Term<T>[] => []);
  const rightHandSides: Map<number, T>[] = excitations.map(() => new Map());
  const drive = (side: number, row: number, value: T): void => {
    const before = rightHandSides[side]?.get(row);
    rightHandSides[side]?.set(row, before === undefined ? value : arithmetic.add(before, value));
  };
  const known = (row: number, source: number | null, isNegative: boolean): void => {
    if (source === null || row < 0) return;
    excitations.forEach(({ values }, s) => {
      const value = values[source] as T;
      if (!arithmetic.isZero(value)) drive(s, row, isNegative ? arithmetic.negate(value) : value);
    });
  };
  network.branches.forEach((branch, i) => {
    const plus = places.ofNode[branch.plus] as number;
    const minus = places.ofNode[branch.minus] as number;
    if (plus !== minus) {
      const { terms, source } = currentForm(network, places, arithmetic, i);
      if (plus >= 0) rows[plus]?.push(...terms);
      if (minus >= 0) for (const [column, value] of terms) rows[minus]?.push([column, arithmetic.negate(value)]);
      known(plus, source, true);
      known(minus, source, false);
    }
    const own = places.ofBranch[i] as number;
    if (own < 0) return;
    const law = branchEquation(network, places, arithmetic, i);
    rows[own]?.push(...law.terms);
    known(own, law.source, false);
  });
  excitations.forEach(({ test }, s) => {
    if (test === null) return;
    const [plus, minus] = [places.ofNode[test.plus] as number, places.ofNode[test.minus] as number];
    if (plus >= 0) drive(s, plus, arithmetic.one);
    if (minus >= 0) drive(s, minus, arithmetic.negate(arithmetic.one));
  });
  return { order: places.order, rows, rightHandSides };
}

/** Σ terms = the value of `source`, or 0: the law of a branch whose current is an unknown. */
function branchEquation<T>(
  network: Network<T>,
  places: Unknowns,
  arithmetic: Arithmetic<T>,
  index: BranchIndex,
): Form<T> {
  const { plus, minus, law } = network.branches[index] as Branch<T>;
  const { one, negate } = arithmetic;
  const across = voltageTerms(places, plus, minus, one, negate(one));
  const current: [number, T] = [places.ofBranch[index] as number, one];
  const less = (pair: { plus: NodeIndex; minus: NodeIndex }, gain: T): [number, T][] =>
    voltageTerms(places, pair.plus, pair.minus, negate(gain), gain);
  const lessCurrent = (control: BranchIndex, gain: T): readonly Term<T>[] =>
    scaled(currentForm(network, places, arithmetic, control), negate(gain), arithmetic).terms;
  switch (law.kind) {
    case "voltage":
      return { terms: across, source: law.source };
    case "short":
      return { terms: across, source: null };
    case "vcvs":
      return { terms: [...across, ...less(law.control, law.gain)], source: null };
    case "ccvs":
      return { terms: [...across, ...lessCurrent(law.control, law.gain)], source: null };
    case "opAmp":
      return { terms: voltageTerms(places, law.inputs.plus, law.inputs.minus, one, negate(one)), source: null };
    case "primary":
      return { terms: [...across, ...less(law.secondary, law.ratio)], source: null };
    case "current":
      return { terms: [current], source: law.source };
    case "cccs":
      return { terms: [current, ...lessCurrent(law.control, law.gain)], source: null };
    case "admittance":
    case "open":
    case "vccs":
    case "secondary":
      throw new Error(`branchEquation: a ${law.kind} branch has no unknown of its own`);
    default:
      return unreachable(law);
  }
}

function response<T>(
  network: Network<T>,
  places: Unknowns,
  arithmetic: Arithmetic<T>,
  read: (terms: readonly Term<T>[]) => T,
  shorts: Shorts,
  { values, test }: Excitation<T>,
): Response<T> {
  const { add, isZero, negate, zero, one } = arithmetic;
  const lawCurrent = remembered((branch) => {
    const { terms, source } = currentForm(network, places, arithmetic, branch);
    const driven = source === null ? zero : (values[source] as T);
    return isZero(driven) ? read(terms) : add(read(terms), driven);
  });
  const inTree = new Set(shorts.tree);
  // Shorts get their currents all at once, by going over the whole network; most circuits have none.
  const shortCurrent = remembered(() => shortCurrents(network, arithmetic, lawCurrent, shorts.tree, test));
  return {
    nodeVoltage: remembered((node) => {
      const at = places.ofNode[node] as number;
      return at < 0 ? zero : read([[at, one]]);
    }),
    branchVoltage: remembered((branch) => {
      const { plus, minus } = network.branches[branch] as Branch<T>;
      return read(voltageTerms(places, plus, minus, one, negate(one)));
    }),
    branchCurrent(branch) {
      return inTree.has(branch) ? (shortCurrent(0).get(branch) as T) : lawCurrent(branch);
    },
  };
}

/** The active parts that the null vector runs through; all of them where it runs through none. */
function singular<T>(
  network: Network<T>,
  places: Unknowns,
  arithmetic: Arithmetic<T>,
  nullVector: readonly T[],
): Problem {
  const isMoved = (at: number): boolean => at >= 0 && !arithmetic.isZero(nullVector[at] as T);
  const isActive = ({ law }: Branch<T>): boolean =>
    ["vcvs", "vccs", "ccvs", "cccs", "opAmp", "primary"].includes(law.kind);
  const movedNode = (node: NodeIndex): boolean => isMoved(places.ofNode[node] as number);
  const touches = (branch: Branch<T>, i: BranchIndex): boolean =>
    isMoved(places.ofBranch[i] as number) || movedNode(branch.plus) || movedNode(branch.minus);
  const active = network.branches.filter(isActive);
  const moved = network.branches.filter((branch, i) => isActive(branch) && touches(branch, i));
  const others = network.branches.filter(touches);
  const named = moved.length > 0 ? moved : active.length > 0 ? active : others;
  return {
    code: "singularEquations",
    parts: [...new Set(named.map((branch) => branch.part))],
    nodes: network.nodes.filter((_, node) => movedNode(node)),
    omega: null,
  };
}
