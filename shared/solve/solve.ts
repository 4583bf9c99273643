import type { Circuit, NodeId, PartId, Problem } from "../circuit";
import { checkCircuit } from "../circuit/check";
import { stopsSolving } from "../circuit/problemText";
import type { Frequency, Rational, Sinusoid, SourceValue } from "../quantity";
import { toNumber } from "../quantity";
import { type Arithmetic, doubleArithmetic, exactArithmetic } from "./arithmetic";
import { type Complex, complex, fromPolar } from "./complex";
import { type Response, respond, type Unknowns, unknownsOf } from "./equations";
import {
  actsAt,
  constantReactance,
  DC,
  type Network,
  networkOf,
  omegaOf,
  type ReactanceLaw,
  type Stimulus,
  sinusoidalReactance,
} from "./network";
import { remembered } from "./remembered";
import type { TestCurrent } from "./shorts";
import { type Structure, structureOf } from "./structure";

/** Beyond this many unknowns a constant circuit is solved in doubles, and that is said. */
export const EXACT_LIMIT = 400;
/** Residual above which phasors are not to be trusted: nearly singular equations. */
const RESIDUAL_LIMIT = 1e-9;

/** Two nodes that are asked about as a port. */
export type Port = { readonly from: NodeId; readonly to: NodeId };

/** All that is known of a circuit at DC or at one frequency. */
export type SolvedSet<T> = {
  readonly stimulus: Stimulus;
  readonly arithmetic: Arithmetic<T>;
  readonly network: Network<T>;
  readonly structure: Structure;
  /** Value of each source of `network.sources` in V or A; phasors in the solution's measure. */
  readonly values: readonly T[];
  /** Response to each of these sources at 1 V or 1 A alone: its coefficients. */
  readonly ofSources: readonly Response<T>[];
  /** Response to 1 A into each port, independent sources zeroed. */
  readonly ofPorts: readonly Response<T>[];
  readonly total: Response<T>;
  /** Branches (shorts) whose current no law determines. */
  readonly undetermined: ReadonlySet<number>;
  /** Largest relative residual of the equations; 0 when exact. */
  readonly residual: number;
  readonly unknowns: number;
};

export type Solution = {
  readonly circuit: Circuit;
  readonly reference: NodeId | null;
  readonly problems: readonly Problem[];
  /** False where a problem leaves the circuit without a single solution; then there are no sets. */
  readonly isSolved: boolean;
  /** How phasors are counted: rms where every sinusoid is given so, otherwise peak. */
  readonly measure: "peak" | "rms";
  /** The part of constant sources, or of a circuit without sinusoids; null where only sinusoids act. */
  readonly dc: ConstantSet | null;
  readonly sinusoids: readonly SolvedSet<Complex>[];
  readonly ports: readonly Port[];
};

/** Exact, or in doubles where the circuit is too large. */
export type ConstantSet =
  | ({ readonly numbers: "exact" } & SolvedSet<Rational>)
  | ({ readonly numbers: "doubles" } & SolvedSet<Complex>);

/**
 * Solves a circuit for every independent source at once.
 *
 * Constant sources give an exact set, each frequency of sinusoidal sources a set of phasors; each set holds the
 * response to every one of its sources alone, and their total. Sets of different frequencies are never added.
 * Dependent sources stay on throughout. Never throws for anything that a person can draw: problems are returned.
 */
export function solveCircuit(circuit: Circuit, ports: readonly Port[] = portsOf(circuit)): Solution {
  const { reference, problems: found } = checkCircuit(circuit);
  const problems = problemList(found);
  const measure = measureOf(circuit);
  const unsolved: Solution = {
    circuit,
    reference,
    problems: [],
    isSolved: false,
    measure,
    dc: null,
    sinusoids: [],
    ports,
  };
  if (reference === null || problems.stop()) return { ...unsolved, problems: problems.all() };
  const setting: Setting = { circuit, reference, ports, measure, problems };
  const frequencies = frequenciesOf(circuit);
  const dc = hasConstantPart(circuit, frequencies) ? solveConstant(setting) : null;
  const sinusoids = frequencies.flatMap((frequency) => solveSinusoidal(setting, frequency) ?? []);
  const isSolved = !problems.stop() && (dc !== null || sinusoids.length > 0);
  const solved = isSolved ? { isSolved, dc, sinusoids } : {};
  return { ...unsolved, ...solved, problems: problems.all() };
}

