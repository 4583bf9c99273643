import type { Box, Label, Run, Spot, Tone } from "./figure";
import { runWidth } from "./textWidth";

export const LINE_HEIGHT = 1.2;

/** Width and height that lines of text take. */
export function textSize(lines: readonly (readonly Run[])[], size: number): { width: number; height: number } {
  const widths = lines.map((runs) => runs.reduce((sum, run) => sum + runWidth(run, size), 0));
  return { width: Math.max(0, ...widths), height: lines.length * size * LINE_HEIGHT };
}

/** A place where a label may stand: the middle of its near side. */
export type Anchor = Spot & { readonly align: Label["align"] };

export function boxAt(anchor: Anchor, { width, height }: { width: number; height: number }): Box {
  const x = anchor.align === "start" ? anchor.x : anchor.align === "end" ? anchor.x - width : anchor.x - width / 2;
  return { x, y: anchor.y - height / 2, width, height };
}

export const plain = (text: string): Run => ({ text, style: "plain" });
export const bold = (text: string): Run => ({ text, style: "bold" });

const PRIMES = ["", "′", "″", "‴", "⁗"];

/** The mark of the n-th addend: one prime for the first, and so on; none for the total. */
export function primes(n: number): string {
  return PRIMES[n] ?? `⁽${[...String(n)].map((digit) => "⁰¹²³⁴⁵⁶⁷⁸⁹"[Number(digit)]).join("")}⁾`;
}

/** Longer values may be set with one term of their sum a line. */
const LONG = 20;

/** The ways to set a value: on one line, and, for a long sum, with a term a line. */
export function valueVariants(text: string): readonly (readonly (readonly Run[])[])[] {
  const terms = text.split(/ (?=[+−] )/u);
  const oneLine = [[plain(text)]];
  return text.length > LONG && terms.length > 1 ? [oneLine, terms.map((term) => [plain(term)])] : [oneLine];
}

/** A quantity's name as it is set: the letter symbol in italics, the rest as its index, then the addend's primes. */
export function symbolRuns(name: string, prime = 0): readonly Run[] {
  const [, letter = "", rest = ""] = /^(\p{L}?)_?(.*)$/u.exec(name) ?? [];
  const isIndex = rest !== "" && !rest.startsWith("(");
  const runs: Run[] = [
    { text: letter, style: "symbol" },
    { text: rest, style: isIndex ? "index" : "plain" },
    { text: primes(prime), style: "symbol" },
  ];
  return runs.filter((run) => run.text !== "");
}

/** The name of one addend, or of the sum of several: `Ix′ + Ix″`; of none: that of the total. */
export function addendRuns(name: string, numbers: readonly number[]): readonly Run[] {
  const [first = 0, ...others] = numbers;
  return [symbolRuns(name, first), ...others.map((number) => [plain(" + "), ...symbolRuns(name, number)])].flat();
}

export function label(lines: Label["lines"], box: Box, align: Label["align"], size: number, tone: Tone): Label {
  return { lines, box, align, size, tone, entry: null };
}
