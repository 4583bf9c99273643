import { toNumber } from "../quantity";
import { type Complex, complex, conjugate, magnitude } from "../solve/complex";
import { isClose, isPhaseClose, isPhasorClose, powerOfTenIn } from "./closeness";
import { dimensionOf, PURE, sameDimension } from "./dimension";
import { measureFactor } from "./givens";
import type { Diagnosis, Judgement, JudgingRules, ValueForm } from "./judgement";
import { type Entry, type EntryPlace, readEntry } from "./readEntry";
import type { RightNumber, RightTerm, RightValue } from "./rightValue";
import { asComplex, type EnteredNumber, isReal } from "./value";

/**
 * Judges what a learner entered for a value: right where it is the right one to the significant figures that count, and
 * in its unit; else what is known of it by comparing the two.
 */
export function judge(
  text: string,
  place: Omit<EntryPlace, "unit">,
  right: RightValue,
  rules: JudgingRules,
): Judgement {
  const reading = readEntry(text, { ...place, unit: right.unit });
  if (!reading.ok) return { outcome: "unread", problem: reading.problem };
  const diagnosis =
    unitFault(reading.entry, right, rules) ?? numberFault(reading.entry.number, right.number, rules.figures);
  return diagnosis ? { outcome: "wrong", diagnosis } : { outcome: "right" };
}

function unitFault({ dimension, hasUnit }: Entry, { unit }: RightValue, { units }: JudgingRules): Diagnosis | null {
  if (dimension !== "open" && sameDimension(dimension, dimensionOf(unit))) return null;
  const isBare = !hasUnit && (dimension === "open" || sameDimension(dimension, PURE));
  if (isBare) return units === "demanded" ? { code: "unitMissing", wanted: unit } : null;
  return dimension === "open" ? null : { code: "otherUnit", found: dimension, wanted: unit };
}

/** Whether a number of the right unit is the right one, to so many significant figures. */
export function isRight(entered: EnteredNumber, number: RightNumber, figures: number): boolean {
  return numberFault(entered, number, figures) === null;
}

/** What is wrong with a number of the right unit; null where nothing is. */
function numberFault(entered: EnteredNumber, number: RightNumber, figures: number): Diagnosis | null {
  if (number.kind !== "terms") {
    const value = realOf(entered);
    if (value === null) return { code: "otherForm", found: formOf(entered), wanted: "number" };
    return realFault(value, number.kind === "exact" ? toNumber(number.value) : number.value, figures);
  }
  const [only, ...others] = number.terms;
  const value = asComplex(entered);
  if (only && only.omega !== 0 && others.length === 0) {
    const phasor = value ?? waveAt(only.omega, termsOf(entered, number.measure), figures);
    if (phasor !== null) return phasorFault(phasor, only.phasor, figures);
  }
  if (value !== null && !isReal(value)) return { code: "otherForm", found: "phasor", wanted: "timeSum" };
  return termsFault(termsOf(entered, number.measure), number.terms, figures);
}

function realFault(value: number, right: number, figures: number): Diagnosis | null {
  if (isClose(value, right, figures)) return null;
  if (value === 0) return { code: "nothing" };
  if (right === 0) return { code: "unlike" };
  if (isClose(value, -right, figures)) return { code: "signTurned" };
  const coarse = coarseFigures((fewer) => isClose(value, right, fewer), figures);
  if (coarse !== null) return coarse;
  const factor = Math.abs(value / right);
  const sign = value < 0 === right < 0 ? "right" : "turned";
  const power = powerOfTenIn(factor, figures);
  return power === null ? { code: "size", factor, sign } : { code: "powerOfTen", power, sign };
}

function phasorFault(value: Complex, right: Complex, figures: number): Diagnosis | null {
  if (isPhasorClose(value, right, figures)) return null;
  if (magnitude(value) === 0) return { code: "nothing" };
  const isTurned = isPhasorClose(complex(-value.re, -value.im), right, figures);
  if (isTurned) return { code: "signTurned" };
  if (isPhasorClose(conjugate(value), right, figures)) return { code: "phaseTurned" };
  const coarse = coarseFigures((fewer) => isPhasorClose(value, right, fewer), figures);
  if (coarse !== null) return coarse;
  const factor = magnitude(value) / magnitude(right);
  if (isClose(factor, 1, figures)) return { code: "phase" };
  const isPhaseRight = isPhaseClose(value, right, figures);
  const power = isPhaseRight ? powerOfTenIn(factor, figures) : null;
  return power === null ? { code: "phasorSize", factor, isPhaseRight } : { code: "powerOfTen", power, sign: "right" };
}

/** Right to fewer figures than count. One figure alone says too little to call a value nearly right. */
function coarseFigures(isRightTo: (figures: number) => boolean, figures: number): Diagnosis | null {
  for (let fewer = figures - 1; fewer >= 2; fewer--) {
    if (isRightTo(fewer)) return { code: "tooCoarse", figures: fewer, wanted: figures };
  }
  return null;
}

function termsFault(entered: readonly RightTerm[], right: readonly RightTerm[], figures: number): Diagnosis | null {
  const isMatch = (a: RightTerm, b: RightTerm) => isAt(b.omega, a, figures);
  const isGiven = (term: RightTerm) =>
    entered.some((each) => isMatch(each, term) && isPhasorClose(each.phasor, term.phasor, figures));
  const missing = right.filter((term) => !isGiven(term));
  const extra = entered.filter((each) => !right.some((term) => isMatch(each, term)));
  const wrong = [...missing, ...extra].map(({ omega }) => omega);
  if (wrong.length === 0) return null;
  const turned = entered.map(({ omega, phasor }) => ({ omega, phasor: complex(-phasor.re, -phasor.im) }));
  const isTurned = right.every((term) =>
    turned.some((each) => isMatch(each, term) && isPhasorClose(each.phasor, term.phasor, figures)),
  );
  if (isTurned && extra.length === 0) return { code: "signTurned" };
  return entered.length === 0 ? { code: "nothing" } : { code: "terms", wrong };
}

const isAt = (omega: number, term: RightTerm, figures: number): boolean =>
  omega === 0 ? term.omega === 0 : isClose(term.omega, omega, figures);

/** The phasor of what is one wave of this frequency and nothing besides; null for anything else. */
function waveAt(omega: number, [only, ...others]: readonly RightTerm[], figures: number): Complex | null {
  return only !== undefined && others.length === 0 && isAt(omega, only, figures) ? only.phasor : null;
}

/** The terms of what was entered that are not 0, in the measure of the right ones. */
function termsOf(entered: EnteredNumber, measure: "peak" | "rms"): readonly RightTerm[] {
  const { constant, waves } =
    entered.kind === "time" ? entered.value : { constant: asComplex(entered)?.re ?? 0, waves: [] };
  const factor = measureFactor("peak", measure);
  const inMeasure = waves.map(({ omega, phasor }) => ({
    omega,
    phasor: complex(phasor.re * factor, phasor.im * factor),
  }));
  return [{ omega: 0, phasor: complex(constant) }, ...inMeasure].filter(({ phasor }) => magnitude(phasor) > 0);
}

/** The number where it is a plain one: real, or a function of time that stands still. */
function realOf(entered: EnteredNumber): number | null {
  if (entered.kind === "time") {
    return entered.value.waves.every(({ phasor }) => magnitude(phasor) === 0) ? entered.value.constant : null;
  }
  const value = asComplex(entered);
  return value !== null && isReal(value) ? value.re : null;
}

function formOf(entered: EnteredNumber): ValueForm {
  if (entered.kind === "time") return "timeSum";
  return realOf(entered) === null ? "phasor" : "number";
}
