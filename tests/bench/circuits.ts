import type { RawElement } from "../independent/elements";

/** Circuits to measure on, as circuit files. Values are of the E12 series, as on a bench, so that fractions do not stay small. */
export type BenchCircuit = {
  readonly elements: readonly RawElement[];
  readonly reference: string;
  readonly wanted: readonly Readonly<Record<string, string>>[];
};

const E12 = [10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82];
const ohms = (index: number): string => `${E12[index % E12.length]}00 Ω`;

const resistor = (id: number, from: string, to: string): RawElement => ({
  id: `R${id}`,
  kind: "resistor",
  nodes: [from, to],
  value: ohms(id * 7),
});
const voltageSource = (id: string, plus: string, minus: string, value: string): RawElement => ({
  id,
  kind: "voltage-source",
  nodes: [plus, minus],
  value,
});
const currentSource = (id: string, tail: string, head: string, value: string): RawElement => ({
  id,
  kind: "current-source",
  nodes: [tail, head],
  value,
});

/** A 3 × 6 grid of nodes with 2 voltage and 2 current sources: 18 node voltages and 2 source currents, 20 unknowns. */
export function grid(): BenchCircuit {
  const rows = 3;
  const columns = 6;
  const node = (row: number, column: number) => `n${row}${column}`;
  const elements: RawElement[] = [];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      if (column + 1 < columns) elements.push(resistor(elements.length + 1, node(row, column), node(row, column + 1)));
      if (row + 1 < rows) elements.push(resistor(elements.length + 1, node(row, column), node(row + 1, column)));
      else elements.push(resistor(elements.length + 1, node(row, column), "0"));
    }
  }
  return {
    elements: [
      ...elements,
      voltageSource("V1", node(0, 0), "0", "12 V"),
      voltageSource("V2", node(0, 5), node(1, 4), "9 V"),
      currentSource("I1", "0", node(1, 2), "5 mA"),
      currentSource("I2", node(2, 0), node(0, 3), "2.5 mA"),
    ],
    reference: "0",
    wanted: [{ name: "Ia", quantity: "current", through: "R9", from: node(0, 4), to: node(0, 5) }],
  };
}

/** 12 parts, 3 sources: a problem of the size that is worked on a board. */
export function boardProblem(): BenchCircuit {
  const ends: readonly (readonly [string, string])[] = [
    ["a", "b"],
    ["b", "c"],
    ["c", "d"],
    ["d", "e"],
    ["b", "0"],
    ["c", "0"],
    ["d", "0"],
    ["e", "0"],
    ["b", "e"],
  ];
  return {
    elements: [
      ...ends.map(([from, to], index) => resistor(index + 1, from, to)),
      voltageSource("V1", "a", "0", "12 V"),
      currentSource("I1", "0", "c", "4 mA"),
      currentSource("I2", "d", "e", "1.5 mA"),
    ],
    reference: "0",
    wanted: [{ name: "Ix", quantity: "current", through: "R6", from: "c", to: "0" }],
  };
}

/** A ladder: one voltage source, then `sections` of a resistor along and a resistor across. */
export function ladder(sections: number): BenchCircuit {
  const elements = Array.from({ length: sections }, (_, k) => [
    resistor(2 * k + 1, `n${k}`, `n${k + 1}`),
    resistor(2 * k + 2, `n${k + 1}`, "0"),
  ]).flat();
  return {
    elements: [voltageSource("V1", "n0", "0", "10 V"), ...elements],
    reference: "0",
    wanted: [{ name: "Vend", quantity: "voltage", from: `n${sections}`, to: "0" }],
  };
}
