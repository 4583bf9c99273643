import { type Board, type BoardCircuit, circuitOf, fileFromBoard } from "../../shared/board";
import type { Circuit, Part } from "../../shared/circuit";
import { buildFigure, type Figure, type FigureView, laidOutBoard } from "../figure";

type Drawn = Pick<FigureView, "accents" | "primes" | "focus" | "symbols" | "voltages" | "currents"> & {
  /** Names of the sources that act. */
  readonly acting: ReadonlySet<string>;
  /** The names of the wanted quantities, in the circuit's order. */
  readonly wantedNames: readonly string[];
};

/** The figure of a board that was laid out for one addend, with that board's own entries. */
export type Redrawn = { readonly figure: Figure; readonly board: Board; readonly circuit: BoardCircuit };

/**
 * The circuit of one addend drawn anew and tidily: a zeroed voltage source is plain wire, a zeroed current source is
 * gone, and the rest stands in the order in which it stands on the board. Null where there is nothing to draw.
 */
export function redrawnFigure(board: Board, circuit: BoardCircuit, view: Drawn): Redrawn | null {
  const left = addendCircuit(circuit.circuit, view.acting);
  const like = fileFromBoard(board).drawing;
  const hasValues = view.voltages !== null || view.currents !== null;
  const redrawn = laidOutBoard(left, { like, hasValues });
  if (redrawn === null) return null;
  const place = view.focus === null ? -1 : circuit.wantedEntries.indexOf(view.focus);
  const kept = keptWanted(circuit.circuit, left);
  const read = circuitOf(redrawn);
  const figure = buildFigure(redrawn, {
    ...view,
    focus: redrawn.wanted[kept.indexOf(place)]?.id ?? null,
    wantedNames: new Map(redrawn.wanted.map(({ id }, i) => [id, view.wantedNames[kept[i] as number] ?? ""])),
    nodeAt: read.nodeAt,
    hasLabels: true,
  });
  return { figure, board: redrawn, circuit: read };
}

/** The circuit with all other independent sources replaced by what zeroing makes of them. */
export function addendCircuit(circuit: Circuit, acting: ReadonlySet<string>): Circuit {
  const parts = circuit.parts.flatMap((part): Part[] => {
    if (acting.has(part.id)) return [part];
    if (part.kind === "current-source") return [];
    if (part.kind === "voltage-source") {
      return part.plus === part.minus ? [] : [{ kind: "wire", id: part.id, plus: part.plus, minus: part.minus }];
    }
    return [part];
  });
  const ids = new Set(parts.map((part) => part.id));
  const wanted = circuit.wanted.filter((each) => {
    if (each.kind === "current") return ids.has(each.through);
    return each.kind !== "power" || ids.has(each.of);
  });
  return { ...circuit, parts, wanted };
}

/** For each wanted quantity of the addend's circuit its place in the whole one's list. */
function keptWanted(whole: Circuit, left: Circuit): number[] {
  return left.wanted.map((each) => whole.wanted.indexOf(each));
}
