import { entryId, type InkMark, type InkNote } from "../../shared/board";
import type { Box, Spot } from "../figure";
import { loadMathSetter, type MathSetter, mathSetterNow } from "../math";
import styles from "./ink.module.css";
import { inkShade, type Paper } from "./inkColours";
import { markBox, pixelSpot } from "./inkPath";
import { mathRuns } from "./mathRuns";
import { type DrawnNote, noteBox } from "./noteDrawing";
import { readPieces } from "./readNote";

/** Notes taken apart, once their mathematics and its fonts have come. Without KaTeX a formula is its source. */
export async function drawNotes(notes: readonly InkNote[], paper: Paper): Promise<readonly DrawnNote[]> {
  if (notes.length === 0) return [];
  const hasMath = notes.some(({ text }) => mathRuns(text).some((run) => run.kind === "math"));
  const place = mounted(notes, paper, hasMath ? await loadMathSetter() : null);
  try {
    // A font is asked for when something is set in it.
    place.getBoundingClientRect();
    await document.fonts.ready;
    return read(place, notes);
  } finally {
    place.remove();
  }
}

/** Notes taken apart at once, with what has come already: what stands on the board has. */
export function drawNotesNow(notes: readonly InkNote[], paper: Paper): readonly DrawnNote[] {
  if (notes.length === 0) return [];
  const place = mounted(notes, paper, mathSetterNow());
  const drawn = read(place, notes);
  place.remove();
  return drawn;
}

/** The size in pixels that a note of these words has on the unzoomed board, with what has come already. */
export function noteSize(text: string): { readonly width: number; readonly height: number } {
  const note: InkNote = { kind: "note", id: entryId(""), colour: "ink", card: [], at: { x: 0, y: 0 }, text };
  const place = mounted([note], "light", mathSetterNow());
  const element = place.querySelector("li");
  const { width, height } = element?.getBoundingClientRect() ?? { width: 0, height: 0 };
  // A formula that cannot break may stand out of the note's width.
  const size = { width: Math.max(width, element?.scrollWidth ?? 0), height };
  place.remove();
  return size;
}

/** The box of a mark in pixels of the drawing, that of a note with what has come already. */
export function boxOfMark(mark: InkMark): Box {
  return mark.kind === "note" ? { ...pixelSpot(mark.at), ...noteSize(mark.text) } : markBox(mark);
}

/** The notes as the board shows them, at scale 1 and out of sight. */
function mounted(notes: readonly InkNote[], paper: Paper, set: MathSetter | null): HTMLElement {
  const place = document.createElement("div");
  place.style.cssText = "position:fixed;left:0;top:0;visibility:hidden;pointer-events:none";
  place.setAttribute("aria-hidden", "true");
  const list = document.createElement("ul");
  list.className = styles.notes ?? "";
  list.append(...notes.map((note) => noteElement(note, paper, set)));
  place.append(list);
  document.body.append(place);
  return place;
}

function noteElement(note: InkNote, paper: Paper, set: MathSetter | null): HTMLElement {
  const element = document.createElement("li");
  element.style.color = inkShade(note.colour, paper);
  for (const run of mathRuns(note.text)) {
    const piece = document.createElement("span");
    // KaTeX escapes what it is given, and is told to trust nothing.
    if (run.kind === "math" && set) piece.innerHTML = set(run.text, "htmlAndMathml");
    else piece.textContent = run.text;
    element.append(piece);
  }
  return element;
}

function read(place: HTMLElement, notes: readonly InkNote[]): readonly DrawnNote[] {
  const elements = place.querySelectorAll<HTMLElement>(":scope > ul > li");
  return notes.flatMap((note, i) => {
    const element = elements[i];
    return element ? [drawnNote(note, element, pixelSpot(note.at))] : [];
  });
}

function drawnNote(note: InkNote, element: HTMLElement, at: Spot): DrawnNote {
  const { width, height } = element.getBoundingClientRect();
  const pieces = readPieces(element, at);
  return { note, pieces, box: noteBox({ ...at, width, height }, pieces) };
}
