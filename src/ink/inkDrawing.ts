import type { InkMark, InkNote } from "../../shared/board";
import { type Box, boxOfBoxes } from "../figure";
import { drawNotes, drawNotesNow } from "./drawNotes";
import type { Paper } from "./inkColours";
import { markBox } from "./inkPath";
import type { DrawnNote } from "./noteDrawing";
import { paintInk } from "./paintInk";
import { paintNotes } from "./paintNotes";

/** Ink as it leaves the page: marks, and those of them that are notes taken apart. */
export type InkDrawing = { readonly marks: readonly InkMark[]; readonly notes: readonly DrawnNote[] };

export const NO_INK_DRAWING: InkDrawing = { marks: [], notes: [] };

/** Ink to be saved, once all that its notes are set in has come. */
export async function drawInk(marks: readonly InkMark[], paper: Paper): Promise<InkDrawing> {
  return { marks, notes: await drawNotes(notesOf(marks), paper) };
}

/** Ink to be printed, with what has come already. */
export function drawInkNow(marks: readonly InkMark[], paper: Paper): InkDrawing {
  return { marks, notes: drawNotesNow(notesOf(marks), paper) };
}

function notesOf(marks: readonly InkMark[]): readonly InkNote[] {
  return marks.filter((mark) => mark.kind === "note");
}

/** The marks that lie beneath the circuit, and those that lie above it. */
export function layersOf(marks: readonly InkMark[]) {
  return {
    beneath: marks.filter((mark) => mark.kind === "highlighter"),
    above: marks.filter((mark) => mark.kind === "pen" || mark.kind === "arrow"),
  };
}

/** The box of all ink; null where there is none. */
export function inkBox({ marks, notes }: InkDrawing): Box | null {
  const lines = marks.filter((mark) => mark.kind !== "note");
  const boxes = [...lines.map(markBox), ...notes.map((note) => note.box)];
  return boxes.length === 0 ? null : boxOfBoxes(boxes);
}

/** Paints what lies beneath the circuit, on a canvas whose transform is that of the drawing. */
export function paintInkBeneath(context: CanvasRenderingContext2D, ink: InkDrawing, paper: Paper): void {
  const box = inkBox(ink);
  if (box) paintInk(context, layersOf(ink.marks).beneath, box, paper, new WeakMap());
}

/** Paints what lies above the circuit. */
export function paintInkAbove(context: CanvasRenderingContext2D, ink: InkDrawing, paper: Paper): void {
  const box = inkBox(ink);
  if (!box) return;
  paintInk(context, layersOf(ink.marks).above, box, paper, new WeakMap());
  paintNotes(context, ink.notes);
}
