import { type Rational, readRational, type UnitSymbol } from "../quantity";
import { type Complex, fromPolar } from "../solve/complex";
import type { Shown } from "../solve/report";

/** The value that is asked for: one number, or a constant and phasors by their angular frequencies. */
export type RightValue = {
  readonly unit: UnitSymbol;
  readonly number: RightNumber;
};

export type RightNumber =
  | { readonly kind: "exact"; readonly value: Rational }
  | { readonly kind: "double"; readonly value: number }
  /** Terms of size 0 are left out; `omega` 0 is the constant. Phasors are in `measure`. */
  | { readonly kind: "terms"; readonly terms: readonly RightTerm[]; readonly measure: "peak" | "rms" };
export type RightTerm = { readonly omega: number; readonly phasor: Complex };

/** The value of an answer in a report. */
export function rightValue(shown: Shown, unit: UnitSymbol): RightValue {
  return { unit, number: rightNumber(shown) };
}

function rightNumber({ exact, decimal, phasors }: Shown): RightNumber {
  const value = exact === null ? null : readRational(exact);
  if (value !== null) return { kind: "exact", value };
  if (decimal !== null) return { kind: "double", value: decimal };
  const terms = phasors.filter(({ magnitude }) => magnitude > 0);
  return {
    kind: "terms",
    terms: terms.map(({ omega, magnitude, phaseDegrees }) => ({ omega, phasor: fromPolar(magnitude, phaseDegrees) })),
    measure: phasors.some(({ omega, measure }) => omega !== 0 && measure === "rms") ? "rms" : "peak",
  };
}
