import { unreachable } from "../quantity";
import type { Expr, SignedTerm } from "./expression";
import type { Numerals } from "./numerals";

/** Mathematics in plain text and in LaTeX. */
export type MathText = { readonly text: string; readonly latex: string };
/** With symbols alone, or with numbers put in for all that is known. */
export type Writing = "symbols" | "numbers";

/** A formula in plain text and LaTeX; `isExact` is false where a number in it is rounded. */
export function writeExpr<T>(
  expr: Expr<T>,
  numerals: Numerals<T>,
  writing: Writing,
): MathText & { readonly isExact: boolean } {
  const writer = new Writer(numerals, writing);
  return { text: writer.text(expr), latex: writer.latex(expr), isExact: writer.isExact };
}

class Writer<T> {
  isExact = true;
  private readonly numerals: Numerals<T>;
  private readonly writing: Writing;

  constructor(numerals: Numerals<T>, writing: Writing) {
    this.numerals = numerals;
    this.writing = writing;
  }

  text(expr: Expr<T>): string {
    switch (expr.kind) {
      case "quantity":
        return this.leaf(expr).text;
      case "sum":
        return this.sum(expr.terms, (of) => this.text(of), "−");
      case "product":
        return expr.factors.map((factor) => guard(this.text(factor), isLoose(factor))).join(" · ");
      case "quotient": {
        const under = this.text(expr.under);
        const isWhole = (expr.under.kind === "quantity" || expr.under.kind === "square") && !/[/ ]/.test(under);
        return `${this.over(expr.over)}/${isWhole ? under : `(${unwrapped(under)})`}`;
      }
      case "square":
        return `${guard(this.text(expr.of), isCompound(this.text(expr.of)))}²`;
      default:
        return unreachable(expr);
    }
  }

  latex(expr: Expr<T>): string {
    switch (expr.kind) {
      case "quantity":
        return this.leaf(expr).latex;
      case "sum":
        return this.sum(expr.terms, (of) => this.latex(of), "-");
      case "product":
        return expr.factors
          .map((factor) => guard(this.latex(factor), isLoose(factor), "\\left(", "\\right)"))
          .join(" \\cdot ");
      case "quotient":
        return `\\frac{${this.latex(expr.over)}}{${this.latex(expr.under)}}`;
      case "square":
        return `${guard(this.latex(expr.of), isCompound(this.text(expr.of)), "\\left(", "\\right)")}^{2}`;
      default:
        return unreachable(expr);
    }
  }

  /** What is divided: a minus sign alone needs no parentheses. */
  private over(expr: Expr<T>): string {
    const [only, ...others] = expr.kind === "sum" ? expr.terms : [];
    const isNegated = only !== undefined && others.length === 0 && only.of.kind === "quantity";
    if (isNegated) return `${only.sign === -1 ? "−" : ""}${guard(this.text(only.of), false)}`;
    return guard(this.text(expr), expr.kind === "sum" || expr.kind === "quotient");
  }

  /** A symbol, or a number that is known. */
  private leaf(expr: Extract<Expr<T>, { kind: "quantity" }>): MathText {
    const isSymbol = expr.name !== null && (this.writing === "symbols" || expr.unknown !== null);
    if (isSymbol && expr.name !== null) return expr.name;
    const { figure: write, sizeFigure } = this.numerals;
    const figure = expr.isSize ? sizeFigure(expr.value, expr.unit) : write(expr.value, expr.unit);
    if (!figure.isExact) this.isExact = false;
    return figure;
  }

  /** A number that is negative takes its sign into the sum. */
  private sum(terms: readonly SignedTerm<T>[], write: (of: Expr<T>) => string, dash: string): string {
    if (terms.length === 0) return "0";
    return terms
      .map(({ sign, of }, i) => {
        const written = write(of);
        const isNegative = (of.kind === "quantity" || of.kind === "quotient") && written.startsWith(dash);
        const body = bracketed(isNegative ? written.slice(1) : written, of.kind === "sum" || isPhasor(written));
        const isMinus = (sign === -1) !== isNegative;
        if (i === 0) return isMinus ? `${dash}${body}` : body;
        return ` ${isMinus ? dash : "+"} ${body}`;
      })
      .join("");
  }
}

/** Whether a square needs parentheses: a number with its unit, a fraction, a sum. */
const isCompound = (text: string): boolean => /[ /]/.test(text);

function isLoose(expr: Expr<unknown>): boolean {
  return expr.kind === "sum";
}

const isPhasor = (text: string): boolean => /∠|\\angle/.test(text) && !/^(\(|\\left\()/.test(text);

function bracketed(text: string, isOn: boolean): string {
  return isOn ? `(${text})` : text;
}

/** Parentheses around a sum, a negative number, a fraction of a number, or a phasor that stands among factors. */
function guard(text: string, isSum: boolean, open = "(", close = ")"): string {
  const isNegative = /^[−-]/.test(text);
  const isFraction = /^\d+\/\d+( |$)/.test(text) && open === "(";
  return isSum || isNegative || isPhasor(text) || isFraction ? `${open}${text}${close}` : text;
}

/** Without the parentheses that stand around the whole. */
function unwrapped(text: string): string {
  return /^\([^()]*\)$/.test(text) ? text.slice(1, -1) : text;
}
