import type { UnitSymbol } from "../quantity";
import { unreachable } from "../quantity";
import type { Arithmetic } from "../solve/arithmetic";
import type { Name } from "./names";
import type { Numerals } from "./numerals";

/**
 * A formula. A quantity has a value, and a name where it is a symbol; `unknown` is the key of one that equations are
 * solved for: it keeps its name where numbers are put in. Symbols and numbers are two writings of the one tree.
 */
export type Expr<T> =
  | {
      readonly kind: "quantity";
      readonly name: Name | null;
      readonly value: T;
      readonly unit: UnitSymbol;
      readonly unknown: string | null;
      /** The size of a phasor, written without an angle. */
      readonly isSize?: true;
    }
  | { readonly kind: "sum"; readonly terms: readonly SignedTerm<T>[] }
  | { readonly kind: "product"; readonly factors: readonly Expr<T>[] }
  | { readonly kind: "quotient"; readonly over: Expr<T>; readonly under: Expr<T> }
  | { readonly kind: "square"; readonly of: Expr<T> };
export type SignedTerm<T> = { readonly sign: 1 | -1; readonly of: Expr<T> };
export type QuantityExpr<T> = Extract<Expr<T>, { kind: "quantity" }>;

export function known<T>(name: Name | null, value: T, unit: UnitSymbol): QuantityExpr<T> {
  return { kind: "quantity", name, value, unit, unknown: null };
}

export function unknown<T>(key: string, name: Name, value: T, unit: UnitSymbol): QuantityExpr<T> {
  return { kind: "quantity", name, value, unit, unknown: key };
}

/** |I|, for a phasor I. */
export function sizeOf<T>({ name, value, unit }: QuantityExpr<T>, numerals: Numerals<T>): QuantityExpr<T> {
  const size = name && { text: `|${name.text}|`, latex: `\\left|${name.latex}\\right|` };
  return { ...known(size, numerals.size(value), unit), isSize: true };
}

/** Σ of terms; sums in sums are opened, and a lone term that counts positive stands for itself. */
export function sumOf<T>(terms: readonly SignedTerm<T>[]): Expr<T> {
  const open = terms.flatMap(({ sign, of }): SignedTerm<T>[] =>
    of.kind === "sum" ? of.terms.map((term) => ({ sign: (term.sign * sign) as 1 | -1, of: term.of })) : [{ sign, of }],
  );
  const [first, ...others] = open;
  return first?.sign === 1 && others.length === 0 ? first.of : { kind: "sum", terms: open };
}

export const plus = <T>(...of: readonly Expr<T>[]): Expr<T> => sumOf(of.map((each) => ({ sign: 1, of: each })));
export const minus = <T>(a: Expr<T>, b: Expr<T>): Expr<T> =>
  sumOf([
    { sign: 1, of: a },
    { sign: -1, of: b },
  ]);
export const negative = <T>(a: Expr<T>): Expr<T> => sumOf([{ sign: -1, of: a }]);
export const times = <T>(...factors: readonly Expr<T>[]): Expr<T> =>
  factors.length === 1 ? (factors[0] as Expr<T>) : { kind: "product", factors };
export const over = <T>(a: Expr<T>, b: Expr<T>): Expr<T> => ({ kind: "quotient", over: a, under: b });

export const square = <T>(of: Expr<T>): Expr<T> => ({ kind: "square", of });

/** The value of a formula. Throws where it divides by 0: rules are applied where they hold. */
export function evaluate<T>(expr: Expr<T>, arithmetic: Arithmetic<T>): T {
  switch (expr.kind) {
    case "quantity":
      return expr.value;
    case "sum":
      return expr.terms.reduce((total, { sign, of }) => {
        const value = evaluate(of, arithmetic);
        return arithmetic.add(total, sign === 1 ? value : arithmetic.negate(value));
      }, arithmetic.zero);
    case "product":
      return expr.factors.reduce(
        (product, factor) => arithmetic.multiply(product, evaluate(factor, arithmetic)),
        arithmetic.one,
      );
    case "quotient": {
      const under = evaluate(expr.under, arithmetic);
      if (arithmetic.isZero(under)) throw new RangeError("evaluate: a formula divides by 0");
      return arithmetic.divide(evaluate(expr.over, arithmetic), under);
    }
    case "square": {
      const value = evaluate(expr.of, arithmetic);
      return arithmetic.multiply(value, value);
    }
    default:
      return unreachable(expr);
  }
}

/** Σ coefficient · unknown + constant. */
export type Form<T> = { readonly terms: ReadonlyMap<string, T>; readonly constant: T };

/** A formula as a linear form in its unknowns. Throws where it is not linear, which no law of a linear circuit is. */
export function formOf<T>(expr: Expr<T>, arithmetic: Arithmetic<T>): Form<T> {
  switch (expr.kind) {
    case "quantity":
      if (expr.unknown === null) return { terms: new Map(), constant: expr.value };
      return { terms: new Map([[expr.unknown, arithmetic.one]]), constant: arithmetic.zero };
    case "sum":
      return expr.terms.reduce<Form<T>>(
        (total, { sign, of }) => {
          const factor = sign === 1 ? arithmetic.one : arithmetic.negate(arithmetic.one);
          return addForms(total, scaled(formOf(of, arithmetic), factor, arithmetic), arithmetic);
        },
        { terms: new Map(), constant: arithmetic.zero },
      );
    case "product": {
      const forms = expr.factors.map((factor) => formOf(factor, arithmetic));
      const open = forms.filter(({ terms }) => terms.size > 0);
      if (open.length > 1) throw new Error("formOf: a product of unknowns is not linear");
      const factor = forms
        .filter(({ terms }) => terms.size === 0)
        .reduce((product, { constant }) => arithmetic.multiply(product, constant), arithmetic.one);
      return scaled(open[0] ?? { terms: new Map(), constant: arithmetic.one }, factor, arithmetic);
    }
    case "quotient": {
      const under = formOf(expr.under, arithmetic);
      if (under.terms.size > 0) throw new Error("formOf: a quotient by an unknown is not linear");
      const factor = arithmetic.divide(arithmetic.one, under.constant);
      return scaled(formOf(expr.over, arithmetic), factor, arithmetic);
    }
    case "square":
      throw new Error("formOf: a square is not linear");
    default:
      return unreachable(expr);
  }
}

function scaled<T>({ terms, constant }: Form<T>, factor: T, { multiply }: Arithmetic<T>): Form<T> {
  return {
    terms: new Map([...terms].map(([key, value]) => [key, multiply(value, factor)])),
    constant: multiply(constant, factor),
  };
}

function addForms<T>(a: Form<T>, b: Form<T>, arithmetic: Arithmetic<T>): Form<T> {
  const terms = new Map(a.terms);
  for (const [key, value] of b.terms) terms.set(key, arithmetic.add(terms.get(key) ?? arithmetic.zero, value));
  return { terms, constant: arithmetic.add(a.constant, b.constant) };
}