type Setting = {
  readonly circuit: Circuit;
  readonly reference: NodeId;
  readonly ports: readonly Port[];
  readonly measure: "peak" | "rms";
  readonly problems: ProblemList;
};

/** Problems in the order found, each once although several sets may find it. */
type ProblemList = { add(problems: readonly Problem[]): void; all(): readonly Problem[]; stop(): boolean };

function problemList(found: readonly Problem[]): ProblemList {
  const byText = new Map<string, Problem>();
  const keyOf = (problem: Problem): string =>
    JSON.stringify(problem, (_, value) => (typeof value === "bigint" ? `${value}` : value));
  const add = (problems: readonly Problem[]): void => {
    for (const problem of problems) byText.set(keyOf(problem), problem);
  };
  add(found);
  return { add, all: () => [...byText.values()], stop: () => [...byText.values()].some(stopsSolving) };
}

/** The ports that the wanted quantities speak of, each once. */
export function portsOf(circuit: Circuit): Port[] {
  const ports = new Map<string, Port>();
  for (const wanted of circuit.wanted) {
    if (wanted.kind === "current" || wanted.kind === "voltage" || wanted.kind === "power") continue;
    ports.set(JSON.stringify([wanted.from, wanted.to]), { from: wanted.from, to: wanted.to });
  }
  return [...ports.values()];
}

/** The value of each independent source. */
export function sourceValues(circuit: Circuit): ReadonlyMap<PartId, SourceValue<"V"> | SourceValue<"A">> {
  const values = new Map<PartId, SourceValue<"V"> | SourceValue<"A">>();
  for (const part of circuit.parts) {
    if (part.kind === "voltage-source") values.set(part.id, part.voltage);
    if (part.kind === "current-source") values.set(part.id, part.current);
  }
  return values;
}

/** The frequencies of the sinusoidal sources, each once, the lowest first. */
export function frequenciesOf(circuit: Circuit): Frequency[] {
  const frequencies: Frequency[] = [];
  for (const value of sourceValues(circuit).values()) {
    if (value.kind !== "sinusoid") continue;
    const isKnown = frequencies.some((frequency) => actsAt(value, { frequency, omega: 0 }));
    if (!isKnown) frequencies.push(value.frequency);
  }
  return frequencies.sort((a, b) => omegaOf(a) - omegaOf(b));
}

/** Whether a circuit is solved at DC: where a source is constant, or none is a sinusoid. */
export function hasConstantPart(circuit: Circuit, frequencies: readonly Frequency[]): boolean {
  return frequencies.length === 0 || [...sourceValues(circuit).values()].some((value) => value.kind === "dc");
}

/** In which measure a circuit's phasors are: rms where all of its sinusoids are given so. */
export function measureOf(circuit: Circuit): "peak" | "rms" {
  const sinusoids = [...sourceValues(circuit).values()].filter((value) => value.kind === "sinusoid");
  return sinusoids.length > 0 && sinusoids.every((value) => value.measure === "rms") ? "rms" : "peak";
}

function solveConstant(setting: Setting): ConstantSet | null {
  const { circuit, problems } = setting;
  const reactive = circuit.parts.filter((part) => part.kind === "capacitor" || part.kind === "inductor");
  if (reactive.length > 0) problems.add([{ code: "constantSteadyState", parts: reactive.map((part) => part.id) }]);
  const exact = build(setting, DC, exactArithmetic, constantReactance);
  if (exact === null) return null;
  const values = sourceValues(circuit);
  const constantOf = (id: PartId): Rational => {
    const value = values.get(id);
    if (value?.kind !== "dc") throw new Error(`solveConstant: ${id} is not constant`);
    return value.value;
  };
  const { order } = exact.places;
  if (order <= EXACT_LIMIT) {
    const set = solveSet(setting, exact, exact.network.sources.map(constantOf));
    return set && { numbers: "exact", ...set };
  }
  problems.add([{ code: "inDoubles", unknowns: order, limit: EXACT_LIMIT }]);
  const rounded = build(setting, DC, doubleArithmetic, constantReactance);
  if (rounded === null) return null;
  const set = solveSet(
    setting,
    rounded,
    rounded.network.sources.map((id) => complex(toNumber(constantOf(id)))),
  );
  return set && { numbers: "doubles", ...set };
}

