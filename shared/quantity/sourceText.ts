import { type Amount, agreedUnit, finish, readAmount, readSuffix } from "./amount";
import { accept, type Cursor, refuse, startReading, take } from "./cursor";
import { readAngularTerm, readFrequencyMark } from "./frequencyText";
import { readSign, scaleByTen } from "./numberText";
import { readAddedPhase, readPhaseMark } from "./phaseText";
import type { Reading } from "./problem";
import { integer, negate, ONE, type Rational, subtract, ZERO } from "./rational";
import { type Degree, type Frequency, quantity, type Sinusoid, type SourceValue, type UnitSymbol } from "./unit";

/** What {@link readAnyQuantity} found: a number with the unit it was given, if any, or a sinusoid in V or A. */
export type AnyQuantity =
  | { readonly kind: "quantity"; readonly value: Rational; readonly unit: UnitSymbol | null }
  | (Sinusoid<"V"> & { readonly unit: "V" })
  | (Sinusoid<"A"> & { readonly unit: "A" });

/** A source's value as written. `oscillation` is null for a constant. */
type WrittenSource = { readonly amount: Amount; readonly oscillation: Oscillation | null };
type Oscillation = { readonly measure: Measure; readonly phase: Degree; readonly frequency: Frequency };
type Measure = Sinusoid<"V">["measure"];
/** What may stand before or behind the phase: an amplitude with its unit, and whether it is rms. */
type Head = { readonly amount: Amount; readonly measure: Measure | null };

const FUNCTION_AHEAD = /(?=cos|sin)/iy;
const FUNCTION = / ?[*·]? ?(cos|sin) ?/iy;
const OPEN = /\(/y;
const CLOSE = / ?\)/y;
const MEASURE = / ?\(?(rms|peak)\)?/iy;
const QUARTER_TURN = integer(90);

/**
 * Reads the value of an independent source: a constant (`−12 V`), a phasor with its frequency (`12 V ∠ 30° @ 50 Hz`,
 * `20 V rms ∠ 0° @ 60 Hz`, `8 mA ∠ −45° @ 1000 rad/s`) or a function of time (`5 cos(1000 t + 30°) V`, `5 sin(2π·50 t) V`).
 *
 * Amplitudes are peak values where rms is not said. A sine is read as the cosine 90° behind. Frequencies stay in
 * the unit given; inside a cosine `2π·50 t` is 50 Hz. `<` stands for ∠. Problems: every {@link QuantityFault}.
 */
export function readSourceValue<U extends "V" | "A">(text: string, unit: U): Reading<SourceValue<U>> {
  const start = startReading(text, [unit]);
  if (!start.ok) return start;
  const written = readWritten(start.value);
  if (!written.ok) return written;
  const agreed = agreedUnit(start.value, written.value.amount, [unit]);
  if (!agreed.ok) return agreed;
  const { amount, oscillation } = written.value;
  if (oscillation) return accept(sinusoid(amount.value, unit, oscillation));
  return accept({ kind: "dc", value: quantity(amount.value, unit) });
}

/**
 * Reads whatever quantity is written, so that its unit can decide what it is for: `3.3 kΩ` a resistor, `9 V` a voltage
 * source. The unit is null for a bare number or prefix (`3.3k`). A sinusoid must be in V or A.
 * Problems: every {@link QuantityFault}.
 */
export function readAnyQuantity(text: string): Reading<AnyQuantity> {
  const start = startReading(text, []);
  if (!start.ok) return start;
  const written = readWritten(start.value);
  if (!written.ok) return written;
  const { amount, oscillation } = written.value;
  if (!oscillation) return accept({ kind: "quantity", value: amount.value, unit: amount.unit });
  const unit = agreedUnit(start.value, amount, ["V", "A"]);
  if (!unit.ok) return unit;
  return unit.value === "V"
    ? accept({ ...sinusoid(amount.value, "V", oscillation), unit: "V" })
    : accept({ ...sinusoid(amount.value, "A", oscillation), unit: "A" });
}

function sinusoid<U extends "V" | "A">(amplitude: Rational, unit: U, oscillation: Oscillation): Sinusoid<U> {
  return { kind: "sinusoid", amplitude: quantity(amplitude, unit), ...oscillation };
}

