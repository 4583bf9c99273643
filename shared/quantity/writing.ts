import { type Decimal, positional, roundDouble, roundToFigures } from "./decimal";
import { scaleByTen } from "./numberText";
import { absolute, isZero, type Rational } from "./rational";
import type { UnitSymbol } from "./unit";
import { PREFIX_POWERS, prefixOf, takesPrefix } from "./unitTable";

/** A number as people read it. The mark is "=" where `text` is the number itself, "≈" where it is rounded. */
export type Written = { readonly text: string; readonly mark: "=" | "≈" };
/** `digits`: significant figures, 4 where nothing is said; from 1 to 30. */
export type WriteOptions = { readonly digits?: number };

export const DEFAULT_DIGITS = 4;
const DIGITS_LIMIT = 30;
/** Figures of an exact decimal; where more would be needed a fraction says it better. */
const EXACT_FIGURES = 12;
const LARGEST_PREFIX = Math.max(...PREFIX_POWERS);
const SMALLEST_PREFIX = Math.min(...PREFIX_POWERS);
const SUPERSCRIPTS = "⁰¹²³⁴⁵⁶⁷⁸⁹";
export const MINUS = "−";

/**
 * `1.2 mA`, `−4.4 mA`, `4.7 kΩ`, `30°`, `0.25`: a number in figures of the SI Brochure (9th ed., 5.4.3), with the
 * prefix that leaves one to three digits before the point, a space before the unit (none before °) and a true minus.
 *
 * Rounded to `digits` significant figures, halves away from zero; zeros at the end are left out, so the mark and not
 * they say how exact the text is. Beyond the prefixes, powers of ten: `1.5 × 10¹⁸ Ω`. What is written with "=" and
 * lies between 10⁻³⁰ and 10³⁰ reads back as the same number. Throws RangeError for `digits` outside 1 to 30.
 */
export function writeQuantity(value: Rational, unit: UnitSymbol, options: WriteOptions = {}): Written {
  const decimal = roundToFigures(value, figuresOf(options));
  return { text: decimalText(decimal, unit), mark: decimal.isExact ? "=" : "≈" };
}

/**
 * {@link writeQuantity} for a double. The mark is always "≈". What round-off has left of a zero is for the caller to
 * judge. Throws RangeError for NaN and ±Infinity.
 */
export function writeNumber(value: number, unit: UnitSymbol, options: WriteOptions = {}): Written {
  return { text: decimalText(roundDouble(value, figuresOf(options)), unit), mark: "≈" };
}

/**
 * The exact number, always: a decimal where one of few figures does it (`12.5 mA`), else a fraction (`1/3 A`), or a
 * decimal of many figures where the fraction would be no shorter.
 */
export function writeExact(value: Rational, unit: UnitSymbol): string {
  const short = roundToFigures(value, EXACT_FIGURES);
  if (short.isExact) return decimalText(short, unit);
  const fraction = writeFraction(value, unit);
  const long = roundToFigures(value, DIGITS_LIMIT);
  return long.isExact && long.digits.length < fraction.length ? decimalText(long, unit) : fraction;
}

/** The exact number as a fraction in lowest terms with the prefix that makes it shortest: `3/7 mS`, `−1/3 A`, `12 V`. */
export function writeFraction(value: Rational, unit: UnitSymbol): string {
  const magnitude = absolute(value);
  const powers = takesPrefix(unit) && !isZero(value) ? PREFIX_POWERS : [0];
  const candidates = powers.map((power) => ({ power, scaled: scaleByTen(magnitude, -power) }));
  const [first, ...others] = candidates.map((candidate) => ({ ...candidate, cost: fractionCost(candidate) }));
  if (!first) throw new RangeError("writeFraction: no prefix to choose from");
  const { power, scaled } = others.reduce((best, other) => (other.cost < best.cost ? other : best), first);
  const number = scaled.d === 1n ? `${scaled.n}` : `${scaled.n}/${scaled.d}`;
  return (value.n < 0n ? MINUS : "") + number + unitTextOf(unit, power);
}

/** Length of the fraction; of equally short ones that between 1 and 1000 wins, then the one with the nearest prefix. */
function fractionCost({ power, scaled }: { power: number; scaled: Rational }): number {
  const length = `${scaled.n}`.length + (scaled.d === 1n ? 0 : `${scaled.d}`.length + 1);
  const isUsual = scaled.n >= scaled.d && scaled.n < 1000n * scaled.d;
  return length * 1000 + (isUsual ? 0 : 100) + Math.abs(power);
}

export function figuresOf({ digits = DEFAULT_DIGITS }: WriteOptions): number {
  if (!Number.isInteger(digits) || digits < 1 || digits > DIGITS_LIMIT) {
    throw new RangeError(`digits: a whole number from 1 to ${DIGITS_LIMIT} is wanted, got ${digits}`);
  }
  return digits;
}

function decimalText(decimal: Decimal, unit: UnitSymbol): string {
  const { number, unitText } = decimalParts(decimal, unit);
  return number + unitText;
}

/** The number and, with the space before it, the unit: apart, since `cos(10 t)` may come between them. */
export function decimalParts(
  decimal: Decimal,
  unit: UnitSymbol,
): { readonly number: string; readonly unitText: string } {
  const { digits, exponent, isNegative } = decimal;
  if (digits === "") return { number: "0", unitText: unitTextOf(unit, 0) };
  const sign = isNegative ? MINUS : "";
  const power = takesPrefix(unit) ? prefixPower(exponent) : plainPower(exponent);
  if (power !== null) return { number: sign + positional(decimal, power), unitText: unitTextOf(unit, power) };
  const mantissa = positional(decimal, exponent);
  return { number: `${sign}${mantissa} × 10${superscript(exponent)}`, unitText: unitTextOf(unit, 0) };
}

/** The power of the prefix for a number whose first digit counts 10^exponent; null where it lies beyond the prefixes. */
function prefixPower(exponent: number): number | null {
  const power = Math.floor(exponent / 3) * 3;
  return power >= SMALLEST_PREFIX && power <= LARGEST_PREFIX ? power : null;
}

/** 0 where a number without prefix reads well, from 0.0001 to below 10⁹; else null. */
function plainPower(exponent: number): 0 | null {
  return exponent >= -4 && exponent < 9 ? 0 : null;
}

function superscript(exponent: number): string {
  const digits = `${Math.abs(exponent)}`.replace(/\d/g, (digit) => SUPERSCRIPTS.charAt(Number(digit)));
  return exponent < 0 ? `⁻${digits}` : digits;
}

/** The unit with its prefix and, but for ° (NIST SP 811, 7.2) and a pure number, the space before it. */
function unitTextOf(unit: UnitSymbol, power: number): string {
  if (unit === "1") return "";
  return unit === "°" ? unit : ` ${prefixOf(power)}${unit}`;
}
