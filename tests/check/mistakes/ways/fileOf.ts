import type { CircuitJson } from "../../../generators/circuits";
import type { RawElement } from "../../../independent/elements";
import type { Branch, Wave } from "./branch";
import type { Question } from "./question";

/** The circuit file of a question. */
export function fileOf({ branches, asked, measure }: Question): CircuitJson {
  return {
    format: "addend-circuit",
    version: 1,
    elements: branches.map((branch) => elementOf(branch, measure)),
    reference: "0",
    wanted: [wantedOf(branches, asked)],
  };
}

function elementOf({ id, from, to, law }: Branch, measure: "peak" | "rms"): RawElement {
  const nodes = [from, to];
  switch (law.kind) {
    case "resistor":
      return { id, kind: law.kind, nodes, value: `${law.ohms} Ω` };
    case "inductor":
      return { id, kind: law.kind, nodes, value: `${round(law.henries * 1e3)} mH` };
    case "capacitor":
      return { id, kind: law.kind, nodes, value: `${round(law.farads * 1e6)} µF` };
    case "voltage-source":
      return { id, kind: law.kind, nodes, ...amplitudeOf(law.wave, "V", measure) };
    case "current-source":
      return { id, kind: law.kind, nodes, ...amplitudeOf(law.wave, "A", measure) };
    case "vcvs":
      return { id, kind: law.kind, nodes, gain: law.gain, control: { voltage: [law.plus, law.minus] } };
    case "vccs":
      return { id, kind: law.kind, nodes, gain: law.gain, gain_unit: "S", control: { voltage: [law.plus, law.minus] } };
    case "ccvs":
      return { id, kind: law.kind, nodes, gain: law.gain, gain_unit: "Ω", control: { current: law.through } };
    case "cccs":
      return { id, kind: law.kind, nodes, gain: law.gain, control: { current: law.through } };
    case "short":
      return { id, kind: "wire", nodes };
    case "open":
      return { id, kind: "switch", nodes, state: "open" };
    case "impedance":
      throw new Error(`${id}: no part has a mere impedance`);
  }
}

/** Frequencies that are whole numbers of hertz are given so. Amplitudes of an rms circuit are rms values. */
function amplitudeOf({ peak, degrees, omega }: Wave, unit: string, measure: "peak" | "rms"): Partial<RawElement> {
  if (omega === 0) return { value: `${round(peak)} ${unit}` };
  const hertz = omega / (2 * Math.PI);
  const frequency =
    Math.abs(hertz - Math.round(hertz)) < 1e-9 ? { frequency: `${Math.round(hertz)} Hz` } : { omega: `${omega} rad/s` };
  const fields = { amplitude: `${round(peak)} ${unit}`, phase: `${degrees}°`, ...frequency };
  return measure === "rms" ? { ...fields, ...{ measure } } : fields;
}

/** What doubles make of a decimal number, as the decimal again. */
function round(x: number): number {
  return Number(x.toPrecision(9));
}

function wantedOf(branches: readonly Branch[], asked: Question["asked"]): Record<string, string> {
  switch (asked.quantity) {
    case "current": {
      const branch = branches.find(({ id }) => id === asked.through);
      const [from = "0", to = "0"] = asked.isBackward ? [branch?.to, branch?.from] : [branch?.from, branch?.to];
      return { name: "Ix", quantity: "current", through: asked.through, from, to };
    }
    case "power":
      return { name: "Px", quantity: "power", through: asked.through };
    default:
      return { name: "X", quantity: asked.quantity, from: asked.from, to: asked.to };
  }
}