function readWritten(cursor: Cursor): Reading<WrittenSource> {
  const head = readHead(cursor);
  if (!head.ok) return head;
  const name = take(cursor, FUNCTION)?.[1];
  const written = name === undefined ? readPhasor(cursor, head.value) : readFunction(cursor, head.value, name);
  return written.ok ? finish(cursor, written.value, null) : written;
}

/** The amplitude and what stands behind it; an amplitude that is not written before cos or sin is 1. */
function readHead(cursor: Cursor): Reading<Head> {
  const start = cursor.at;
  const isNegative = readSign(cursor);
  if (take(cursor, FUNCTION_AHEAD)) {
    return accept({ amount: { value: isNegative ? negate(ONE) : ONE, unit: null, letterCode: null }, measure: null });
  }
  cursor.at = start;
  const amount = readAmount(cursor);
  return amount.ok ? readMeasure(cursor, { amount: amount.value, measure: null }) : amount;
}

/** What may follow the phase: the unit and rms or peak, where they have not been said before. */
function readTail(cursor: Cursor, head: Head): Reading<Head> {
  const suffix = readSuffix(cursor);
  if (!suffix.ok) return suffix;
  if (!suffix.value) return readMeasure(cursor, head);
  const { unit, power } = suffix.value;
  const { amount, measure } = head;
  if (amount.unit !== null) return refuse(cursor, { code: "unitTwice" });
  if (unit === null) return refuse(cursor, { code: "prefixAlone" });
  return readMeasure(cursor, { amount: { ...amount, unit, value: scaleByTen(amount.value, power) }, measure });
}

function readMeasure(cursor: Cursor, head: Head): Reading<Head> {
  const start = cursor.at;
  const word = take(cursor, MEASURE)?.[1]?.toLowerCase();
  if (word === undefined) return accept(head);
  if (head.measure !== null) return refuse(cursor, { code: "unexpected", found: cursor.source.slice(start).trim() });
  return accept({ amount: head.amount, measure: word === "rms" ? "rms" : "peak" });
}

/** The rest of `∠ 30° @ 50 Hz` behind an amplitude; a constant where nothing of it is there. Without ∠ the phase is 0°. */
function readPhasor(cursor: Cursor, amplitude: Head): Reading<WrittenSource> {
  const phase = readPhaseMark(cursor);
  if (phase && !phase.ok) return phase;
  const head = phase ? readTail(cursor, amplitude) : accept(amplitude);
  if (!head.ok) return head;
  const frequency = readFrequencyMark(cursor);
  if (frequency && !frequency.ok) return frequency;
  if (!frequency) {
    if (!phase && head.value.measure === null) return accept({ amount: head.value.amount, oscillation: null });
    return refuse(cursor, { code: "frequencyMissing" });
  }
  return readEnd(cursor, head.value, phase?.value ?? quantity(ZERO, "°"), frequency.value);
}

/** The rest of `cos(1000 t + 30°) V` behind the function's name and before or behind it the unit. */
function readFunction(cursor: Cursor, amplitude: Head, name: string): Reading<WrittenSource> {
  if (!take(cursor, OPEN)) return refuse(cursor, { code: "cosineArgument" });
  const frequency = readAngularTerm(cursor);
  if (!frequency.ok) return frequency;
  const phase = readAddedPhase(cursor);
  if (!phase.ok) return phase;
  if (!take(cursor, CLOSE)) return refuse(cursor, { code: "cosineArgument" });
  const head = readTail(cursor, amplitude);
  if (!head.ok) return head;
  const isSine = name.toLowerCase() === "sin";
  const cosinePhase = isSine ? quantity(subtract(phase.value, QUARTER_TURN), "°") : phase.value;
  return readEnd(cursor, head.value, cosinePhase, frequency.value);
}

/** rms may come last of all; where nobody has said it, the amplitude is the peak. */
function readEnd(cursor: Cursor, head: Head, phase: Degree, frequency: Frequency): Reading<WrittenSource> {
  const end = readMeasure(cursor, head);
  if (!end.ok) return end;
  const { amount, measure } = end.value;
  return accept({ amount, oscillation: { measure: measure ?? "peak", phase, frequency } });
}
