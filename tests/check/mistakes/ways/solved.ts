import type { Branch } from "./branch";
import { type Complex, imaginary, minus, over, plus, polar, real, scaled, sizeOf, times } from "./complexNumber";

/** Node voltages and branch currents at one frequency. */
export type Solved = {
  readonly between: (from: string, to: string) => Complex;
  readonly current: (id: string) => Complex;
};

/** What somebody writes for the current of a branch in Kirchhoff's current law at a node. */
export type Term = "asItIs" | "turned" | "missing" | "withoutNeighbour";
export type NodeLaw = (node: string, branch: Branch) => Term;

const AS_IT_IS: NodeLaw = () => "asItIs";

/**
 * Solves a small circuit with some of its sources on, in complex doubles: the unknowns are the voltages of all nodes
 * but "0" and the currents of all branches, the equations Kirchhoff's current law at those nodes and one law a branch.
 * Other sources, and those of other frequencies, are at 0. Null where there is not exactly one solution.
 */
export function solvedAt(
  branches: readonly Branch[],
  omega: number,
  on: readonly string[],
  law: NodeLaw = AS_IT_IS,
): Solved | null {
  const nodes = [...new Set(branches.flatMap(({ from, to }) => [from, to]))].filter((node) => node !== "0");
  const column = new Map<string, number>([
    ...nodes.map((node, k): [string, number] => [`v ${node}`, k]),
    ...branches.map(({ id }, k): [string, number] => [`i ${id}`, nodes.length + k]),
  ]);
  const size = column.size;
  const rows: Complex[][] = [];
  const row = (terms: readonly (readonly [string, Complex])[], right: Complex): void => {
    const cells = new Array<Complex>(size + 1).fill(real(0));
    for (const [unknown, factor] of terms) {
      const at = column.get(unknown);
      // The voltage of node 0 is 0.
      if (at !== undefined) cells[at] = plus(cells[at] as Complex, factor);
    }
    cells[size] = right;
    rows.push(cells);
  };
  for (const node of nodes)
    row(
      branches.flatMap((branch) => termsAt(node, branch, law(node, branch))),
      real(0),
    );
  for (const branch of branches) {
    const { terms, right } = equationOf(branch, omega, on.includes(branch.id));
    row(terms, right);
  }
  const x = eliminated(rows);
  if (x === null) return null;
  const read = (unknown: string): Complex => {
    const at = column.get(unknown);
    return at === undefined ? real(0) : (x[at] as Complex);
  };
  return {
    between: (from, to) => minus(read(`v ${from}`), read(`v ${to}`)),
    current: (id) => read(`i ${id}`),
  };
}

type Terms = readonly (readonly [string, Complex])[];

/** The current that leaves a node into a branch. */
function termsAt(node: string, { id, from, to, law }: Branch, term: Term): Terms {
  if ((from !== node && to !== node) || term === "missing" || from === to) return [];
  if (term === "withoutNeighbour") {
    if (law.kind !== "resistor") throw new Error(`${id} has no v/R`);
    return [[`v ${node}`, real(1 / law.ohms)]];
  }
  return [[`i ${id}`, real((from === node) === (term === "asItIs") ? 1 : -1)]];
}

function equationOf({ id, from, to, law }: Branch, omega: number, isOn: boolean): { terms: Terms; right: Complex } {
  const voltage: Terms = [
    [`v ${from}`, real(1)],
    [`v ${to}`, real(-1)],
  ];
  const current: Terms = [[`i ${id}`, real(1)]];
  const impedance = (z: Complex) => ({ terms: [...voltage, [`i ${id}`, scaled(z, -1)] as const], right: real(0) });
  const controlled = (own: Terms, gain: number, control: Terms) => ({
    terms: [...own, ...control.map(([unknown, factor]) => [unknown, scaled(factor, -gain)] as const)],
    right: real(0),
  });
  switch (law.kind) {
    case "resistor":
      return impedance(real(law.ohms));
    case "inductor":
      return impedance(imaginary(omega * law.henries));
    case "impedance":
      return impedance(law.z);
    case "capacitor":
      return controlled(current, 1, [
        [`v ${from}`, imaginary(omega * law.farads)],
        [`v ${to}`, imaginary(-omega * law.farads)],
      ]);
    case "voltage-source":
    case "current-source": {
      const { peak, degrees, omega: own } = law.wave;
      const right = isOn && own === omega ? polar(peak, degrees) : real(0);
      return { terms: law.kind === "voltage-source" ? voltage : current, right };
    }
    case "vcvs":
    case "vccs":
      return controlled(law.kind === "vcvs" ? voltage : current, law.gain, [
        [`v ${law.plus}`, real(1)],
        [`v ${law.minus}`, real(-1)],
      ]);
    case "ccvs":
    case "cccs":
      return controlled(law.kind === "ccvs" ? voltage : current, law.gain, [[`i ${law.through}`, real(1)]]);
    case "short":
      return { terms: voltage, right: real(0) };
    case "open":
      return { terms: current, right: real(0) };
  }
}

/** Gauss's elimination with the largest pivot of each column, rows brought to one size first; null where a pivot is 0. */
export function eliminated(rows: readonly (readonly Complex[])[]): readonly Complex[] | null {
  const size = rows.length;
  const left = rows.map((row) => {
    const largest = Math.max(...row.slice(0, size).map(sizeOf));
    return row.map((cell) => scaled(cell, 1 / (largest || 1)));
  });
  for (let k = 0; k < size; k++) {
    const sizes = left.map((row, r) => (r < k ? -1 : sizeOf(row[k] as Complex)));
    const largest = sizes.indexOf(Math.max(...sizes));
    if ((sizes[largest] ?? 0) < 1e-12) return null;
    const pivot = left[largest] as Complex[];
    left[largest] = left[k] as Complex[];
    left[k] = pivot;
    for (let r = 0; r < size; r++) {
      const row = left[r] as Complex[];
      const factor = over(row[k] as Complex, pivot[k] as Complex);
      if (r === k || sizeOf(factor) === 0) continue;
      for (let c = k; c <= size; c++) row[c] = minus(row[c] as Complex, times(factor, pivot[c] as Complex));
    }
  }
  return left.map((row, k) => over(row[size] as Complex, row[k] as Complex));
}
