import { type Part, unreachable } from "../circuit";
import {
  type Quantity,
  rationalText,
  type Sinusoid,
  type UnitSymbol,
  writeQuantity,
  writeSourceValue,
} from "../quantity";
import { type KindWithValue, readValueText, VALUE_UNIT } from "./readPartValue";

type PartWithValue = Extract<Part, { readonly kind: KindWithValue }>;

/** The value of a part as a text that reads back as exactly that value. */
export function partValueText(part: PartWithValue): string {
  switch (part.kind) {
    case "resistor":
      return exactText(part.resistance, "Ω");
    case "capacitor":
      return exactText(part.capacitance, "F");
    case "inductor":
      return exactText(part.inductance, "H");
    case "voltage-source":
      return part.voltage.kind === "dc" ? exactText(part.voltage.value, "V") : sinusoidText(part.voltage, "V");
    case "current-source":
      return part.current.kind === "dc" ? exactText(part.current.value, "A") : sinusoidText(part.current, "A");
    case "vcvs":
    case "vccs":
    case "ccvs":
    case "cccs":
      return exactText<UnitSymbol>(part.gain, VALUE_UNIT[part.kind]);
    case "ideal-transformer":
      return exactText(part.ratio, "1");
    default:
      return unreachable(part);
  }
}

function exactText<U extends UnitSymbol>(value: Quantity<U>, unit: U): string {
  const written = writeQuantity(value, unit);
  if (written.mark === "=") return written.text;
  return unit === "1" ? rationalText(value) : `${rationalText(value)} ${unit}`;
}

function sinusoidText<U extends "V" | "A">(value: Sinusoid<U>, unit: U): string {
  const { amplitude, measure, phase, frequency } = value;
  const rate =
    frequency.unit === "Hz" ? exactText(frequency.value, frequency.unit) : exactText(frequency.value, frequency.unit);
  const size = exactText<"V" | "A">(amplitude, unit);
  return `${size}${measure === "rms" ? " rms" : ""} ∠ ${rationalText(phase)}° @ ${rate}`;
}

/** A value's text as it is written on the drawing: `3.3k` becomes `3.3 kΩ`. What cannot be read stays as typed. */
export function shownValue(kind: KindWithValue, text: string): string {
  switch (kind) {
    case "voltage-source": {
      const reading = readValueText(kind, text);
      return reading.ok ? writeSourceValue(reading.value, "V").text : text;
    }
    case "current-source": {
      const reading = readValueText(kind, text);
      return reading.ok ? writeSourceValue(reading.value, "A").text : text;
    }
    case "resistor":
    case "capacitor":
    case "inductor":
    case "vcvs":
    case "vccs":
    case "ccvs":
    case "cccs":
    case "ideal-transformer": {
      const reading = readValueText(kind, text);
      const written = reading.ok ? writeQuantity(reading.value, VALUE_UNIT[kind]) : null;
      return written?.mark === "=" ? written.text : text;
    }
    default:
      return unreachable(kind);
  }
}
