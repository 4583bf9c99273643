import { type Board, type BoardCircuit, circuitOf } from "../../../shared/board";
import {
  type Derivation,
  type Equation,
  type Line,
  type MathText,
  powerTableOf,
  workingsOf,
} from "../../../shared/derive";
import { EXAMPLES } from "../../../shared/examples";
import type { WorkingCard, Workings } from "../../../shared/messages";
import type { Shown } from "../../../shared/solve/report";
import { exampleBoard } from "../builders";

export const EXAMPLE_IDS = EXAMPLES.map(({ id }) => id);

/** An example with all that is derived of it. */
export function workedExample(id: string) {
  const board: Board = exampleBoard(id);
  const circuit: BoardCircuit = circuitOf(board);
  return { board, circuit, workings: workingsOf(circuit.circuit), powerTable: powerTableOf(circuit.circuit) };
}

/** Every derivation of an example: of its addends, its totals and its second methods. */
export function derivationsOf(id: string): readonly Derivation[] {
  return workedExample(id).workings.flatMap(({ addends, total, secondMethods }) => [
    ...addends.map(({ derivation }) => derivation),
    total,
    ...secondMethods.flatMap(({ derivation }) => derivation ?? []),
  ]);
}

export const math = (text: string, latex = text): MathText => ({ text, latex });

export function shown(text: string, more: Partial<Shown> = {}): Shown {
  return { exact: null, decimal: null, phasors: [], text, mark: "=", ...more };
}

/** `Iy′ = V1/R1 = 12 V/(4 Ω) = 3 A`, or what is said otherwise. */
export function equation(more: Partial<Equation> = {}): Equation {
  return {
    left: math("Iy′", "I_{y}'"),
    symbols: math("V1/R1", "\\frac{V_1}{R_1}"),
    numbers: math("12 V/(4 Ω)", "\\frac{12\\,\\mathrm{V}}{4\\,\\Omega}"),
    numbersMark: "=",
    result: shown("3 A"),
    unit: "A",
    ...more,
  };
}

export function line(more: Partial<Line> = {}): Line {
  return {
    rule: { kind: "ohm" },
    equations: [equation()],
    sentence: "Ohm's law for R1.",
    parts: ["R1"],
    nodes: [],
    sketch: null,
    ...more,
  };
}

/** A card of so many lines, of which some are shown; `isTold` where the page is told how many there are. */
export function card(name: string, all: number, shownLines: number, isTold = true): WorkingCard {
  const lines = Array.from({ length: isTold ? all : shownLines }, (_, i) => line({ sentence: `Line ${i + 1}.` }));
  const derivation = { lines, sketches: [], result: null, omitted: null };
  return { card: name, name: null, derivation, shownLines, lineCount: isTold ? all : null };
}

export function workingsWith(cards: readonly WorkingCard[], more: Partial<Workings> = {}): Workings {
  const working = { wanted: "Iy", kind: "current", unit: "A", cards, secondMethods: null };
  return { revision: 4, workings: [working], powerTable: null, failure: null, ...more };
}
