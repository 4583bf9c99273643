import type { Rational, UnitSymbol } from "../quantity";
import {
  divide,
  equal,
  isZero,
  multiply,
  rational,
  rationalText,
  toNumber,
  writeNumber,
  writePhasor,
  writeQuantity,
} from "../quantity";
import { PREFIX_POWERS, prefixOf } from "../quantity/unitTable";
import { type Complex, magnitude, phaseDegrees, type Shown } from "../solve";
import { complex, conjugate } from "../solve/complex";
import { latexOfFigures } from "./figuresLatex";

/** A number with its unit as it stands in a formula. Inexact ones make the formula an approximation of its result. */
export type Figure = { readonly text: string; readonly latex: string; readonly isExact: boolean };

/** How the numbers of one solved set are written and compared. */
export type Numerals<T> = {
  figure(value: T, unit: UnitSymbol): Figure;
  /** A phasor's size, a number without an angle. */
  sizeFigure(value: T, unit: UnitSymbol): Figure;
  shown(value: T, unit: UnitSymbol): Shown;
  /** Whether two ways to one number agree: exactly where it is exact, else to rounding. */
  agree(a: T, b: T, unit: UnitSymbol): boolean;
  /** j, where these numbers have it. */
  readonly imaginary: T | null;
  /** Power that a voltage and a current give: their product, or for phasors its mean over time. */
  power(voltage: T, current: T): T;
  /** The size of a phasor; a real number itself. */
  size(value: T): T;
  /** The real part, and the conjugate, of an impedance; a real number itself. */
  real(value: T): T;
  conjugate(value: T): T;
  /** Factor between the square of a size and a mean: ½ for peak phasors. */
  readonly meanFactor: 1 | 0.5;
  readonly isPhasor: boolean;
};

/** Doubles agree to this share of the largest of their kind. */
const AGREEMENT = 1e-9;
/** Below this share of the largest of its kind a double is what rounding left of a 0. */
const ROUNDING = 1e-12;
/** Fractions of more digits are no easier to read than a rounded decimal. */
const LONGEST_FRACTION = 6;

/** Rationals: a decimal where a short one is exact, a short fraction elsewhere, rounded only where both fail. */
export function exactNumerals(digits: number): Numerals<Rational> {
  // The same resistances stand in line after line.
  const written = new Map<string, Figure>();
  const write = (value: Rational, unit: UnitSymbol): Figure => {
    const text = exactText(value, unit, digits);
    if (text !== null) return { text, latex: latexOfFigures(text), isExact: true };
    const rounded = writeQuantity(value, unit, { digits }).text;
    return { text: rounded, latex: latexOfFigures(rounded), isExact: false };
  };
  const figure = (value: Rational, unit: UnitSymbol): Figure => {
    const key = `${value.n}/${value.d} ${unit}`;
    const known = written.get(key) ?? write(value, unit);
    written.set(key, known);
    return known;
  };
  return {
    figure,
    sizeFigure: figure,
    shown: (value, unit) => ({
      exact: rationalText(value),
      decimal: toNumber(value),
      phasors: [],
      ...writeQuantity(value, unit, { digits }),
    }),
    agree: (a, b) => equal(a, b),
    imaginary: null,
    power: multiply,
    size: (value) => value,
    real: (value) => value,
    conjugate: (value) => value,
    meanFactor: 1,
    isPhasor: false,
  };
}

function exactText(value: Rational, unit: UnitSymbol, digits: number): string | null {
  const decimal = writeQuantity(value, unit, { digits });
  if (decimal.mark === "=" || isZero(value)) return decimal.text;
  const fraction = fractionLike(value, unit, decimal.text);
  if (fraction !== null) return fraction;
  const longer = writeQuantity(value, unit, { digits: digits + 3 });
  return longer.mark === "=" ? longer.text : null;
}

/** The number as a fraction with the prefix that its decimal has; null where it is no shorter to read. */
function fractionLike(value: Rational, unit: UnitSymbol, decimal: string): string | null {
  const power = PREFIX_POWERS.find((each) => decimal.endsWith(` ${prefixOf(each)}${unit}`)) ?? 0;
  const scale = rational(10n ** BigInt(Math.abs(power)));
  const scaled = power < 0 ? multiply(value, scale) : divide(value, scale);
  const { n, d } = scaled;
  const digits = `${n < 0n ? -n : n}/${d}`;
  if (digits.length > LONGEST_FRACTION) return null;
  return `${n < 0n ? "−" : ""}${digits}${decimal.replace(/^[^ ]*/, "")}`;
}

