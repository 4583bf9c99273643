import type { Line, MathText } from "../../shared/derive";
import type { MathSetter } from "../math";
import type { EquationOrder } from "../settings";
import { type EquationRow, equationRows, matrixOf, pieceLatex, rowMath } from "./equationRows";

/** How lines can be copied. */
export type CopyFormat = "latex" | "text" | "mathml";
export const COPY_FORMATS: readonly { readonly format: CopyFormat; readonly word: string }[] = [
  { format: "latex", word: "LaTeX" },
  { format: "text", word: "Plain text" },
  { format: "mathml", word: "MathML" },
];

/** The rows of a line, its matrices first. */
export function rowsOf(line: Line, order: EquationOrder): readonly EquationRow[] {
  const matrix = matrixOf(line);
  const system: readonly EquationRow[] =
    matrix === null ? [] : [{ left: null, pieces: [{ sign: null, math: matrix }], role: "matrix" }];
  return [...system, ...line.equations.flatMap((equation) => equationRows(equation, order))];
}

/** A line's mathematics as one formula, null where it has none: aligned at the first sign where it has several rows. */
export function lineMath(line: Line, order: EquationOrder): MathText | null {
  const rows = rowsOf(line, order);
  const [only, ...others] = rows;
  if (only === undefined) return null;
  if (others.length === 0) return rowMath(only);
  const aligned = rows.map(({ left, pieces }) => `${left?.latex ?? ""} & ${pieces.map(pieceLatex).join(" ")}`.trim());
  return {
    text: rows.map((row) => rowMath(row).text).join("\n"),
    latex: `\\begin{aligned} ${aligned.join(" \\\\ ")} \\end{aligned}`,
  };
}

/** One line for the clipboard: in LaTeX and MathML its mathematics alone, or its sentence where it has none. */
export function copiedLine(line: Line, format: CopyFormat, order: EquationOrder, set: MathSetter): string {
  const math = lineMath(line, order);
  switch (format) {
    case "text":
      return math === null ? line.sentence : `${line.sentence}\n${math.text}`;
    case "latex":
      return math?.latex ?? latexProse(line.sentence);
    case "mathml":
      return mathml(math?.latex ?? `\\text{${latexProse(line.sentence)}}`, set);
  }
}

/** Several lines, numbered, with their sentences. */
export function copiedLines(lines: readonly Line[], format: CopyFormat, order: EquationOrder, set: MathSetter): string {
  const each = lines.map((line) => ({ line, math: lineMath(line, order) }));
  switch (format) {
    case "text":
      return each.map(({ line, math }, i) => `${i + 1}. ${line.sentence}${math ? indented(math.text) : ""}`).join("\n");
    case "latex":
      return [
        "\\begin{enumerate}",
        ...each.map(({ line, math }) => {
          return `  \\item ${latexProse(line.sentence)}${math ? `\n  \\[ ${math.latex} \\]` : ""}`;
        }),
        "\\end{enumerate}",
      ].join("\n");
    case "mathml":
      return [
        "<ol>",
        ...each.map(({ line, math }) => {
          return `  <li><p>${escaped(line.sentence)}</p>${math ? mathml(math.latex, set) : ""}</li>`;
        }),
        "</ol>",
      ].join("\n");
  }
}

const indented = (text: string) =>
  text
    .split("\n")
    .map((row) => `\n   ${row}`)
    .join("");

/** The `math` element alone, without the source that KaTeX keeps in it. */
function mathml(latex: string, set: MathSetter): string {
  const element = /<math[\s\S]*<\/math>/.exec(set(latex, "mathml"))?.[0] ?? "";
  return element.replace(/<annotation[\s\S]*?<\/annotation>/g, "").replace(/<\/?semantics>/g, "");
}

const SIGNS: Readonly<Record<string, string>> = {
  "\\": "\\textbackslash{}",
  "~": "\\textasciitilde{}",
  "^": "\\textasciicircum{}",
  "−": "$-$",
  Ω: "$\\Omega$",
  ω: "$\\omega$",
  µ: "$\\mu$",
  π: "$\\pi$",
  Δ: "$\\Delta$",
  "∠": "$\\angle$",
  "°": "$^{\\circ}$",
  "·": "$\\cdot$",
  "×": "$\\times$",
  "≈": "$\\approx$",
  "′": "$'$",
  "″": "$''$",
  "‴": "$'''$",
  "∥": "$\\parallel$",
  "²": "$^2$",
};

/** A sentence as LaTeX text, its signs by their commands, so that any engine sets it. */
export function latexProse(sentence: string): string {
  return sentence.replace(/[\\{}$&#^_%~−ΩωµπΔ∠°·×≈′″‴∥²]/g, (sign) => SIGNS[sign] ?? `\\${sign}`);
}

function escaped(text: string): string {
  return text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;");
}

/** A line as it is read aloud when it comes. */
export function spokenLine(line: Line, number: number, order: EquationOrder): string {
  const math = lineMath(line, order)?.text.replace(/\n/g, "; ");
  return `Line ${number}: ${line.sentence}${math ? ` ${math}` : ""}`;
}
