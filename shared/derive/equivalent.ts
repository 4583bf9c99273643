import type { Circuit, PartId } from "../circuit";
import { partId } from "../circuit";
import { integer, quantity } from "../quantity";
import type { Answer, Port, Response, SolvedSet } from "../solve";
import type { Amount } from "../solve/amount";
import type { Arithmetic } from "../solve/arithmetic";
import { complex } from "../solve/complex";
import type { BranchIndex, NodeIndex } from "../solve/network";
import type { Writer } from "../solve/shown";
import { type Linear, nodeIndex, readLinear } from "../solve/superposition";
import { type Acting, actingOn, isCoupled } from "./acting";
import { type Derived, derivedOf, soleLine } from "./derived";
import { known, over, sizeOf, square, times } from "./expression";
import { expectedOf, writeLastHop } from "./lastHop";
import { OMITTED, WORKING_LIMIT } from "./limit";
import type { Equation } from "./line";
import type { Name } from "./names";
import { nodeEquations } from "./nodeEquations";
import { Notebook } from "./notebook";
import type { Numerals } from "./numerals";
import { writeOpening, writePhasors } from "./opening";
import { writeWholeImpedance } from "./planWriter";
import { isRegular } from "./portImpedance";
import { combinedIn, oriented, PortMaker, reduced } from "./ports";
import { referrals } from "./referral";
import type { Rewriting } from "./rewriting";
import { admittancesOf } from "./route";
import { onSets } from "./sets";
import type { Setting } from "./subject";
import { wyeDeltaRewritings } from "./wyeDelta";

/** Resistance or impedance seen at a port, a derivation a frequency. */
export function equivalentLines(setting: Setting, port: Port, name: Name): Derived[] {
  const { solution, digits } = setting;
  const place = solution.ports.findIndex(({ from, to }) => from === port.from && to === port.to);
  return onSets(solution, null, digits, (set, numerals) =>
    equivalentInSet(solution.circuit, set, numerals, port, set.ofPorts[place] as never, name),
  );
}

function equivalentInSet<T>(
  circuit: Circuit,
  set: SolvedSet<T>,
  numerals: Numerals<T>,
  port: Port,
  response: Response<T>,
  name: Name,
): Derived {
  const combined = byCombining(circuit, set, numerals, port, name);
  return combined !== null && combined.faults.length === 0
    ? combined
    : byTestSource(circuit, set, numerals, port, response, name);
}

/** Series and parallel from the port inwards; null where that does not come to one resistance. */
function byCombining<T>(
  circuit: Circuit,
  set: SolvedSet<T>,
  numerals: Numerals<T>,
  { from, to }: Port,
  name: Name,
): Derived | null {
  const { network, arithmetic } = set;
  const looked = testedCircuit(circuit, set, numerals, { from, to }, nothingDriven(arithmetic));
  const acting: Acting<T> = { ...looked, live: looked.live.filter((i) => i < network.branches.length) };
  if (isCoupled(acting) && !acting.live.some((i) => acting.laws[i]?.kind === "primary")) return null;
  const ends = [from, to].map((node) => acting.joined(nodeIndex(network, node))) as [number, number];
  const notebook = new Notebook(numerals, arithmetic, name.text);
  writeOpening({ ...acting, on: [] }, notebook);
  if (ends[0] === ends[1]) {
    notebook.state({ rule: { kind: "nothing-flows" }, sentence: "The two nodes are shorted.", nodes: [from, to] }, [
      { left: name, right: known(null, arithmetic.zero, "Ω"), unit: "Ω", expected: arithmetic.zero },
    ]);
    return derivedOf(notebook);
  }
  const combined = combination(acting, ends, true);
  if (combined === null) return null;
  writePhasors(acting, notebook, combined.used);
  combined.write(notebook, name);
  return derivedOf(notebook);
}

type Combination<T> = {
  readonly cost: number;
  readonly used: readonly BranchIndex[];
  write(notebook: Notebook<T>, name: Name): void;
};

