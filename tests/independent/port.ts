import type { Fraction } from "mathjs";
import type { RawCircuit, RawElement } from "./elements";
import { dcNetwork } from "./tableau";

const TEST_BRANCH = "test branch";

/** Resistance seen between two nodes: their voltage with 1 A pushed in at `from` and out at `to`, all sources zeroed. */
export function portResistance(circuit: RawCircuit, from: string, to: string): Fraction | null {
  const tested = withElement(circuit, { id: TEST_BRANCH, kind: "current-source", nodes: [to, from], value: "1 A" });
  return dcNetwork(tested)?.answer([TEST_BRANCH]).between(from, to) ?? null;
}

/** Current from `from` to `to` through a wire laid between them, with these sources on. */
export function shortCircuitCurrent(
  circuit: RawCircuit,
  from: string,
  to: string,
  acting: readonly string[],
): Fraction | null {
  const shorted = withElement(circuit, { id: TEST_BRANCH, kind: "wire", nodes: [from, to] });
  return dcNetwork(shorted)?.answer(acting).current(TEST_BRANCH) ?? null;
}

function withElement(circuit: RawCircuit, element: RawElement): RawCircuit {
  return { ...circuit, elements: [...circuit.elements, element] };
}
