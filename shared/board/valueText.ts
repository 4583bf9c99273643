import type { Part } from "../circuit";
import { type Quantity, type UnitSymbol, unreachable, writeExact, writeQuantity, writeSourceValue } from "../quantity";
import { type KindWithValue, readValueText, VALUE_UNIT } from "./readPartValue";

type PartWithValue = Extract<Part, { readonly kind: KindWithValue }>;

/** The value of a part as a text that reads back as exactly that value. */
export function partValueText(part: PartWithValue): string {
  switch (part.kind) {
    case "resistor":
      return writeExact(part.resistance, "Ω");
    case "capacitor":
      return writeExact(part.capacitance, "F");
    case "inductor":
      return writeExact(part.inductance, "H");
    case "voltage-source":
      return writeSourceValue(part.voltage, "V").text;
    case "current-source":
      return writeSourceValue(part.current, "A").text;
    case "vcvs":
    case "vccs":
    case "ccvs":
    case "cccs":
      return writeExact(part.gain, VALUE_UNIT[part.kind]);
    case "ideal-transformer":
      return writeExact(part.ratio, "1");
    default:
      return unreachable(part);
  }
}

/**
 * A value's text as it is written on the drawing: `3.3k` becomes `3.3 kΩ`. Sinusoids, numbers with no short decimal
 * and what cannot be read stay as typed.
 */
export function shownValue(kind: KindWithValue, text: string): string {
  const value = constantOf(kind, text);
  const written = value ? writeQuantity(value, VALUE_UNIT[kind]) : null;
  return written?.mark === "=" ? written.text : text.trim();
}

function constantOf(kind: KindWithValue, text: string): Quantity<UnitSymbol> | null {
  const reading = readValueText(kind, text);
  if (!reading.ok) return null;
  if (!("kind" in reading.value)) return reading.value;
  return reading.value.kind === "dc" ? reading.value.value : null;
}
