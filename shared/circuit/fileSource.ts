import {
  type Frequency,
  type Quantity,
  quantity,
  type Sinusoid,
  type SourceValue,
  signOf,
  subtract,
  ZERO,
} from "../quantity";
import type { ElementEntry } from "./fileElementSchema";
import { type ElementContext, quantityFrom, sourceValueFrom } from "./fileQuantity";
import type { QuantityEntry } from "./fileQuantitySchema";

type SourceEntry = Extract<ElementEntry, { kind: "voltage-source" | "current-source" }>;
type SinusoidField = "amplitude" | "phase" | "omega" | "frequency" | "waveform" | "measure";

const QUARTER_TURN = quantity({ n: 90n, d: 1n }, "°");

/**
 * The value of an independent source: from `value`, a constant or the text of a sinusoid, or from `amplitude` with
 * its fellows. Where it cannot be read problems are added and a constant 0 returned.
 */
export function sourceValueOf<U extends "V" | "A">(
  entry: SourceEntry,
  unit: U,
  context: ElementContext,
): SourceValue<U> {
  const { problems, path } = context;
  const subject = entry.kind;
  const zero: SourceValue<U> = { kind: "dc", value: quantity(ZERO, unit) };
  if (entry.value !== undefined && entry.amplitude !== undefined) {
    problems.push({ path: [...path, "amplitude"], code: "eitherOr", subject, other: "value", given: "both" });
    return zero;
  }
  if (entry.amplitude !== undefined) return sinusoidOf(entry, entry.amplitude, unit, context);
  if (entry.value === undefined) {
    problems.push({ path: [...path, "value"], code: "eitherOr", subject, other: "amplitude", given: "neither" });
    return zero;
  }
  const value = sourceValueFrom(entry.value, unit, { path: [...path, "value"], subject, problems });
  if (value === null) return zero;
  return value.kind === "dc" ? constantOf(entry, value, context) : measuredSinusoid(entry, value, context);
}

function constantOf<U extends "V" | "A">(entry: SourceEntry, value: SourceValue<U>, context: ElementContext) {
  refuse(entry, ["phase", "omega", "frequency", "waveform", "measure"], "notASinusoid", context);
  return value;
}

function measuredSinusoid<U extends "V" | "A">(entry: SourceEntry, value: Sinusoid<U>, context: ElementContext) {
  refuse(entry, ["phase", "omega", "frequency", "waveform"], "saidInValue", context);
  const measure = entry.measure ?? (context.measure === "rms" ? "rms" : value.measure);
  return { ...value, measure };
}

function refuse(
  entry: SourceEntry,
  fields: readonly SinusoidField[],
  code: "notASinusoid" | "saidInValue",
  { path, problems }: ElementContext,
): void {
  for (const field of fields) if (entry[field] !== undefined) problems.push({ path: [...path, field], code });
}

function sinusoidOf<U extends "V" | "A">(
  entry: SourceEntry,
  amplitude: QuantityEntry,
  unit: U,
  context: ElementContext,
): Sinusoid<U> {
  const { path, problems, measure } = context;
  const subject = entry.kind;
  const phase = quantityFrom(entry.phase ?? 0, "°", { path: [...path, "phase"], subject, problems });
  return {
    kind: "sinusoid",
    amplitude: quantityFrom(amplitude, unit, { path: [...path, "amplitude"], subject, problems }),
    measure: entry.measure ?? measure,
    // sin(x) = cos(x − 90°)
    phase: entry.waveform === "sin" ? quantity(subtract(phase, QUARTER_TURN), "°") : phase,
    frequency: frequencyOf(entry, context),
  };
}

function frequencyOf(entry: SourceEntry, context: ElementContext): Frequency {
  const { omega, frequency } = entry;
  const isGivenOnce = (omega === undefined) !== (frequency === undefined);
  if (!isGivenOnce) {
    const given = omega === undefined ? "neither" : "both";
    const path = [...context.path, "frequency"];
    context.problems.push({ path, code: "eitherOr", subject: entry.kind, other: "omega", given });
  }
  return frequency === undefined
    ? { unit: "rad/s", value: positiveFrom(omega ?? 1, "rad/s", "omega", entry, context) }
    : { unit: "Hz", value: positiveFrom(frequency, "Hz", "frequency", entry, context) };
}

function positiveFrom<U extends Frequency["unit"]>(
  given: QuantityEntry,
  unit: U,
  field: SinusoidField,
  entry: SourceEntry,
  { path, problems }: ElementContext,
): Quantity<U> {
  const site = { path: [...path, field], subject: entry.kind, problems };
  const before = problems.length;
  const value = quantityFrom(given, unit, site);
  if (signOf(value) < 1 && problems.length === before) problems.push({ path: site.path, code: "frequencyNotPositive" });
  return value;
}
