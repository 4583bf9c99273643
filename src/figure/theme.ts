import { ACCENTS } from "./accents";
import type { Tone } from "./figure";

/** The colours of one kind of paper. */
export type Paper = {
  readonly sheet: string;
  readonly page: string;
  readonly ink: string;
  readonly soft: string;
  readonly faint: string;
  readonly problem: string;
  readonly dot: string;
  readonly chosen: string;
  /** Of the sources, in the order of {@link ACCENTS}. */
  readonly accents: readonly string[];
};

export type PaperName = "light" | "dark";

/**
 * Light and dark paper. Ink, soft, problem and the accents are at least 4.5:1 on the sheet; faint is for traces that
 * carry no meaning alone. `tokens.css` gives the page the same colours as variables.
 */
export const PAPERS: Readonly<Record<PaperName, Paper>> = {
  light: {
    sheet: "#fffefb",
    page: "#f7f4ec",
    ink: "#1d2530",
    soft: "#566170",
    faint: "#8f8b80",
    problem: "#a3211b",
    dot: "#cfcabc",
    chosen: "#fff3cf",
    accents: ACCENTS.map((accent) => accent.colour),
  },
  dark: {
    sheet: "#181d24",
    page: "#11151a",
    ink: "#ece7da",
    soft: "#a9b0ba",
    faint: "#777d85",
    problem: "#ff9a8d",
    dot: "#3d444e",
    chosen: "#3a3422",
    accents: ACCENTS.map((accent) => accent.onDark),
  },
};

/** Light paper, for what leaves the page. */
export const PAPER = PAPERS.light;

/** The colour of a tone where no variables are known: on a canvas, in a file. */
export function toneColour(tone: Tone, paper: Paper): string {
  return typeof tone === "number" ? (paper.accents[tone % paper.accents.length] as string) : paper[tone];
}

/** The colour of a tone as a variable of the page, so that it follows the paper and the printer by itself. */
export function toneVariable(tone: Tone): string {
  return typeof tone === "number" ? `var(--accent-${(tone % ACCENTS.length) + 1})` : `var(--${tone})`;
}
