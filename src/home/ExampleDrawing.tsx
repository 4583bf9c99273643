import type { Board } from "../../shared/board";
import { circuitOf } from "../../shared/board/boardCircuit";
import { boardFromFile } from "../../shared/board/boardFile";
import { readCircuitFile } from "../../shared/circuit";
import { buildFigure, FigureSvg } from "../figure";

/** A small drawing of an example's circuit. Throws where our own example cannot be drawn. */
export function ExampleDrawing({ json, className }: { readonly json: unknown; readonly className: string }) {
  const file = readCircuitFile(json);
  const board = file.ok ? boardFromFile(file.value) : null;
  if (!board) throw new Error("an example has no readable drawing");
  return <FigureSvg figure={smallFigure(board)} weight={1.8} className={className} />;
}

function smallFigure(board: Board) {
  return buildFigure(board, {
    acting: null,
    accents: new Map(
      board.parts
        .filter((part) => part.kind === "voltage-source" || part.kind === "current-source")
        .map((part, i) => [part.name, i]),
    ),
    primes: [],
    wantedNames: new Map(),
    focus: null,
    hasLabels: false,
    nodeAt: circuitOf(board).nodeAt,
    voltages: null,
    currents: null,
  });
}
