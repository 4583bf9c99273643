import { type Circuit, isIndependentSource, type NodeId, type PartId, type Wanted } from "../../circuit";
import { ZERO } from "../../quantity";
import {
  type Amount,
  answerOf,
  type Grouping,
  numberOf,
  powerOf,
  respondTo,
  type Solution,
  solveCircuit,
} from "../../solve";
import { amountOf } from "../../solve/amount";
import { complex, multiplyComplex } from "../../solve/complex";
import type { Response } from "../../solve/equations";
import type { SolvedSet } from "../../solve/solve";
import { readLinear, undeterminedParts } from "../../solve/superposition";
import { type Givens, givensAs, measureFactor } from "../givens";
import { type EnteredNumber, unitValueOf } from "../value";
import type { Located, Numbers, Quantity } from "./quantity";

/** How sinusoids are written in an equation: as phasors of the one frequency that acts, or as functions of time. */
export type WaveForm = "phasors" | "time";

/** The circuit that an equation is about: with some sources acting, or all of them. */
export type EquationPlace = {
  readonly circuit: Circuit;
  readonly measure: "peak" | "rms";
  /** The acting sources of an addend; null for the whole circuit. */
  readonly sources: readonly PartId[] | null;
  readonly grouping: Grouping;
  /** The ways in which sinusoids may be written here, the likelier first; one where there are none. */
  readonly forms: readonly { readonly form: WaveForm; readonly givens: Givens; readonly numbers: Numbers }[];
  /** The one angular frequency that acts, in rad/s, or 0; null for several. */
  readonly omega: number | null;
  /** All angular frequencies that act, in rad/s. */
  readonly omegas: readonly number[];
};

/**
 * Prepares a circuit, with `sources` acting and the others zeroed or with all of them, for equations to be judged.
 * `grouping` says what the addends of its quantities are, in order. Null where the circuit has no solution.
 */
export function equationPlace(
  circuit: Circuit,
  grouping: Grouping,
  sources: readonly PartId[] | null,
): EquationPlace | null {
  const solution = solveCircuit(circuit);
  if (!solution.isSolved) return null;
  const { dc, sinusoids, measure } = solution;
  const isOn = <T>({ network }: SolvedSet<T>): boolean =>
    sources === null || network.sources.some((id) => sources.includes(id));
  const omegas = sinusoids.filter(isOn).map(({ stimulus }) => stimulus.omega);
  const hasConstants = dc !== null && (dc.numbers === "exact" ? isOn(dc) : isOn(dc));
  const isOnePhasor = omegas.length === 1 && !hasConstants;
  const forms: readonly WaveForm[] = omegas.length === 0 ? ["phasors"] : isOnePhasor ? ["phasors", "time"] : ["time"];
  return {
    circuit,
    measure,
    sources,
    grouping,
    forms: forms.map((form) => ({
      form,
      givens: givensAt(circuit, sources, form === "phasors" ? measure : null),
      numbers: (located) => numberAt(solution, grouping, sources, located, form),
    })),
    omega: omegas.length === 0 ? 0 : isOnePhasor ? (omegas[0] as number) : null,
    omegas,
  };
}

/** The values of the parts; a zeroed source is 0. */
function givensAt(circuit: Circuit, sources: readonly PartId[] | null, phasors: "peak" | "rms" | null): Givens {
  const givens = new Map(givensAs(circuit, phasors));
  for (const part of circuit.parts) {
    if (sources === null || !isIndependentSource(part) || sources.includes(part.id)) continue;
    givens.set(part.id, unitValueOf(part.kind === "voltage-source" ? "V" : "A", ZERO));
  }
  return givens;
}

function numberAt(
  solution: Solution,
  grouping: Grouping,
  sources: readonly PartId[] | null,
  { quantity, addend }: Located,
  form: WaveForm,
): EnteredNumber | null {
  const acting = addend === null ? sources : (grouping[addend] ?? null);
  const amount = amountAt(solution, acting, quantity);
  return amount && enteredAs(amount, form, solution.measure);
}

function amountAt(solution: Solution, sources: readonly PartId[] | null, quantity: Quantity): Amount | null {
  const responding = <T>(set: SolvedSet<T>): Response<T> => (sources === null ? set.total : respondTo(set, sources));
  switch (quantity.of) {
    case "node":
      return voltageAt(solution, sources, quantity.node, solution.reference);
    case "voltage": {
      const part = solution.circuit.parts.find(({ id }) => id === quantity.part);
      return part && "plus" in part ? voltageAt(solution, sources, part.plus, part.minus) : null;
    }
    case "current": {
      const linear = {
        kind: "current",
        through: quantity.part,
        winding: quantity.winding,
        direction: "forward",
      } as const;
      if (undeterminedParts(solution, linear) !== null) return null;
      return amountOf(solution, (set) => readLinear(set.network, set.arithmetic, responding(set), linear), sources);
    }
    case "wanted":
      return wantedAt(solution, sources, quantity.wanted);
  }
}

function voltageAt(
  solution: Solution,
  sources: readonly PartId[] | null,
  from: NodeId,
  to: NodeId | null,
): Amount | null {
  if (to === null) return null;
  const linear = { kind: "voltage", from, to } as const;
  if (undeterminedParts(solution, linear) !== null) return null;
  const read = <T>(set: SolvedSet<T>): T => {
    const response = sources === null ? set.total : respondTo(set, sources);
    return readLinear(set.network, set.arithmetic, response, linear);
  };
  return amountOf(solution, read, sources);
}

function wantedAt(solution: Solution, sources: readonly PartId[] | null, wanted: Wanted): Amount | null {
  if (sources === null) return answerOf(solution, wanted, []).total;
  if (wanted.kind === "power") return powerOf(solution, wanted.of, (set) => respondTo(set, sources));
  const { total, addends } = answerOf(solution, wanted, [sources]);
  return addends[0]?.amount ?? total;
}

function enteredAs({ constant, phasors }: Amount, form: WaveForm, measure: "peak" | "rms"): EnteredNumber {
  const still = constant === null ? 0 : numberOf(constant);
  if (phasors.length === 0) {
    if (constant === null) return { kind: "exact", value: ZERO };
    return constant.numbers === "exact"
      ? { kind: "exact", value: constant.value }
      : { kind: "complex", value: complex(still) };
  }
  const [only] = phasors;
  if (form === "phasors" && only !== undefined) return { kind: "complex", value: only.value };
  // Functions of time are counted in peak values.
  const factor = complex(measureFactor(measure, "peak"));
  const waves = phasors.map(({ omega, value }) => ({ omega, phasor: multiplyComplex(value, factor) }));
  return { kind: "time", value: { constant: still, waves } };
}
