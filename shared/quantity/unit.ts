import type { Rational } from "./rational";

declare const unit: unique symbol;

/** Symbols of the coherent SI units that the core computes in; "1" is a pure number. */
export type UnitSymbol = "Ω" | "S" | "V" | "A" | "W" | "F" | "H" | "Hz" | "rad/s" | "s" | "°" | "1";

/** An exact number of U. The unit lives in the type alone; prefixes exist only in text. */
export type Quantity<U extends UnitSymbol> = Rational & { readonly [unit]: U };

export type Ohm = Quantity<"Ω">;
export type Siemens = Quantity<"S">;
export type Volt = Quantity<"V">;
export type Ampere = Quantity<"A">;
export type Farad = Quantity<"F">;
export type Henry = Quantity<"H">;
export type Degree = Quantity<"°">;
export type Ratio = Quantity<"1">;

/** Says that a number counts U. This is the one cast from number to quantity. */
export function quantity<U extends UnitSymbol>(value: Rational, _unit: U): Quantity<U> {
  return value as Quantity<U>;
}

/**
 * A sinusoid amplitude·cos(ωt + phase). `measure` says whether `amplitude` is the peak or the rms value;
 * peak is the rule of the trade and of this project wherever nothing else is said.
 */
export type Sinusoid<U extends "V" | "A"> = {
  readonly kind: "sinusoid";
  readonly amplitude: Quantity<U>;
  readonly measure: "peak" | "rms";
  readonly phase: Degree;
  readonly frequency: Frequency;
};

/** Kept in the unit it was given in, since 2π is not rational. */
export type Frequency =
  | { readonly unit: "Hz"; readonly value: Quantity<"Hz"> }
  | { readonly unit: "rad/s"; readonly value: Quantity<"rad/s"> };

/** The value of an independent source: constant, or one sinusoid. */
export type SourceValue<U extends "V" | "A"> = { readonly kind: "dc"; readonly value: Quantity<U> } | Sinusoid<U>;