/** What doubles of each unit are measured against, and how phasors are counted. */
export type Scale = {
  readonly largest: (unit: UnitSymbol) => number;
  readonly measure: "peak" | "rms";
  /** In rad/s; null for constants in doubles. */
  readonly omega: number | null;
};

/** Complex doubles: voltages and currents polar, impedances and admittances as real and imaginary part. */
export function doubleNumerals(digits: number, { largest, measure, omega }: Scale): Numerals<Complex> {
  const settled = (value: Complex, unit: UnitSymbol): Complex => {
    const limit = Math.max(ROUNDING * largest(unit), ROUNDING * magnitude(value));
    return { re: Math.abs(value.re) <= limit ? 0 : value.re, im: Math.abs(value.im) <= limit ? 0 : value.im };
  };
  const meanFactor = omega === null || measure === "rms" ? 1 : 0.5;
  const write = (value: Complex, unit: UnitSymbol): string => {
    if (omega === null || unit === "W" || magnitude(value) === 0) return writeNumber(value.re, unit, { digits }).text;
    if (unit === "V" || unit === "A") return polarText(value, unit, digits, measure);
    return rectangularText(value, unit, digits);
  };
  return {
    imaginary: { re: 0, im: 1 },
    power: (voltage, current) => ({
      re: meanFactor * (voltage.re * current.re + voltage.im * current.im),
      im: 0,
    }),
    size: (value) => (omega === null ? value : { re: magnitude(value), im: 0 }),
    real: ({ re }) => complex(re),
    conjugate,
    meanFactor,
    isPhasor: omega !== null,
    figure: (value, unit) => {
      const text = write(settled(value, unit), unit);
      return { text, latex: latexOfFigures(text), isExact: true };
    },
    sizeFigure: (value, unit) => {
      const { text } = writeNumber(value.re, unit, { digits });
      const counted = omega !== null && measure === "rms" ? `${text} rms` : text;
      return { text: counted, latex: latexOfFigures(counted), isExact: true };
    },
    shown: (raw, unit) => {
      const value = settled(raw, unit);
      const phasor = { omega: omega ?? 0, magnitude: magnitude(value), phaseDegrees: phaseDegrees(value), measure };
      const isReal = omega === null || unit === "W";
      return {
        exact: null,
        decimal: isReal ? value.re : null,
        phasors: isReal ? [] : [phasor],
        text: write(value, unit),
        mark: "≈",
      };
    },
    agree: (a, b, unit) => {
      const limit = Math.max(AGREEMENT * Math.max(magnitude(a), magnitude(b)), 10 * ROUNDING * largest(unit));
      return magnitude({ re: a.re - b.re, im: a.im - b.im }) <= limit;
    },
  };
}

function polarText(value: Complex, unit: "V" | "A", digits: number, measure: "peak" | "rms"): string {
  const polar = { magnitude: magnitude(value), phaseDegrees: phaseDegrees(value), measure: "peak" } as const;
  const { text } = writePhasor(polar, unit, { digits });
  return measure === "rms" ? text.replace(/ ∠/, " rms ∠") : text;
}

/** `50 Ω`, `−j40 Ω`, `(20 + j15) mS`: one prefix for both parts, that of the larger. */
function rectangularText({ re, im }: Complex, unit: UnitSymbol, digits: number): string {
  if (im === 0) return writeNumber(re, unit, { digits }).text;
  if (re === 0) return writeNumber(im, unit, { digits }).text.replace(/^(−?)/, "$1j");
  const larger = Math.max(Math.abs(re), Math.abs(im));
  const [number = "", ...unitWords] = writeNumber(larger, unit, { digits }).text.split(" ");
  // Dividing by what the larger part is written as finds its prefix without a table of them.
  const power = Math.round(Math.log10(larger / Number(number)));
  const part = (value: number): string => writeNumber(Math.abs(value) / 10 ** power, "1", { digits }).text;
  const unitText = unitWords.length === 0 ? "" : ` ${unitWords.join(" ")}`;
  return `(${re < 0 ? "−" : ""}${part(re)} ${im < 0 ? "−" : "+"} j${part(im)})${unitText}`;
}