/** One resistance between two nodes, after one conversion between wye and delta where need be; null where that is not enough. */
function combination<T>(
  acting: Acting<T>,
  ends: readonly [NodeIndex, NodeIndex],
  mayConvert: boolean,
): Combination<T> | null {
  const [referral] = referrals(acting, { branches: [], nodes: ends, port: ends });
  if (referral !== undefined) {
    const inner = combination(referral.acting, ends, mayConvert);
    return inner && after(acting, referral, inner);
  }
  if (isCoupled(acting)) return null;
  const [only, ...rest] = reduced(new PortMaker(acting), acting.live, new Set(ends));
  if (only === undefined) return null;
  if (rest.length === 0) {
    if (!isRegular(acting, only)) return null;
    const whole = oriented(only, ends[0], ends[1]);
    return {
      cost: combinedIn(whole),
      used: whole.parts,
      write: (notebook, name) => writeWholeImpedance(acting, whole, name, notebook),
    };
  }
  if (!mayConvert) return null;
  let best: Combination<T> | null = null;
  for (const rewriting of wyeDeltaRewritings(acting, { branches: [], nodes: ends, ends })) {
    const inner = combination(rewriting.acting, ends, false);
    if (inner === null || rewriting.cost + inner.cost >= (best?.cost ?? Number.POSITIVE_INFINITY)) continue;
    best = after(acting, rewriting, inner);
  }
  return best;
}

function after<T>(acting: Acting<T>, rewriting: Rewriting<T>, inner: Combination<T>): Combination<T> {
  return {
    cost: rewriting.cost + inner.cost,
    used: [...rewriting.used, ...inner.used].filter((i) => i < acting.set.network.branches.length),
    write: (notebook, name) => {
      rewriting.write(notebook);
      inner.write(notebook, name);
    },
  };
}

const TEST = partId("Itest");

/** Stands in where only the shape of a tested circuit is looked at. */
function nothingDriven<T>({ zero }: Arithmetic<T>): Response<T> {
  return { nodeVoltage: () => zero, branchVoltage: () => zero, branchCurrent: () => zero };
}

/** A circuit with every independent source zeroed and 1 A driven into a port; `response` is what the solver has for it. */
export function testedCircuit<T>(
  circuit: Circuit,
  set: SolvedSet<T>,
  numerals: Numerals<T>,
  { from, to }: Port,
  response: Response<T>,
): Acting<T> {
  const { arithmetic, network, values } = set;
  const source = network.sources.length;
  const ends = { plus: nodeIndex(network, to), minus: nodeIndex(network, from) };
  const place = network.branches.length;
  const driven: Response<T> = {
    nodeVoltage: response.nodeVoltage,
    branchVoltage: (i) =>
      i < place
        ? response.branchVoltage(i)
        : arithmetic.add(response.nodeVoltage(ends.plus), arithmetic.negate(response.nodeVoltage(ends.minus))),
    branchCurrent: (i) => (i < place ? response.branchCurrent(i) : arithmetic.one),
  };
  const test = { part: TEST, winding: "primary", ...ends, law: { kind: "current", source } } as const;
  const tested: SolvedSet<T> = {
    ...set,
    network: { ...network, branches: [...network.branches, test], sources: [...network.sources, TEST] },
    values: [...values, arithmetic.one],
    ofSources: [...set.ofSources, driven],
  };
  const current = { kind: "dc", value: quantity(integer(1), "A") } as const;
  const part = { kind: "current-source", id: TEST, plus: to, minus: from, current } as const;
  return actingOn({ ...circuit, parts: [...circuit.parts, part] }, tested, [TEST], numerals);
}

/** 1 A driven into the port, node equations, and the voltage over the current. */
function byTestSource<T>(
  circuit: Circuit,
  set: SolvedSet<T>,
  numerals: Numerals<T>,
  port: Port,
  response: Response<T>,
  name: Name,
): Derived {
  const acting = testedCircuit(circuit, set, numerals, port, response);
  const notebook = new Notebook(numerals, set.arithmetic, name.text);
  const zeroed: Acting<T> = { ...acting, on: [] as readonly PartId[] };
  writeOpening(zeroed, notebook);
  writePhasors(acting, notebook, admittancesOf(acting));
  notebook.state(
    {
      rule: { kind: "test-source" },
      sentence: `Drive 1 A into node ${port.from} and out of node ${port.to}: the voltage that it makes tells the ${numerals.isPhasor ? "impedance" : "resistance"}.`,
      nodes: [port.from, port.to],
    },
    [],
  );
  const linear: Linear = { kind: "voltage", from: port.from, to: port.to };
  const voltage: Name = { text: "Vtest", latex: "V_{\\mathrm{test}}" };
  const equations = nodeEquations(acting, { linear, name: voltage });
  if (equations.unknowns > WORKING_LIMIT.unknowns) return OMITTED;
  const found = equations.write(notebook);
  if (found === null) return derivedOf(notebook);
  writeLastHop(acting, linear, voltage, found, notebook);
  const { arithmetic } = set;
  const value = expectedOf(acting, linear);
  notebook.state(
    {
      rule: { kind: "equivalent", what: "resistance" },
      sentence: "Voltage over current.",
      nodes: [port.from, port.to],
    },
    [
      {
        left: name,
        right: over(
          known(voltage, value, "V"),
          known({ text: "Itest", latex: "I_{\\mathrm{test}}" }, arithmetic.one, "A"),
        ),
        unit: "Ω",
        expected: value,
      },
    ],
  );
  return derivedOf(notebook);
}

