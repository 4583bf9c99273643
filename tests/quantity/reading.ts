import fc from "fast-check";
import {
  type QuantityProblem,
  quantityProblemText,
  type Rational,
  rational,
  rationalText,
  readAnyQuantity,
  readQuantity,
  readSourceValue,
  type Sinusoid,
  type UnitSymbol,
} from "../../shared/quantity";

/** What a text reads as in one unit, as a fraction in ASCII; throws with the sentence where it is refused. */
export function value(text: string, unit: UnitSymbol): string {
  const reading = readQuantity(text, unit);
  if (!reading.ok) throw new Error(quantityProblemText(reading.problem));
  return rationalText(reading.value.value);
}

/** The problem that a text has in one unit or several; throws where it is read. */
export function problem(text: string, unit: UnitSymbol | readonly UnitSymbol[]): QuantityProblem {
  const reading = readQuantity(text, unit);
  if (reading.ok) throw new Error(`"${text}" was read as ${rationalText(reading.value.value)} ${reading.value.unit}`);
  return reading.problem;
}

export function sentence(text: string, unit: UnitSymbol | readonly UnitSymbol[]): string {
  return quantityProblemText(problem(text, unit));
}

/** A source's value on one line: `dc 12`, or `12 peak 30° 50 Hz`, numbers as fractions in ASCII. */
export function source(text: string, unit: "V" | "A" = "V"): string {
  const reading = readSourceValue(text, unit);
  if (!reading.ok) throw new Error(quantityProblemText(reading.problem));
  return reading.value.kind === "dc" ? `dc ${rationalText(reading.value.value)}` : sinusoidLine(reading.value);
}

export function sourceSentence(text: string, unit: "V" | "A" = "V"): string {
  const reading = readSourceValue(text, unit);
  if (reading.ok) throw new Error(`"${text}" was read`);
  return quantityProblemText(reading.problem);
}

/** What a text reads as where its unit decides: `3300 Ω`, `5 bare` without unit, `… in V`; or the sentence that refuses it. */
export function anything(text: string): string {
  const reading = readAnyQuantity(text);
  if (!reading.ok) return quantityProblemText(reading.problem);
  const found = reading.value;
  return found.kind === "quantity"
    ? `${rationalText(found.value)} ${found.unit ?? "bare"}`
    : `${sinusoidLine(found)} in ${found.unit}`;
}

function sinusoidLine({ amplitude, measure, phase, frequency }: Sinusoid<"V" | "A">): string {
  const rate = `${rationalText(frequency.value)} ${frequency.unit}`;
  return `${rationalText(amplitude)} ${measure} ${rationalText(phase)}° ${rate}`;
}

/** Rationals with numerator and denominator of up to 40 digits, small ones and whole ones often. */
export const rationals: fc.Arbitrary<Rational> = fc
  .oneof(
    fc.tuple(fc.bigInt(-20n, 20n), fc.bigInt(1n, 12n)),
    fc.tuple(fc.bigInt(), fc.constant(1n)),
    fc.tuple(fc.bigInt(-(10n ** 40n), 10n ** 40n), fc.bigInt(1n, 10n ** 40n)),
  )
  .map(([n, d]) => rational(n, d));
