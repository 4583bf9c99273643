import { type Rational, signOf } from "./rational";

/**
 * A number rounded to significant figures: sign · 0.d₁d₂d₃… · 10^(exponent + 1), so `exponent` is the power of ten of
 * the first digit. `digits` has no zeros at its end and is "" for zero. `isExact` says that nothing was rounded away.
 */
export type Decimal = {
  readonly isNegative: boolean;
  readonly digits: string;
  readonly exponent: number;
  readonly isExact: boolean;
};

const TEN = 10n;

/** Rounds to `figures` significant figures, halves away from zero, working in integers alone. */
export function roundToFigures(value: Rational, figures: number): Decimal {
  const sign = signOf(value);
  if (sign === 0) return { isNegative: false, digits: "", exponent: 0, isExact: true };
  const n = sign < 0 ? -value.n : value.n;
  // Right, or one too large: 10^(a−b−1) < n/d < 10^(a−b+1) for n of a digits and d of b.
  let exponent = `${n}`.length - `${value.d}`.length;
  if (isBelowPower(n, value.d, exponent)) exponent -= 1;
  const shift = figures - 1 - exponent;
  const dividend = shift >= 0 ? n * TEN ** BigInt(shift) : n;
  const divisor = shift >= 0 ? value.d : value.d * TEN ** BigInt(-shift);
  const cut = dividend / divisor;
  const rest = dividend - cut * divisor;
  const rounded = 2n * rest >= divisor ? cut + 1n : cut;
  return decimalOf(sign < 0, `${rounded}`, figures, exponent, rest === 0n);
}

/** n/d < 10^exponent */
function isBelowPower(n: bigint, d: bigint, exponent: number): boolean {
  return exponent >= 0 ? n < d * TEN ** BigInt(exponent) : n * TEN ** BigInt(-exponent) < d;
}

/** Figures of a double beyond which its binary digits show and nothing else. */
const DOUBLE_FIGURES = 15;

/** Rounds a double, to 15 figures at most; never exact, since a double stands for an unknown number close to it. Throws for NaN and ±Infinity. */
export function roundDouble(value: number, wantedFigures: number): Decimal {
  const figures = Math.min(wantedFigures, DOUBLE_FIGURES);
  if (!Number.isFinite(value)) throw new RangeError(`a finite number is wanted, got ${value}`);
  if (value === 0) return { isNegative: false, digits: "", exponent: 0, isExact: false };
  const [mantissa = "", exponent = ""] = Math.abs(value)
    .toExponential(figures - 1)
    .split("e");
  return decimalOf(value < 0, mantissa.replace(".", ""), figures, Number(exponent), false);
}

/** `digits` has `figures` of them, or one more where rounding has carried. */
function decimalOf(isNegative: boolean, digits: string, figures: number, exponent: number, isExact: boolean): Decimal {
  const carried = digits.length - figures;
  return { isNegative, digits: digits.replace(/0+$/, ""), exponent: exponent + carried, isExact };
}

/** The digits with the point set for a factor 10^power left out: 1234·10⁰ for power 3 is `1.234`. No sign. */
export function positional({ digits, exponent }: Decimal, power: number): string {
  if (digits === "") return "0";
  const wholeLength = exponent - power + 1;
  if (wholeLength <= 0) return `0.${"0".repeat(-wholeLength)}${digits}`;
  if (wholeLength >= digits.length) return digits + "0".repeat(wholeLength - digits.length);
  return `${digits.slice(0, wholeLength)}.${digits.slice(wholeLength)}`;
}
