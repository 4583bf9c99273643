import type { Complex, Fraction } from "mathjs";
import { expect } from "vitest";
import { exact, exactValue } from "../independent/elements";

/** A number as a book prints it, with half a unit of its last printed digit; 0 where it is exact. */
type PrintedNumber = { readonly value: Fraction; readonly halfUnit: Fraction };

/** Doubles stand for "exact" sinusoids, whose sines and cosines are irrational. */
const DOUBLE_TOLERANCE = 1e-9;

/** Compares an exact rational with a printed one, in rationals: equal, or within half a unit of its last digit. */
export function expectPrinted(actual: Fraction, answer: string, roundedTo: string): void {
  const { value, halfUnit } = printedNumber(answer, roundedTo);
  const distance = exact.abs(exact.subtract(actual, value) as Fraction) as Fraction;
  const isWithin = exact.smallerEq(distance, halfUnit) as boolean;
  expect(isWithin, `${actual.toFraction()} against ${answer} (${roundedTo}), off by ${distance.toFraction()}`).toBe(
    true,
  );
}

/** Compares a phasor with a printed one, `20.5 mA ∠-34.8°`, `-2.353 + j2.353 A` or a bare amplitude (phase 0 or 180°). */
export function expectPrintedPhasor(actual: Complex, answer: string, roundedTo: string): void {
  const rectangular = /^(-?[\d.]+) ([+-]) j([\d.]+) (.*)$/u.exec(answer);
  if (rectangular) {
    const [, re = "", sign = "", im = "", unit = ""] = rectangular;
    expectNear(actual.re, printedNumber(`${re} ${unit}`, roundedTo));
    expectNear(actual.im, printedNumber(`${sign === "-" ? "-" : ""}${im} ${unit}`, roundedTo));
    return;
  }
  const [amplitude = "", angle] = answer.split(" ∠");
  const printed = printedNumber(amplitude, roundedTo);
  if (angle === undefined || printed.value.n === 0n) {
    expectNear(actual.re, printed);
    expectNear(actual.im, { value: exact.fraction(0), halfUnit: exact.fraction(0) });
    return;
  }
  expectNear(actual.toPolar().r, printed);
  const degrees = (actual.toPolar().phi * 180) / Math.PI;
  const printedAngle = printedNumber(angle, roundedTo === "exact" ? "exact" : lastDigitOf(angle));
  const turns = Math.round((degrees - printedAngle.value.valueOf()) / 360);
  expectNear(degrees - 360 * turns, printedAngle);
}

function expectNear(actual: number, { value, halfUnit }: PrintedNumber): void {
  const wanted = value.valueOf();
  const tolerance = halfUnit.valueOf() + DOUBLE_TOLERANCE * Math.max(1e-3, Math.abs(wanted));
  expect(Math.abs(actual - wanted), `${actual} against ${wanted}`).toBeLessThanOrEqual(tolerance);
}

function lastDigitOf(angle: string): string {
  return `${/\.(\d+)/.exec(angle)?.[1]?.length ?? 0} decimals`;
}

function printedNumber(answer: string, roundedTo: string): PrintedNumber {
  const value = exactValue(answer);
  if (roundedTo === "exact") return { value, halfUnit: exact.fraction(0) };
  const [, count = "", what = ""] = /^(\d+) (significant figures|decimals)$/.exec(roundedTo) ?? [];
  if (what === "") throw new Error(`unknown rounding ${JSON.stringify(roundedTo)}`);
  const digits = /^-?([\d.]+)/.exec(answer)?.[1] ?? "";
  // The unit of the last digit is counted in the printed unit with its prefix: 373.33 µA is good to 0.005 µA.
  const printedUnit = exactValue(answer.replace(/^-?[\d.]+/, "1"));
  const power = what === "decimals" ? -Number(count) : Math.floor(Math.log10(Number(digits))) - Number(count) + 1;
  const lastPlace = exact.fraction(power < 0 ? `1/${10 ** -power}` : `${10 ** power}`);
  const halfUnit = exact.multiply(exact.multiply(lastPlace, printedUnit), exact.fraction(1, 2)) as Fraction;
  return { value, halfUnit };
}
