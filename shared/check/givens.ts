import type { Circuit, Part } from "../circuit";
import { unreachable } from "../circuit";
import type { SourceValue } from "../quantity";
import { omegaOf } from "../solve/network";
import { phasorOf } from "../solve/solve";
import { dimensionOf } from "./dimension";
import { complexValue, unitValueOf, type Value, waveValue } from "./value";

/** What a circuit's parts stand for in an expression, by name; null for a part that is no single value. */
export type Givens = ReadonlyMap<string, Value | null>;

/**
 * The values of a circuit's parts. A sinusoidal source is a phasor, in `measure`, where the circuit has a single frequency
 * and nothing constant, and a function of time where it has more.
 */
export function givensOf(circuit: Circuit, measure: "peak" | "rms"): Givens {
  return givensAs(circuit, hasOneFrequency(circuit) ? measure : null);
}

/** The values of a circuit's parts, with sinusoids as phasors in a measure, or with null as functions of time. */
export function givensAs(circuit: Circuit, phasors: "peak" | "rms" | null): Givens {
  return new Map(circuit.parts.map((part) => [part.id, givenOf(part, phasors)]));
}

function givenOf(part: Part, phasors: "peak" | "rms" | null): Value | null {
  switch (part.kind) {
    case "resistor":
      return unitValueOf("Ω", part.resistance);
    case "capacitor":
      return unitValueOf("F", part.capacitance);
    case "inductor":
      return unitValueOf("H", part.inductance);
    case "voltage-source":
      return sourceValue(part.voltage, "V", phasors);
    case "current-source":
      return sourceValue(part.current, "A", phasors);
    case "vcvs":
    case "cccs":
      return unitValueOf("1", part.gain);
    case "vccs":
      return unitValueOf("S", part.gain);
    case "ccvs":
      return unitValueOf("Ω", part.gain);
    case "ideal-transformer":
      return unitValueOf("1", part.ratio);
    case "ideal-opamp":
    case "switch":
    case "wire":
      return null;
    default:
      return unreachable(part);
  }
}

function sourceValue<U extends "V" | "A">(value: SourceValue<U>, unit: U, phasors: "peak" | "rms" | null): Value {
  if (value.kind === "dc") return unitValueOf(unit, value.value);
  const phasor = phasorOf(value, phasors ?? "peak");
  if (phasors !== null) return complexValue(phasor, dimensionOf(unit));
  return waveValue(omegaOf(value.frequency), phasor, dimensionOf(unit));
}

/** What a value given as `from` is to be multiplied by to be one in `to`. */
export function measureFactor(from: "peak" | "rms", to: "peak" | "rms"): number {
  if (from === to) return 1;
  return from === "rms" ? Math.SQRT2 : Math.SQRT1_2;
}

function hasOneFrequency(circuit: Circuit): boolean {
  const values = circuit.parts.flatMap((part): SourceValue<"V" | "A">[] => {
    if (part.kind === "voltage-source") return [part.voltage];
    return part.kind === "current-source" ? [part.current] : [];
  });
  const omegas = values.map((value) => (value.kind === "dc" ? 0 : omegaOf(value.frequency)));
  return new Set(omegas).size === 1 && omegas[0] !== 0;
}
