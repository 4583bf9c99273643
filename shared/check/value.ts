import type { Rational } from "../quantity";
import { isZero, toNumber } from "../quantity";
import { type Complex, complex, magnitude } from "../solve/complex";
import { type Dimension, dimensionOf, PURE } from "./dimension";

/** Σ of cosines and a constant, in time. Phasors are peak values. */
export type TimeSum = { readonly constant: number; readonly waves: readonly Wave[] };
export type Wave = { readonly omega: number; readonly phasor: Complex };

/** A number that a learner has entered: exact, complex in doubles (a phasor or an impedance), or a function of time. */
export type EnteredNumber =
  | { readonly kind: "exact"; readonly value: Rational }
  | { readonly kind: "complex"; readonly value: Complex }
  | { readonly kind: "time"; readonly value: TimeSum };

/**
 * A number with its dimension. The dimension is "open" where a prefix stands without its unit, as people write
 * `15 V / 4.7k`: such a number takes whatever dimension the place asks for.
 */
export type Value = { readonly number: EnteredNumber; readonly dimension: Dimension | "open" };

export function exactValue(value: Rational, dimension: Value["dimension"]): Value {
  return { number: { kind: "exact", value }, dimension };
}

/** A bare number; 0 has whatever dimension is asked for. */
export function bareValue(value: Rational): Value {
  return exactValue(value, isZero(value) ? "open" : PURE);
}

export function complexValue(value: Complex, dimension: Value["dimension"] = PURE): Value {
  return { number: { kind: "complex", value }, dimension };
}

export function waveValue(omega: number, phasor: Complex, dimension: Value["dimension"] = PURE): Value {
  return { number: { kind: "time", value: { constant: 0, waves: [{ omega, phasor }] } }, dimension };
}

export function unitValueOf(unit: Parameters<typeof dimensionOf>[0], value: Rational): Value {
  return exactValue(value, dimensionOf(unit));
}

/** The number in doubles; null for a function of time. */
export function asComplex(number: EnteredNumber): Complex | null {
  switch (number.kind) {
    case "exact":
      return complex(toNumber(number.value));
    case "complex":
      return number.value;
    case "time":
      return null;
  }
}

/** Whether nothing but rounding keeps a complex number from being real. */
export function isReal(number: Complex): boolean {
  return Math.abs(number.im) <= 1e-12 * magnitude(number);
}
