import type { Part } from "../circuit";
import { unreachable, writeQuantity, writeSourceValue } from "../quantity";

/** Grid steps that a letter of a label takes, on the safe side; in a long line wide and narrow ones even out. */
const LETTER = 0.55;
const FURTHER_LETTER = 0.4;
const FEW_LETTERS = 8;

/** Grid steps that a part's name and value take beside its symbol, set on two or three lines. */
export function labelWidth(part: Part): number {
  const lines = linesOf(part);
  const letters = Math.max(...lines.map((line) => line.length));
  return LETTER * Math.min(letters, FEW_LETTERS) + FURTHER_LETTER * Math.max(0, letters - FEW_LETTERS);
}

/** Whether a label is higher than beside a part there is room for without more of it: a sinusoid with its frequency. */
export function isHighLabel(part: Part): boolean {
  return linesOf(part).length > 2;
}

function linesOf(part: Part): readonly string[] {
  return [part.id, ...valueText(part).split(" @ ")];
}

function valueText(part: Part): string {
  switch (part.kind) {
    case "resistor":
      return writeQuantity(part.resistance, "Ω").text;
    case "capacitor":
      return writeQuantity(part.capacitance, "F").text;
    case "inductor":
      return writeQuantity(part.inductance, "H").text;
    case "voltage-source":
      return writeSourceValue(part.voltage, "V").text;
    case "current-source":
      return writeSourceValue(part.current, "A").text;
    case "vcvs":
      return `${writeQuantity(part.gain, "1").text} × Vc1`;
    case "vccs":
      return `${writeQuantity(part.gain, "S").text} × Vc1`;
    case "ccvs":
      return `${writeQuantity(part.gain, "Ω").text} × I(${part.control.part})`;
    case "cccs":
      return `${writeQuantity(part.gain, "1").text} × I(${part.control.part})`;
    case "ideal-transformer":
      return `${writeQuantity(part.ratio, "1").text} : 1`;
    case "switch":
    case "wire":
    case "ideal-opamp":
      return "";
    default:
      return unreachable(part);
  }
}

/** Grid steps that a symbol reaches to either side of its line. */
export function symbolHalf(part: Part): number {
  switch (part.kind) {
    case "resistor":
    case "inductor":
      return 0.4;
    case "capacitor":
    case "switch":
      return 0.55;
    case "voltage-source":
    case "current-source":
    case "vcvs":
    case "vccs":
    case "ccvs":
    case "cccs":
      return 1;
    case "wire":
      return 0;
    case "ideal-opamp":
    case "ideal-transformer":
      return 1.75;
    default:
      return unreachable(part);
  }
}
