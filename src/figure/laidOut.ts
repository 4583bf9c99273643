import { type Board, boardFromFile } from "../../shared/board";
import type { Circuit, Drawing } from "../../shared/circuit";
import { layOut } from "../../shared/layout";

type Options = { readonly like: Drawing | null; readonly hasValues?: boolean };

/** A circuit on a board of its own, drawn anew and tidily; null where it has nothing to draw. */
export function laidOutBoard(circuit: Circuit, options: Options): Board | null {
  if (circuit.parts.length === 0) return null;
  const drawing = layOut(circuit, options);
  return boardFromFile({ title: null, statement: null, circuit, drawing, unanswerable: [], groups: [] });
}
