import type { Circuit, Part, Wanted } from "../../circuit";
import { isIndependentSource } from "../../circuit";
import { multiply, quantity, type Rational } from "../../quantity";
import type { Amount } from "../../solve";
import { alternatingMistakes, otherFrequencies } from "./alternating";
import { scaledAmount } from "./amounts";
import { combiningMistakes, type Scaled } from "./combining";
import { mistake } from "./mistake";
import { nodeLawMistakes } from "./nodeLaws";
import { sumMistakes } from "./sums";
import {
  actingCircuit,
  amountIn,
  type Candidate,
  type Mutation,
  opened,
  replacing,
  shorted,
  type Target,
} from "./target";
import { thousands, valueSlips } from "./valueSlips";
import { dependentMistakes, polarityMistakes, zeroingMistakes } from "./zeroing";

/** The right value of a target, and what each mistake that applies to it makes of it. */
export type Candidates = { readonly right: Amount; readonly wrong: readonly Candidate[] };

/**
 * Every value that one mistake of the catalogue leads to, for the addend or total asked for; null where that has no
 * value. A mistake that changes nothing here is among them with the right value.
 */
export function candidatesOf(target: Target): Candidates | null {
  const { circuit, wanted, sources } = target;
  const acting = sources === null ? circuit : actingCircuit(circuit, sources);
  const right = amountIn(acting, wanted);
  if (right === null) return null;
  const inCircuit = valuesOf(
    sources === null ? wholeMistakes(circuit, wanted) : addendMistakes(target, acting),
    wanted,
  );
  const laws = nodeLawMistakes(acting, wanted);
  const sums = sources === null ? sumMistakes(target) : [];
  const given = sources === null ? sourceForEquivalent(circuit, wanted) : [];
  return { right, wrong: [...sums, ...given, ...inCircuit, ...laws, ...valueSlips(right)] };
}

function addendMistakes({ circuit, wanted, sources }: Target, acting: Circuit): readonly Scaled[] {
  const own = sources ?? [];
  return [
    ...zeroingMistakes(circuit, own),
    ...dependentMistakes(circuit, own),
    ...polarityMistakes(circuit, own),
    ...inOneCircuit(acting, wanted),
    ...otherFrequencies(circuit, acting),
  ];
}

/** Mistakes in a circuit in which all sources act, or none for what is seen from two nodes. */
function wholeMistakes(circuit: Circuit, wanted: Wanted): readonly Scaled[] {
  const ids = circuit.parts.filter(isIndependentSource).map(({ id }) => id);
  if (wanted.kind === "resistance" || wanted.kind === "impedance") {
    return [
      ...equivalentZeroing(circuit),
      ...dependentMistakes(circuit, []),
      ...inOneCircuit(actingCircuit(circuit, []), wanted),
    ];
  }
  return [...dependentMistakes(circuit, ids), ...polarityMistakes(circuit, ids), ...inOneCircuit(circuit, wanted)];
}

function inOneCircuit(acting: Circuit, wanted: Wanted): readonly Scaled[] {
  return [...combiningMistakes(acting, wanted), ...alternatingMistakes(acting), ...inputSlips(acting)];
}

/** A resistance seen from two nodes with sources not zeroed as they should be. */
function equivalentZeroing(circuit: Circuit): readonly Mutation[] {
  const acting = actingCircuit(circuit, []);
  return circuit.parts.filter(isIndependentSource).map((part) => ({
    mistake: mistake("sourcesLeftOnInEquivalent", [part.id]),
    circuit: replacing(acting, part.kind === "voltage-source" ? opened(part) : shorted(part)),
  }));
}

/** The value of a source given for the voltage of an equivalent. */
function sourceForEquivalent(circuit: Circuit, { kind }: Wanted): readonly Candidate[] {
  if (kind !== "open-circuit-voltage" && kind !== "thevenin") return [];
  return circuit.parts.flatMap((part): Candidate[] => {
    if (part.kind !== "voltage-source" || part.voltage.kind !== "dc") return [];
    const value: Amount = { constant: { numbers: "exact", value: part.voltage.value }, phasors: [] };
    return [{ mistake: mistake("sourceForEquivalent", [part.id]), value }];
  });
}

/** One part read with a wrong prefix. */
function inputSlips(acting: Circuit): readonly Mutation[] {
  return acting.parts.flatMap((part) =>
    [-1, 1].flatMap((n): Mutation[] => {
      const slipped = withValueTimes(part, thousands(n));
      return slipped === null
        ? []
        : [{ mistake: mistake("inputPrefixSlip", [part.id]), circuit: replacing(acting, slipped) }];
    }),
  );
}

function withValueTimes(part: Part, times: Rational): Part | null {
  switch (part.kind) {
    case "resistor":
      return { ...part, resistance: quantity(multiply(part.resistance, times), "Ω") };
    case "capacitor":
      return { ...part, capacitance: quantity(multiply(part.capacitance, times), "F") };
    case "inductor":
      return { ...part, inductance: quantity(multiply(part.inductance, times), "H") };
    default:
      // A source that acts alone scales the answer, which is a slip of its prefix.
      return null;
  }
}

function valuesOf(mutations: readonly Scaled[], wanted: Wanted): readonly Candidate[] {
  return mutations.flatMap(({ mistake: made, circuit, wanted: other, times }): Candidate[] => {
    const amount = amountIn(circuit, other ?? wanted);
    if (amount === null) return [];
    return [{ mistake: made, value: times === undefined ? amount : scaledAmount(amount, times) }];
  });
}
