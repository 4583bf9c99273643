import { type Circuit, type Part, unreachable } from "../../shared/circuit";
import { writeQuantity, writeSourceValue } from "../../shared/quantity";

const DIGITS = 4;

/** Values of parts as lines write them, without a minus sign: everybody sees them on the board. */
export function givenTexts({ parts }: Circuit): ReadonlySet<string> {
  return new Set(parts.flatMap(textsOf).map((text) => text.replace(/^−/, "")));
}

function textsOf(part: Part): string[] {
  switch (part.kind) {
    case "resistor":
      return [writeQuantity(part.resistance, "Ω", { digits: DIGITS }).text];
    case "voltage-source":
      return [writeSourceValue(part.voltage, "V").text];
    case "current-source":
      return [writeSourceValue(part.current, "A").text];
    case "ccvs":
      return [writeQuantity(part.gain, "Ω", { digits: DIGITS }).text];
    case "capacitor":
    case "inductor":
    case "vcvs":
    case "vccs":
    case "cccs":
    case "ideal-opamp":
    case "ideal-transformer":
    case "switch":
    case "wire":
      // In no unit that answers come in.
      return [];
    default:
      return unreachable(part);
  }
}
