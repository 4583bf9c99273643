import { type QuantityProblem, readAnyQuantity, type UnitSymbol, unreachable } from "../quantity";
import type { ValuedKind } from "./board";

/** What a text typed onto a stretched line makes of it. */
export type StretchReading =
  | { readonly make: "wire" }
  | { readonly make: "part"; readonly kind: ValuedKind; readonly value: string }
  | { readonly make: "nothing"; readonly because: "unreadable"; readonly problem: QuantityProblem }
  /** Readable, but no part has a value in this unit. */
  | { readonly make: "nothing"; readonly because: "noPartInUnit"; readonly unit: UnitSymbol };

/** The unit decides the part: `3.3k` is a resistor, `9 V` a voltage source, `5 mA` a current source, nothing a wire. */
export function readStretch(text: string): StretchReading {
  const value = text.trim();
  if (value === "") return { make: "wire" };
  const reading = readAnyQuantity(value);
  if (!reading.ok) return { make: "nothing", because: "unreadable", problem: reading.problem };
  const { unit } = reading.value;
  const kind = kindForUnit(unit);
  return kind ? { make: "part", kind, value } : { make: "nothing", because: "noPartInUnit", unit: unit ?? "1" };
}

/** The part whose value has this unit; a bare number or a bare prefix (`3.3k`) is a resistance. */
function kindForUnit(unit: UnitSymbol | null): ValuedKind | null {
  switch (unit) {
    case null:
    case "Ω":
      return "resistor";
    case "F":
      return "capacitor";
    case "H":
      return "inductor";
    case "V":
      return "voltage-source";
    case "A":
      return "current-source";
    case "S":
    case "W":
    case "Hz":
    case "rad/s":
    case "s":
    case "°":
    case "1":
      return null;
    default:
      return unreachable(unit);
  }
}
