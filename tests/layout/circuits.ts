import { type Circuit, fileProblemText, isIndependentSource, type Part, readCircuitFile } from "../../shared/circuit";
import { EXAMPLES } from "../../shared/examples";
import { examples } from "../published/examples";

export function circuitFrom(json: unknown): Circuit {
  const reading = readCircuitFile(json);
  if (!reading.ok) throw new Error(reading.problems.map(fileProblemText).join("\n"));
  return reading.value.circuit;
}

export type NamedCircuit = readonly [name: string, circuit: Circuit];

export const PUBLISHED: readonly NamedCircuit[] = examples.map((json) => [json.id, circuitFrom(json)]);
/** The circuits of our own, without the positions that their files give. */
export const OWN: readonly NamedCircuit[] = EXAMPLES.map(({ id, json }) => [id, circuitFrom(json)]);

/** The circuits in which one independent source acts: another voltage source is a short, a current source a gap. */
export function addendCircuits([name, circuit]: NamedCircuit): readonly NamedCircuit[] {
  const sources = circuit.parts.filter(isIndependentSource);
  return sources.map((acting) => {
    const parts = circuit.parts.flatMap((part): readonly Part[] => {
      if (part === acting || !isIndependentSource(part)) return [part];
      const { id, plus, minus } = part;
      return part.kind === "voltage-source" ? [{ kind: "wire", id, plus, minus }] : [];
    });
    return [`${name}, ${acting.id} acting`, { ...circuit, parts }];
  });
}

/** A circuit from lines such as `R1 a,b`: the first letter says the kind, with the same values everywhere. */
export function circuitOfLines(...lines: readonly string[]): Circuit {
  const elements = lines.map((line) => {
    const [id = "", nodes = ""] = line.split(" ");
    return { id, nodes: nodes.split(","), ...KINDS[id.charAt(0)] };
  });
  const reference = elements.some(({ nodes }) => nodes.includes("0")) ? "0" : null;
  return circuitFrom({ elements, reference, wanted: [] });
}

const KINDS: Readonly<Record<string, object>> = {
  R: { kind: "resistor", value: "1 kΩ" },
  C: { kind: "capacitor", value: "100 nF" },
  V: { kind: "voltage-source", value: "5 V" },
  I: { kind: "current-source", value: "2 mA" },
  U: { kind: "ideal-opamp" },
  T: { kind: "ideal-transformer", ratio: "2" },
  S: { kind: "switch", state: "closed" },
  W: { kind: "wire" },
};
