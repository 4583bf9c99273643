// Checked by the compiler, never run: every line marked @ts-expect-error must fail to compile, and no other.
import {
  type Ampere,
  add,
  type Frequency,
  integer,
  type Ohm,
  quantity,
  type Rational,
  readQuantity,
  readSourceValue,
  type Siemens,
  type Sinusoid,
  type SourceValue,
  type UnitSymbol,
  type Volt,
  writeQuantity,
  writeSourceValue,
} from "../../shared/quantity";

const resistance: Ohm = quantity(integer(3300), "Ω");
const voltage: Volt = quantity(integer(12), "V");

// @ts-expect-error a resistance is not a conductance
export const conductance: Siemens = resistance;
// @ts-expect-error a voltage is not a current
export const current: Ampere = voltage;
// @ts-expect-error a number without a unit is not a resistance
export const bare: Ohm = integer(3300);
// @ts-expect-error a unit that the core does not compute in
export const length = quantity(integer(1), "m");
// @ts-expect-error a double is no exact number
export const inexact: Ohm = quantity(4.7e-9, "Ω");
// @ts-expect-error a sum of resistances has lost its unit until somebody says it again
export const total: Ohm = add(resistance, resistance);

/** Every quantity is a number; and its unit may be one of several. */
export const number: Rational = resistance;
export const either: Ohm | Volt = voltage;

export function reading(text: string): Ohm | null {
  const wanted = readQuantity(text, "Ω");
  // @ts-expect-error a reading is a value only where it is ok
  wanted.value;
  if (!wanted.ok) return null;
  // @ts-expect-error what was read as ohms is no voltage
  const wrong: Volt = wanted.value.value;
  return wrong && wanted.value.value;
}

export function readingOneOfTwo(text: string): Frequency | null {
  const reading = readQuantity(text, ["Hz", "rad/s"]);
  if (!reading.ok) return null;
  if (reading.value.unit === "Hz") {
    // @ts-expect-error the unit found tells the two apart
    const wrong: Extract<Frequency, { unit: "rad/s" }> = reading.value;
    return wrong;
  }
  return reading.value;
}

export function readingSource(text: string): SourceValue<"V"> | null {
  const reading = readSourceValue(text, "V");
  if (!reading.ok) return null;
  // @ts-expect-error a voltage source's value is not a current source's
  writeSourceValue(reading.value, "A");
  return reading.value;
}

declare const sinusoid: Sinusoid<"A">;
// @ts-expect-error a current's sinusoid is no voltage's
export const other: Sinusoid<"V"> = sinusoid;
// @ts-expect-error a constant has no phase
export const phase = (source: SourceValue<"V">) => source.phase;
// @ts-expect-error there is no default unit
writeQuantity(resistance);
// @ts-expect-error a source is of volts or of amperes
readSourceValue("5 Ω", "Ω");

export const symbols: readonly UnitSymbol[] = ["Ω", "S", "V", "A", "W", "F", "H", "Hz", "rad/s", "s", "°", "1"];
