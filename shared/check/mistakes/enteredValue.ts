import type { Rational } from "../../quantity";
import { type Amount, magnitude, numberOf } from "../../solve";
import { complex } from "../../solve/complex";
import { isRight } from "../judge";
import type { RightNumber } from "../rightValue";
import type { EnteredNumber } from "../value";
import { enteredPoint, mayBe, type Rough } from "./rough";
import type { Candidate } from "./target";

/** Figures that are compared at most: beyond them doubles tell nothing. */
export const MOST_FIGURES = 10;

/** What was entered, to be held against values that mistakes lead to. */
export type EnteredValue = {
  /** Figures that are compared. */
  readonly figures: number;
  /** False only where this, `factor` times, is certainly not what was entered. */
  mayBe(rough: Rough, factor?: number): boolean;
  /** Whether this is what was entered, within the rounding that it was written with. */
  is(amount: Amount): boolean;
};

/** `figures` are those that count: a shorter number is taken to have as many. */
export function enteredValue(entered: EnteredNumber, figures: number, measure: "peak" | "rms"): EnteredValue {
  const compared = figuresOf(entered, figures);
  const point = enteredPoint(entered, measure);
  return {
    figures: compared,
    mayBe: (rough, factor) => mayBe(rough, point, compared, factor),
    is: (amount) => isRight(entered, rightNumberOf(amount, measure), compared),
  };
}

/** Whether a candidate's value is what was entered. Most are ruled out by their doubles alone. */
export function isCandidate(entered: EnteredValue, { rough, amount }: Candidate): boolean {
  if (rough !== null && !entered.mayBe(rough)) return false;
  const value = amount();
  return value !== null && entered.is(value);
}

/** As many figures as the value entered has, and no fewer than count; a fraction or a sum of doubles has them all. */
function figuresOf(entered: EnteredNumber, least: number): number {
  if (entered.kind !== "exact") return least;
  return Math.max(least, Math.min(digitsOf(entered) ?? MOST_FIGURES, MOST_FIGURES));
}

/** Significant digits of a decimal number as it was entered; null for a fraction, a phasor, a function of time. */
export function digitsOf(entered: EnteredNumber): number | null {
  return entered.kind === "exact" ? decimalDigits(entered.value) : null;
}

/** Significant digits of a number that is a decimal one; null for any other. */
function decimalDigits({ n, d }: Rational): number | null {
  let rest = d;
  for (const prime of [2n, 5n]) while (rest % prime === 0n) rest /= prime;
  if (rest !== 1n) return null;
  // With as many zeros behind as d can take up, the digits of n/d are those of a whole number.
  const whole = (n < 0n ? -n : n) * 10n ** BigInt(d.toString(2).length);
  return (whole / d).toString().replace(/0+$/, "").length;
}

function rightNumberOf({ constant, phasors }: Amount, measure: "peak" | "rms"): RightNumber {
  if (phasors.length === 0) {
    if (constant?.numbers === "exact") return { kind: "exact", value: constant.value };
    return { kind: "double", value: constant === null ? 0 : numberOf(constant) };
  }
  const terms = phasors.map(({ omega, value }) => ({ omega, phasor: value }));
  const still = constant === null ? [] : [{ omega: 0, phasor: complex(numberOf(constant)) }];
  const isThere = ({ phasor }: (typeof terms)[number]): boolean => magnitude(phasor) > 0;
  return { kind: "terms", terms: [...still, ...terms].filter(isThere), measure };
}
