import type { Token } from "./token";

/** The digits with which a number begins, and the mark in them. */
const DIGITS = /^[\d ]*[.,]?[\d ]*/;

/**
 * The significant figures that a single decimal number is written with, zeros at its end too: four for `−3.510 mA`. Null for
 * any other expression, and for a number without a decimal mark, whose last zeros may only tell its size.
 */
export function writtenFigures(tokens: readonly Token[]): number | null {
  const [number, ...others] = tokens.filter(isNumber);
  const isAlone = tokens.every((token) => token === number || isSignOrUnit(token));
  if (number === undefined || others.length > 0 || !isAlone) return null;
  const digits = DIGITS.exec(number.text)?.[0] ?? "";
  return /[.,]/.test(digits) ? digits.replace(/\D/g, "").replace(/^0+/, "").length : null;
}

function isNumber(token: Token): boolean {
  return token.kind === "operand" && (token.writing.as === "bare" || token.writing.as === "withUnit");
}

function isSignOrUnit(token: Token): boolean {
  if (token.kind === "sign") return token.sign === "+" || token.sign === "-";
  return token.kind === "operand" && token.writing.as === "unit";
}
