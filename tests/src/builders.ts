import { type Board, boardFromFile, circuitOf } from "../../shared/board";
import { readCircuitFile } from "../../shared/circuit";
import { EXAMPLES } from "../../shared/examples";
import { solveReport } from "../../shared/solve";
import { buildFigure, type Figure, type FigureView } from "../../src/figure";
import { sourceAccents } from "../../src/sum";

/** The board of an example. */
export function exampleBoard(id: string): Board {
  const file = readCircuitFile(EXAMPLES.find((example) => example.id === id)?.json);
  const board = file.ok ? boardFromFile(file.value) : null;
  if (!board) throw new Error(`the example ${id} has no drawing`);
  return board;
}

export function reportOf(board: Board) {
  return solveReport(circuitOf(board).circuit);
}

/** A figure of a board, as the page shows it with all sources acting and no values written. */
export function figureOf(board: Board, more: Partial<FigureView> = {}): Figure {
  const circuit = circuitOf(board);
  return buildFigure(board, {
    acting: null,
    accents: sourceAccents(board),
    primes: [],
    wantedNames: new Map(),
    focus: circuit.wantedEntries[0] ?? null,
    hasLabels: true,
    nodeAt: circuit.nodeAt,
    voltages: null,
    currents: null,
    ...more,
  });
}
