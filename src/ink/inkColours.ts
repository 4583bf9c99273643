import type { InkColour } from "../../shared/board";

/** An ink: its shade on light and on dark paper, each at least 4.5:1 there, since notes are text. */
export type Shade = { readonly light: string; readonly dark: string };

export const INK_SHADES: Readonly<Record<InkColour, Shade>> = {
  ink: { light: "#1d2530", dark: "#ece7da" },
  brown: { light: "#7a4522", dark: "#dba678" },
  violet: { light: "#5d3fa0", dark: "#bda8f2" },
  moss: { light: "#4c6115", dark: "#abc26a" },
  brick: { light: "#a3342c", dark: "#f29a8e" },
  sea: { light: "#0f6170", dark: "#72c5d4" },
};

/** How much of the paper a highlighter hides. */
export const HIGHLIGHTER_OPACITY = 0.28;
/** Widths of lines in pixels at scale 1. */
export const PEN_WIDTH = 2.6;
export const ARROW_WIDTH = 2.4;
export const HIGHLIGHTER_WIDTH = 16;

export type Paper = keyof Shade;

export function inkShade(colour: InkColour, paper: Paper): string {
  return INK_SHADES[colour][paper];
}
