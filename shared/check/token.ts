import type { Rational } from "../quantity";
import type { Value } from "./value";

/** The only functions that an expression may use. */
export const FUNCTIONS = ["sqrt", "sin", "cos", "abs", "conj"] as const;
export type FunctionName = (typeof FUNCTIONS)[number];

/** One piece of an expression, with the text that it was read from. */
export type Token = { readonly text: string } & (
  | Operand
  | { readonly kind: "call"; readonly name: FunctionName }
  | { readonly kind: "sign"; readonly sign: "+" | "-" | "*" | "/" | "∥" }
  /** "^" with the whole number behind it. */
  | { readonly kind: "power"; readonly exponent: number }
  | { readonly kind: "open" }
  | { readonly kind: "close" }
);

export type Operand = { readonly kind: "operand"; readonly value: Value; readonly writing: Writing };

/**
 * How a value was written: a bare number, `count` of a unit right behind it (7 in `7 mS`), a unit by itself as in
 * `(3/7) mS`, or anything else.
 */
export type Writing =
  | { readonly as: "bare" }
  | { readonly as: "withUnit"; readonly count: Rational }
  | { readonly as: "unit" }
  | { readonly as: "other" };

export const OTHER: Writing = { as: "other" };

/** Most pieces of one expression, and most parentheses inside one another: both keep parsing quick, whatever is sent. */
export const TOKEN_LIMIT = 120;
export const DEPTH_LIMIT = 24;
