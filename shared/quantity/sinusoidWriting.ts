import { roundDouble } from "./decimal";
import type { Rational } from "./rational";
import type { Frequency, Sinusoid, SourceValue } from "./unit";
import { decimalParts, figuresOf, MINUS, type WriteOptions, type Written, writeExact, writeNumber } from "./writing";

/** A phasor in polar form; `magnitude` is a peak or rms value in the unit that goes with it. */
export type Polar = {
  readonly magnitude: number;
  readonly phaseDegrees: number;
  readonly measure: Sinusoid<"V">["measure"];
};

/**
 * One term of a sum in time: magnitude · cos(ωt + phase), `magnitude` a peak value. With `omega` 0 it is the constant
 * magnitude · cos(phase). `frequency` is the frequency as given, where somebody gave it: ω is then written exactly,
 * and hertz as 2π times hertz.
 */
export type TimeTerm = {
  readonly omega: number;
  readonly magnitude: number;
  readonly phaseDegrees: number;
  readonly frequency?: Frequency | null;
};

const OMEGA_FIGURES = 12;
/** More would say more than doubles know about an angle, and JavaScript writes smaller numbers with an exponent. */
const PHASE_DECIMALS = 6;

/** A source's value exactly as given: `12 V`, `1/3 A`, or {@link writeSinusoid}. Reads back as the same; the mark is "=". */
export function writeSourceValue<U extends "V" | "A">(value: SourceValue<U>, unit: NoInfer<U>): Written {
  return value.kind === "dc" ? { text: writeExact(value.value, unit), mark: "=" } : writeSinusoid(value, unit);
}

/** `12 V ∠ 30° @ 50 Hz`, `20 V rms ∠ 0° @ 60 Hz`: exact, so the mark is "=". Reads back as the same sinusoid. */
export function writeSinusoid<U extends "V" | "A">(sinusoid: Sinusoid<U>, unit: NoInfer<U>): Written {
  const { amplitude, measure, phase, frequency } = sinusoid;
  const rate = writeExact(frequency.value, frequency.unit);
  const text = `${writeExact(amplitude, unit)}${measureText(measure)} ∠ ${writeExact(phase, "°")} @ ${rate}`;
  return { text, mark: "=" };
}

/**
 * `16 mA ∠ −36.87°`, `20 V rms ∠ 0°`. The phase is brought to −180° < φ ≤ 180° and rounded to two decimals less than
 * there are `digits`. A phasor of magnitude 0 has no phase. Computed in doubles, so the mark is "≈".
 * Throws RangeError for NaN and ±Infinity.
 */
export function writePhasor(phasor: Polar, unit: "V" | "A" | "Ω" | "S" | "1", options: WriteOptions = {}): Written {
  const { magnitude, phaseDegrees, measure } = phasor;
  const size = writeNumber(magnitude, unit, options).text + measureText(measure);
  const phase = phaseText(roundedPhase(phaseDegrees, options));
  return { text: magnitude === 0 ? size : `${size} ∠ ${phase}`, mark: "≈" };
}

/**
 * `5 V + 15 cos(10 t) V − 2 cos(2π·50 t + 30°) mV`: terms in the order given, those of magnitude 0 left out; a phase
 * of 180° becomes a minus sign. Computed in doubles, so the mark is "≈". Throws RangeError for NaN and ±Infinity.
 */
export function writeTimeSum(terms: readonly TimeTerm[], unit: "V" | "A", options: WriteOptions = {}): Written {
  const written = terms.filter(({ magnitude }) => magnitude !== 0).map((term) => signedTerm(term, unit, options));
  const [first, ...others] = written;
  if (!first) return writeNumber(0, unit, options);
  const head = (first.isNegative ? MINUS : "") + first.text;
  const tail = others.map(({ isNegative, text }) => ` ${isNegative ? MINUS : "+"} ${text}`);
  return { text: head + tail.join(""), mark: "≈" };
}

function signedTerm(term: TimeTerm, unit: "V" | "A", options: WriteOptions): { isNegative: boolean; text: string } {
  const { omega, magnitude, phaseDegrees } = term;
  if (omega === 0) {
    const constant = magnitude * Math.cos((phaseDegrees * Math.PI) / 180);
    return { isNegative: constant < 0, text: writeNumber(Math.abs(constant), unit, options).text };
  }
  const { number, unitText } = decimalParts(roundDouble(Math.abs(magnitude), figuresOf(options)), unit);
  const phase = roundedPhase(magnitude < 0 ? phaseDegrees + 180 : phaseDegrees, options);
  const isNegative = phase === 180;
  const added = phase === 0 || isNegative ? "" : ` ${phase < 0 ? MINUS : "+"} ${phaseText(Math.abs(phase))}`;
  return { isNegative, text: `${number} cos(${angularText(term)} t${added})${unitText}` };
}

function angularText({ omega, frequency }: TimeTerm): string {
  if (!frequency) return decimalParts(roundDouble(omega, OMEGA_FIGURES), "1").number;
  const factor = factorText(frequency.value);
  return frequency.unit === "Hz" ? `2π·${factor}` : factor;
}

/** A fraction stands in parentheses, so that nobody takes t for a part of its denominator. */
function factorText(value: Rational): string {
  const text = writeExact(value, "1");
  return text.includes("/") ? `(${text})` : text;
}

function measureText(measure: Polar["measure"]): string {
  return measure === "rms" ? " rms" : "";
}

/** In degrees, −180 < φ ≤ 180 after rounding, never −0. */
function roundedPhase(degrees: number, options: WriteOptions): number {
  if (!Number.isFinite(degrees)) throw new RangeError(`a finite phase is wanted, got ${degrees}`);
  const principal = degrees - 360 * Math.round(degrees / 360);
  const decimals = Math.min(Math.max(0, figuresOf(options) - 2), PHASE_DECIMALS);
  const rounded = Number(principal.toFixed(decimals));
  if (rounded <= -180) return 180;
  return rounded === 0 ? 0 : rounded;
}

/** Plain decimals, since a rounded phase needs neither prefix nor power of ten. */
function phaseText(degrees: number): string {
  return `${degrees < 0 ? MINUS : ""}${Math.abs(degrees)}°`;
}
