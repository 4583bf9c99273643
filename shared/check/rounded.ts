import { type Rational, rational, readRational } from "../quantity";

/** A double that is not exact anyway as a fraction, to the digits that it has. */
export function doubleAsRational(value: number): Rational {
  const [mantissa = "0", exponent = "0"] = value.toExponential(15).split("e");
  const digits = readRational(mantissa.replace(".", ""));
  if (digits === null) throw new RangeError(`doubleAsRational: ${value} is no number`);
  const power = Number(exponent) - 15;
  const ten = 10n ** BigInt(Math.abs(power));
  return power < 0 ? rational(digits.n, ten) : rational(digits.n * ten);
}
