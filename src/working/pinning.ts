import { type InkSpot, inkSpot, isNoteText } from "../../shared/board";
import type { Equation, Line } from "../../shared/derive";
import { type Box, GRID, growBox, isInside } from "../figure";
import { overlap } from "../figure/box";
import type { EquationOrder } from "../settings";
import { type EquationRow, equationRows, pieceLatex, rowMath } from "./equationRows";

/**
 * A line as the words of a note: its mathematics between dollar signs, a row an equation; where that is more than a note
 * holds, what the equations come to; without mathematics, its sentence. Null for what no note holds.
 */
export function noteText(line: Line, order: EquationOrder): string | null {
  const whole = line.equations.flatMap((equation) =>
    equationRows(equation, order).filter(({ role }) => role === "main"),
  );
  const short = line.equations.flatMap(outcome);
  const sentence = line.sentence.replace(/\$/g, "\\$");
  const texts = [rowsText(whole), rowsText(short), sentence];
  return texts.find(isNoteText) ?? null;
}

/** What an equation comes to: its left side and the result. */
function outcome(equation: Equation): readonly EquationRow[] {
  return equation.result === null ? [] : equationRows({ ...equation, symbols: null, numbers: null }, "symbols");
}

/** Characters that a note's width has room for; a longer chain goes on beneath, its signs one below the other. */
const ROW = 30;

function rowsText(rows: readonly EquationRow[]): string {
  return rows.map((row) => `$${chainLatex(row)}$`).join("\n");
}

function chainLatex(row: EquationRow): string {
  const { text, latex } = rowMath(row);
  if (row.pieces.length < 2 || text.length <= ROW) return `\\displaystyle ${latex}`;
  const chain = row.pieces.map((piece, i) => `${i === 0 ? (row.left?.latex ?? "") : ""} & ${pieceLatex(piece)}`.trim());
  return `\\begin{aligned} ${chain.join(" \\\\ ")} \\end{aligned}`;
}

export type NoteSize = { readonly width: number; readonly height: number };

/** How far a note stands off what is drawn, and how far around the drawing a place is looked for, in pixels. */
const CLEAR = 6;
const REACH = 14 * GRID;

/**
 * Where a note of this size covers nothing, nearest to what it speaks of; `seen` is the part of the board that is on the
 * screen, which is preferred. All in pixels of the unzoomed board. Below the drawing there is always room.
 */
export function placeForNote(size: NoteSize, about: Box, drawing: Box, covered: readonly Box[], seen: Box): InkSpot {
  const clear = covered.map((box) => growBox(box, CLEAR));
  const field = growBox(drawing, REACH);
  let best: { readonly x: number; readonly y: number; readonly cost: number } | null = null;
  for (let y = field.y - size.height; y <= field.y + field.height; y += GRID / 2) {
    for (let x = field.x - size.width; x <= field.x + field.width; x += GRID / 2) {
      const box = { x, y, ...size };
      const cost = distance(box, about) + (isWithin(box, seen) ? 0 : UNSEEN);
      if (best !== null && cost >= best.cost) continue;
      if (clear.every((each) => overlap(each, box) === 0)) best = { x, y, cost };
    }
  }
  const at = best ?? { x: drawing.x, y: Math.max(...covered.map((box) => box.y + box.height), drawing.y) + GRID };
  return inkSpot(at.x / GRID, at.y / GRID);
}

/** As much as a way of so many pixels. */
const UNSEEN = 4000;

function isWithin(box: Box, seen: Box): boolean {
  return isInside(box, seen) && isInside({ x: box.x + box.width, y: box.y + box.height }, seen);
}

/** Pixels between the middles of two boxes. */
function distance(a: Box, b: Box): number {
  return Math.hypot(a.x + a.width / 2 - b.x - b.width / 2, a.y + a.height / 2 - b.y - b.height / 2);
}