function solveSinusoidal(setting: Setting, frequency: Frequency): SolvedSet<Complex> | null {
  const stimulus: Stimulus = { frequency, omega: omegaOf(frequency) };
  const built = build(setting, stimulus, doubleArithmetic, sinusoidalReactance(stimulus.omega));
  if (built === null) return null;
  const values = sourceValues(setting.circuit);
  const phasors = built.network.sources.map((id) => {
    const value = values.get(id);
    if (value?.kind !== "sinusoid") throw new Error(`solveSinusoidal: ${id} is not a sinusoid`);
    return phasorOf(value, setting.measure);
  });
  return solveSet(setting, built, phasors);
}

/** The phasor of a sinusoid, its magnitude a peak or an rms value as `measure` says. */
export function phasorOf(sinusoid: Sinusoid<"V" | "A">, measure: "peak" | "rms"): Complex {
  const given = toNumber(sinusoid.amplitude);
  const factor = sinusoid.measure === measure ? 1 : measure === "peak" ? Math.SQRT2 : Math.SQRT1_2;
  return fromPolar(given * factor, toNumber(sinusoid.phase));
}

type Built<T> = {
  readonly stimulus: Stimulus;
  readonly arithmetic: Arithmetic<T>;
  readonly network: Network<T>;
  readonly structure: Structure;
  /** Where each unknown stands in the equations. */
  readonly places: Unknowns;
};

/** Network and structure at a stimulus; null where the structure already forbids a solution. */
function build<T>(
  setting: Setting,
  stimulus: Stimulus,
  arithmetic: Arithmetic<T>,
  reactance: ReactanceLaw<T>,
): Built<T> | null {
  const network = networkOf(setting.circuit, setting.reference, stimulus, arithmetic, reactance);
  const structure = structureOf(network, setting.circuit);
  setting.problems.add(structure.problems);
  if (structure.problems.some(stopsSolving)) return null;
  return { stimulus, arithmetic, network, structure, places: unknownsOf(network, structure) };
}

function solveSet<T>(setting: Setting, built: Built<T>, values: readonly T[]): SolvedSet<T> | null {
  const { network, structure, arithmetic, stimulus, places } = built;
  const placeOf = new Map(network.nodes.map((node, i) => [node, i]));
  const known = new Set(network.nodes);
  const tests = setting.ports.map(({ from, to }): TestCurrent => {
    // A port at a node that isn't there was reported by the check; its test current goes nowhere.
    if (!known.has(from) || !known.has(to)) return { plus: 0, minus: 0 };
    return { plus: placeOf.get(from) as number, minus: placeOf.get(to) as number };
  });
  const none = values.map(() => arithmetic.zero);
  // The total is found by itself, not as the sum of the addends, so that their agreement says something.
  const found = respond(network, structure, places, arithmetic, [
    { values, test: null },
    ...values.map((_, s) => ({ values: none.with(s, arithmetic.one), test: null })),
    ...tests.map((test) => ({ values: none, test })),
  ]);
  if (!found.ok) {
    const omega = stimulus.frequency === null ? null : stimulus.omega;
    setting.problems.add([found.problem.code === "singularEquations" ? { ...found.problem, omega } : found.problem]);
    return null;
  }
  const { responses, residual, unknowns } = found;
  if (residual > RESIDUAL_LIMIT) setting.problems.add([{ code: "largeResidual", omega: stimulus.omega, residual }]);
  const bypassed = found.undetermined.map((i) => network.branches[i]?.part as PartId);
  if (bypassed.length > 0) setting.problems.add([{ code: "undeterminedCurrent", parts: bypassed }]);
  return {
    stimulus,
    arithmetic,
    network,
    structure,
    values,
    total: responses[0] as Response<T>,
    ofSources: responses.slice(1, 1 + values.length),
    ofPorts: responses.slice(1 + values.length),
    undetermined: new Set(found.undetermined),
    residual,
    unknowns,
  };
}

/** Σ response · value: what sources give together. */
export function combine<T>(
  arithmetic: Arithmetic<T>,
  responses: readonly Response<T>[],
  values: readonly T[],
): Response<T> {
  const { add, multiply, zero, isZero } = arithmetic;
  const weigh = (read: (response: Response<T>, index: number) => T) =>
    remembered((index) =>
      responses.reduce((total, response, s) => {
        const value = values[s] as T;
        return isZero(value) ? total : add(total, multiply(read(response, index), value));
      }, zero),
    );
  return {
    nodeVoltage: weigh((response, node) => response.nodeVoltage(node)),
    branchVoltage: weigh((response, branch) => response.branchVoltage(branch)),
    branchCurrent: weigh((response, branch) => response.branchCurrent(branch)),
  };
}