/** The power that a matched load takes, then the load. */
export function matchedLoadLines(
  { solution, digits }: Setting,
  answer: Answer,
  port: Port,
  impedanceName: Name,
): Derived[] {
  const [load, power] = answer.components;
  const place = solution.ports.findIndex(({ from, to }) => from === port.from && to === port.to);
  if (load === undefined || power === undefined) throw new Error("matchedLoadLines: the answer has no load");
  return onSets(solution, null, digits, (set, numerals) => {
    const open = readLinear(set.network, set.arithmetic, set.total, { kind: "voltage", ...port });
    const seen = readLinear(set.network, set.arithmetic, set.ofPorts[place] as never, { kind: "voltage", ...port });
    const expected = { load: valueIn(set, load.amount), power: valueIn(set, power.amount) };
    return matchedLoadInSet(set, numerals, { open, seen, impedanceName, expected });
  });
}

type MatchedLoad<T> = {
  readonly open: T;
  readonly seen: T;
  readonly impedanceName: Name;
  readonly expected: { readonly load: T; readonly power: T };
};

function matchedLoadInSet<T>(
  { arithmetic }: SolvedSet<T>,
  numerals: Numerals<T>,
  { open, seen, impedanceName, expected }: MatchedLoad<T>,
): Derived {
  const { isPhasor, meanFactor } = numerals;
  const voltage = known({ text: "Vth", latex: "V_{\\mathrm{th}}" }, open, "V");
  const own = known(impedanceName, seen, "Ω");
  const real = { text: `Re ${impedanceName.text}`, latex: `\\operatorname{Re} ${impedanceName.latex}` };
  const conjugate = { text: `${impedanceName.text}*`, latex: `${impedanceName.latex}^{*}` };
  const four = arithmetic.fromRational(integer(isPhasor ? 4 / meanFactor : 4));
  const resistance = isPhasor ? known(real, numerals.real(seen), "Ω") : own;
  const notebook = new Notebook(numerals, arithmetic, "matched load");
  notebook.state(
    {
      rule: { kind: "equivalent", what: "load" },
      sentence: isPhasor
        ? `The load takes most where it is the conjugate of ${impedanceName.text}: the reactances cancel, and half the voltage is left for it.`
        : `The load takes most where it equals ${impedanceName.text}; half the voltage is then left for it.`,
    },
    [
      {
        left: { text: "Pmax", latex: "P_{\\mathrm{max}}" },
        right: over(square(isPhasor ? sizeOf(voltage, numerals) : voltage), times(known(null, four, "1"), resistance)),
        unit: "W",
        expected: expected.power,
      },
      {
        left: isPhasor ? { text: "ZL", latex: "Z_{\\mathrm{L}}" } : { text: "RL", latex: "R_{\\mathrm{L}}" },
        right: isPhasor ? known(conjugate, numerals.conjugate(seen), "Ω") : own,
        unit: "Ω",
        expected: expected.load,
      },
    ],
  );
  return derivedOf(notebook);
}

/** An amount's part in a set, in the set's numbers. */
function valueIn<T>({ stimulus, arithmetic }: SolvedSet<T>, { constant, phasors }: Amount): T {
  const phasor = phasors.find(({ omega }) => omega === stimulus.omega);
  // Doubles are complex where a set has them; a constant beside phasors is a mean power.
  if (phasor !== undefined) return phasor.value as T;
  if (constant?.numbers === "exact") return arithmetic.fromRational(constant.value);
  return complex(constant?.value ?? 0) as T;
}

/** Both numbers of an equivalent side by side, the source's last. */
export function wholeLine(answer: Answer, write: Writer): Derived {
  const isNorton = answer.wanted.kind === "norton";
  const equations = [...answer.components].reverse().map(({ name, unit, amount }): Equation => {
    const left = { text: name, latex: `${name[0]}_{\\mathrm{${name.slice(1)}}}` };
    return { left, symbols: null, numbers: null, numbersMark: "=", result: write(amount, unit), unit };
  });
  const sentence = isNorton
    ? "The Norton equivalent: this current source beside this resistance."
    : "The Thévenin equivalent: this voltage source in series with this resistance.";
  return soleLine({ rule: { kind: "equivalent", what: "whole" }, sentence, parts: [], equations });
}
