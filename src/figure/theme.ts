import { accentOf } from "./accents";
import type { Tone } from "./figure";

/** Colours of light paper. Ink, soft and problem are at least 4.5:1 on the paper; faint is for traces that carry no meaning alone. */
export const PAPER = {
  sheet: "#fffefb",
  page: "#f7f4ec",
  ink: "#1d2530",
  soft: "#566170",
  faint: "#8f8b80",
  problem: "#a3211b",
  dot: "#cfcabc",
  margin: "#e3a593",
  chosen: "#fff3cf",
} as const;

export function toneColour(tone: Tone): string {
  return typeof tone === "number" ? accentOf(tone).colour : PAPER[tone];
}
