import { type Circuit, isIndependentSource, type PartId, type Wanted } from "../../circuit";
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
import { amountOf, isReached } from "../../solve/amount";
import { complex, multiplyComplex } from "../../solve/complex";
import type { SolvedSet } from "../../solve/solve";
import { type Linear, readLinear, undeterminedParts } from "../../solve/superposition";
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
  const omegas = sinusoids.filter(({ network }) => isReached(network, sources)).map(({ stimulus }) => stimulus.omega);
  const hasConstants = dc !== null && isReached(dc.network, sources);
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
  switch (quantity.of) {
    case "node": {
      const { reference } = solution;
      if (reference === null) return null;
      return linearAt(solution, sources, { kind: "voltage", from: quantity.node, to: reference });
    }
    case "voltage": {
      const part = solution.circuit.parts.find(({ id }) => id === quantity.part);
      if (part === undefined || !("plus" in part)) return null;
      return linearAt(solution, sources, { kind: "voltage", from: part.plus, to: part.minus });
    }
    case "current": {
      const { part: through, winding } = quantity;
      return linearAt(solution, sources, { kind: "current", through, winding, direction: "forward" });
    }
    case "wanted":
      return wantedAt(solution, sources, quantity.wanted);
  }
}

function linearAt(solution: Solution, sources: readonly PartId[] | null, linear: Linear): Amount | null {
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
