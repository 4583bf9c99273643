import { accept, type Cursor, refuse, restOf, take } from "./cursor";
import type { Reading } from "./problem";
import { divide, isZero, multiply, negate, type Rational, rational } from "./rational";

/** Most digits in one number, and largest power of ten either way: text must not be able to make giant integers. */
export const DIGIT_LIMIT = 40;
export const EXPONENT_LIMIT = 30;

const SIGN = /([+-]) ?/y;
// Digits with at most one space, point or comma between two of them; which of these make sense is decided afterwards.
const DIGIT_RUN = /[.,]?\d(?:[ .,]?\d)*\.?/y;
const SLASH = / ?\/ ?/y;
const E_NOTATION = /[eE]([+-]?\d+)/y;
const TIMES_POWER = / ?[×·*] ?10(?:\^\(?([+-]?\d+)\)?|([⁺⁻]?[⁰¹²³⁴-⁹]+))/y;
const POWER_OF_TEN = /10(?:\^\(?([+-]?\d+)\)?|([⁺⁻]?[⁰¹²³⁴-⁹]+))/y;
const SUPERSCRIPTS = "⁰¹²³⁴⁵⁶⁷⁸⁹";

/**
 * Reads one exact number: `3.3`, `3,3`, `12 000`, `1/3`, `2.2e3`, `2.2 × 10³`, `10^3`, each with a sign.
 * Problems: notANumber, ambiguousComma, severalMarks, digitGroups, zeroDenominator, tooManyDigits, exponentTooLarge.
 */
export function readNumber(cursor: Cursor): Reading<Rational> {
  const isNegative = readSign(cursor);
  const magnitude = readMagnitude(cursor);
  if (!magnitude.ok) return magnitude;
  return isNegative ? accept(negate(magnitude.value)) : magnitude;
}

/** Moves past a sign; true where it is a minus. */
export function readSign(cursor: Cursor): boolean {
  return take(cursor, SIGN)?.[1] === "-";
}

/** {@link readNumber} where no sign may come first. */
export function readMagnitude(cursor: Cursor): Reading<Rational> {
  const power = take(cursor, POWER_OF_TEN);
  if (power) return scaledByPower(cursor, { n: 1n, d: 1n }, power);
  const numerator = readDecimal(cursor);
  if (!numerator.ok) return numerator;
  const exponent = take(cursor, E_NOTATION);
  if (exponent) return scaledByPower(cursor, numerator.value, exponent);
  const fraction = readDenominator(cursor, numerator.value);
  if (!fraction.ok) return fraction;
  const factor = take(cursor, TIMES_POWER);
  return factor ? scaledByPower(cursor, fraction.value, factor) : fraction;
}

function readDenominator(cursor: Cursor, numerator: Rational): Reading<Rational> {
  if (!take(cursor, SLASH)) return accept(numerator);
  const denominator = readDecimal(cursor);
  if (!denominator.ok) return denominator;
  if (isZero(denominator.value)) return refuse(cursor, { code: "zeroDenominator" });
  return accept(divide(numerator, denominator.value));
}

/** `match` holds the exponent in ASCII (group 1) or in superscripts (group 2). */
function scaledByPower(cursor: Cursor, value: Rational, match: RegExpExecArray): Reading<Rational> {
  const exponent = Number(match[1] ?? plainDigits(match[2] ?? ""));
  if (Math.abs(exponent) > EXPONENT_LIMIT) {
    return refuse(cursor, { code: "exponentTooLarge", limit: EXPONENT_LIMIT });
  }
  return accept(scaleByTen(value, exponent));
}

/** `⁻³` as `-3`. */
export function plainDigits(superscripts: string): string {
  return superscripts
    .replace("⁻", "-")
    .replace("⁺", "+")
    .replace(/[⁰¹²³⁴-⁹]/g, (digit) => `${SUPERSCRIPTS.indexOf(digit)}`);
}

/** value · 10^power. */
export function scaleByTen(value: Rational, power: number): Rational {
  if (power === 0 || value.n === 0n) return value;
  return power > 0
    ? multiply(value, { n: 10n ** BigInt(power), d: 1n })
    : rational(value.n, value.d * 10n ** BigInt(-power));
}

function readDecimal(cursor: Cursor): Reading<Rational> {
  const run = take(cursor, DIGIT_RUN)?.[0];
  if (run === undefined) return refuse(cursor, { code: "notANumber", found: restOf(cursor) });
  if (run.length > DIGIT_LIMIT && run.replace(/\D/g, "").length > DIGIT_LIMIT) {
    return refuse(cursor, { code: "tooManyDigits", limit: DIGIT_LIMIT });
  }
  const mark = run.search(/[.,]/);
  if (mark === -1 && !run.includes(" ")) return accept({ n: BigInt(run), d: 1n });
  return decimalFrom(cursor, run, mark === -1 ? run.length : mark);
}

/** The number that a run of digits with its first point or comma at `mark` stands for. */
function decimalFrom(cursor: Cursor, run: string, mark: number): Reading<Rational> {
  const whole = run.slice(0, mark);
  const fraction = run.slice(mark + 1);
  if (/[.,]/.test(fraction)) return refuse(cursor, { code: "severalMarks", found: run });
  // A group of thousands never starts with 0 and has at most three digits before it: 0,125 and 1234,567 are clear.
  if (run[mark] === "," && /^[1-9]\d{0,2}$/.test(whole) && /^\d{3}$/.test(fraction)) {
    return refuse(cursor, { code: "ambiguousComma", found: run });
  }
  if (!areGroups(whole, /^\d{1,3}(?: \d{3})+$/) || !areGroups(fraction, /^(?:\d{3} )+\d{1,3}$/)) {
    return refuse(cursor, { code: "digitGroups", found: run });
  }
  const digits = BigInt((whole + fraction).replaceAll(" ", ""));
  return accept(rational(digits, 10n ** BigInt(fraction.replaceAll(" ", "").length)));
}

function areGroups(digits: string, groups: RegExp): boolean {
  return !digits.includes(" ") || groups.test(digits);
}
