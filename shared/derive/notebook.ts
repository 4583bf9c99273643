import type { UnitSymbol } from "../quantity";
import type { Arithmetic } from "../solve/arithmetic";
import { type Expr, evaluate } from "./expression";
import type { Derivation, Equation, Fault, Line, Rule, Sketch } from "./line";
import type { Name } from "./names";
import type { Numerals } from "./numerals";
import { type MathText, writeExpr } from "./writing";

/** An equation before it is written. `expected` is the solver's value of what stands on the left. */
export type Statement<T> = {
  readonly left: Name;
  readonly right: Expr<T>;
  readonly unit: UnitSymbol;
  readonly expected: T;
};

/** Two sides that are equal once the unknowns have their values. */
export type Balance<T> = { readonly left: Expr<T>; readonly right: Expr<T>; readonly unit: UnitSymbol };

type Text = {
  readonly rule: Rule;
  readonly sentence: string;
  readonly parts?: readonly string[];
  readonly nodes?: readonly string[];
};

/**
 * Where lines are written down. Each value is worked out from its own formula and held against the solver's before the
 * line is kept; what does not agree becomes a fault, and a notebook with faults is not shown.
 */
export class Notebook<T> {
  readonly faults: Fault[] = [];
  private readonly lines: Line[] = [];
  private readonly sketches: Sketch[] = [];
  readonly numerals: Numerals<T>;
  readonly arithmetic: Arithmetic<T>;
  private readonly where: string;
  private readonly standsFor = new Map<string, readonly string[]>();
  private readonly newNodes = new Set<string>();

  constructor(numerals: Numerals<T>, arithmetic: Arithmetic<T>, where: string) {
    this.numerals = numerals;
    this.arithmetic = arithmetic;
    this.where = where;
  }

  get length(): number {
    return this.lines.length;
  }

  /** A line of statements; `sketch` is the circuit as it stands after it. */
  state(text: Text, statements: readonly Statement<T>[], sketch: Sketch | null = null): void {
    this.keep(
      text,
      statements.map((statement) => this.stated(statement)),
      sketch,
    );
  }

  /** A line of equations still to be solved. */
  balance(text: Text, balances: readonly Balance<T>[]): void {
    this.keep(
      text,
      balances.map((balance) => this.balanced(balance)),
      null,
    );
  }

  /** From here on these names stand for parts of the first circuit, and these nodes are none of it. */
  adopt(standsFor: ReadonlyMap<string, readonly string[]>, newNodes: readonly string[]): void {
    for (const [name, of] of standsFor) this.standsFor.set(name, of);
    for (const node of newNodes) this.newNodes.add(node);
  }

  /** Names as those of the first circuit. */
  private real(parts: readonly string[]): string[] {
    return [...new Set(parts.flatMap((part) => this.standsFor.get(part) ?? [part]))];
  }

  private keep(text: Text, equations: readonly Equation[], sketch: Sketch | null): void {
    if (sketch !== null) {
      const elements = sketch.elements.map((element) => ({ ...element, of: this.real(element.of) }));
      this.sketches.push({ elements });
    }
    const { rule, sentence, parts = [], nodes = [] } = text;
    const place = sketch === null ? null : this.sketches.length - 1;
    this.lines.push({
      rule,
      equations,
      sentence,
      parts: this.real(parts),
      nodes: [...new Set(nodes)].filter((node) => !this.newNodes.has(node)),
      sketch: place,
    });
  }

  private stated({ left, right, unit, expected }: Statement<T>): Equation {
    const value = evaluate(right, this.arithmetic);
    if (!this.numerals.agree(value, expected, unit)) this.report(left.text, value, expected, unit);
    const result = this.numerals.shown(value, unit);
    const symbols = writeExpr(right, this.numerals, "symbols");
    const numbers = writeExpr(right, this.numerals, "numbers");
    const isNumber = right.kind === "quantity" && right.name === null;
    const isSaid = isNumber || numbers.text === symbols.text || numbers.text === result.text;
    return {
      left: mathOf(left),
      symbols: isNumber ? null : mathOf(symbols),
      numbers: isSaid ? null : mathOf(numbers),
      numbersMark: numbers.isExact ? "=" : "≈",
      result,
      unit,
    };
  }

  private balanced({ left, right, unit }: Balance<T>): Equation {
    const [a, b] = [evaluate(left, this.arithmetic), evaluate(right, this.arithmetic)];
    const symbols = this.sides(left, right, "symbols");
    if (!this.numerals.agree(a, b, unit)) this.report(`${symbols.left.text} = ${symbols.right.text}`, a, b, unit);
    const numbers = this.sides(left, right, "numbers");
    const isSame = numbers.left.text === symbols.left.text && numbers.right.text === symbols.right.text;
    const numbersMark = numbers.isExact ? "=" : "≈";
    const joined: MathText = {
      text: `${numbers.left.text} = ${numbers.right.text}`,
      latex: `${numbers.left.latex} = ${numbers.right.latex}`,
    };
    return {
      left: symbols.left,
      symbols: symbols.right,
      numbers: isSame ? null : joined,
      numbersMark,
      result: null,
      unit,
    };
  }

  private sides(left: Expr<T>, right: Expr<T>, writing: "symbols" | "numbers") {
    const [a, b] = [writeExpr(left, this.numerals, writing), writeExpr(right, this.numerals, writing)];
    return { left: mathOf(a), right: mathOf(b), isExact: a.isExact && b.isExact };
  }

  /** Something that should have worked did not. */
  fail(line: string, got: string, expected: string): void {
    this.faults.push({ where: this.where, line, got, expected });
  }

  private report(line: string, got: T, expected: T, unit: UnitSymbol): void {
    const text = (value: T): string => this.numerals.figure(value, unit).text;
    this.fail(line, text(got), text(expected));
  }

  /** What has been written so far. */
  derivation(): Derivation {
    const last = this.lines.at(-1)?.equations.at(-1)?.result ?? null;
    return { lines: this.lines, sketches: this.sketches, result: last, omitted: null };
  }
}

function mathOf({ text, latex }: MathText): MathText {
  return { text, latex };
}
