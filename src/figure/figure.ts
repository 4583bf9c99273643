import type { EntryId } from "../../shared/board";

/** Pixels between two grid points at scale 1. All lengths of a figure are in these pixels. */
export const GRID = 24;

export type Spot = { readonly x: number; readonly y: number };
export type Box = { readonly x: number; readonly y: number; readonly width: number; readonly height: number };

/** What a line or a text is about; the theme gives each its colour. A number is the accent of a source. */
export type Tone = "ink" | "soft" | "faint" | "problem" | "chosen" | number;

/** A line or filled shape, as SVG path data. */
export type Stroke = {
  readonly path: string;
  readonly tone: Tone;
  readonly weight: number;
  readonly dash: readonly number[];
  /** "none": line only; "paper": filled with the paper, to cover what lies below; "tone": filled with its colour. */
  readonly fill: "none" | "paper" | "tone";
};

/** A piece of text in one style. "symbol" is a letter symbol, set in italics; "index" its subscript. */
export type Run = { readonly text: string; readonly style: "plain" | "bold" | "symbol" | "index" };

/** One to three lines of text whose anchor is the middle of the near side: `align` says which. */
export type Label = {
  readonly lines: readonly (readonly Run[])[];
  readonly box: Box;
  readonly align: "start" | "middle" | "end";
  readonly size: number;
  readonly tone: Tone;
  /** The entry that the label belongs to, null where it belongs to none. */
  readonly entry: EntryId | null;
};

/** A drawing of a circuit, ready for any renderer: strokes from back to front, then labels. */
export type Figure = {
  readonly strokes: readonly Stroke[];
  readonly labels: readonly Label[];
  readonly extent: Box;
  /** Where each entry of the board is drawn, without its label. */
  readonly bodies: ReadonlyMap<EntryId, Box>;
  /** Arrows, and the signs beside parts and points. */
  readonly marks: readonly Box[];
  /** Everything that something laid over the drawing should leave free: bodies, wires, leads and labels. */
  readonly covered: readonly Box[];
};

export function stroke(path: string, tone: Tone = "ink", weight = 2, more: Partial<Stroke> = {}): Stroke {
  return { path, tone, weight, dash: [], fill: "none", ...more };
}
