import type { Equation, Line, MathText } from "../../shared/derive";
import { latexOfFigures } from "../../shared/derive/figuresLatex";
import type { EquationOrder } from "../settings";

/** A piece of a chain that can stand on a row of its own: what it is, behind the sign that joins it to the one before. */
export type Piece = { readonly sign: "=" | "≈" | null; readonly math: MathText };

/**
 * One row of an equation: `left` and the chain that follows it. "by" is a row that says by which formula, written
 * smaller beneath the numbers; a "matrix" is never broken.
 */
export type EquationRow = {
  readonly left: MathText | null;
  readonly pieces: readonly Piece[];
  readonly role: "main" | "by" | "matrix";
};

/** Longer fractions tell a reader nothing. */
const LONGEST_FRACTION = 14;

/**
 * An equation as rows. Symbols first, it is one chain: left = symbols = numbers = result. Numbers first, the chain goes
 * without the symbols, and the formula stands beneath.
 */
export function equationRows(equation: Equation, order: EquationOrder): readonly EquationRow[] {
  const { left, numbers } = equation;
  const formula: Piece = { sign: "=", math: equation.symbols ?? ZERO };
  if (equation.result === null) {
    // Both sides may be long, so they are one piece that breaks where it must.
    const named = whole(rowMath({ left, pieces: [formula], role: "main" }));
    if (numbers === null) return [named];
    const put = whole(numbers);
    return order === "symbols" ? [named, put] : [put, { ...named, role: "by" }];
  }
  const symbols = equation.symbols === null ? [] : [formula];
  const put: readonly Piece[] = numbers === null ? [] : [{ sign: equation.numbersMark, math: numbers }];
  const result: Piece = { sign: equation.result.mark, math: resultMath(equation) };
  if (order === "symbols" || put.length === 0 || symbols.length === 0) {
    return [{ left, pieces: [...symbols, ...put, result], role: "main" }];
  }
  return [
    { left, pieces: [...put, result], role: "main" },
    { left, pieces: symbols, role: "by" },
  ];
}

const whole = (math: MathText): EquationRow => ({ left: null, pieces: [{ sign: null, math }], role: "main" });

const ZERO: MathText = { text: "0", latex: "0" };

/** The result with its unit; a rounded one with the exact fraction behind it, where that is short. */
function resultMath({ result, unit }: Equation): MathText {
  const text = result?.text ?? "";
  const latex = latexOfFigures(text);
  const exact = result?.mark === "≈" ? result.exact : null;
  if (exact === null || exact.length > LONGEST_FRACTION) return { text, latex };
  const fraction = `${exact.replace("-", "−")} ${unit}`;
  return { text: `${text} (${fraction})`, latex: `${latex} \\;\\left(${latexOfFigures(fraction)}\\right)` };
}

/** A whole row as one formula. */
export function rowMath({ left, pieces }: EquationRow): MathText {
  const start = left ?? { text: "", latex: "" };
  return {
    text: [start.text, ...pieces.map(({ sign, math }) => (sign ? `${sign} ${math.text}` : math.text))].join(" ").trim(),
    latex: [start.latex, ...pieces.map(pieceLatex)].join(" ").trim(),
  };
}

/** A piece with its sign, spaced as between two sides also where it begins a row. */
export function pieceLatex({ sign, math }: Piece): string {
  if (sign === null) return math.latex;
  return `${sign === "=" ? "{}=" : "{}\\approx"} ${math.latex}`;
}

/** The system of equations that a line solves, as matrices; null for other lines. */
export function matrixOf({ rule }: Line): MathText | null {
  return rule.kind === "solution" ? rule.matrix : null;
}
