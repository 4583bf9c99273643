import type { Circuit, Wanted } from "../../circuit";
import { integer, type Rational, rational } from "../../quantity";
import { type Amount, magnitude, measureOf, phaseDegrees } from "../../solve";
import { complex, conjugate, fromPolar, multiplyComplex } from "../../solve/complex";
import { frequenciesOf } from "../../solve/solve";
import { negatedAmount, scaledAmount } from "./amounts";
import { mistake } from "./mistake";
import { type Candidate, knownCandidate } from "./target";

/** Prefixes are thousands apart; nobody slips by more than four. */
export const SLIPS = [-4, -3, -2, -1, 1, 2, 3, 4];

/** Mistakes made on a value that was right until then. A resistance has no reference direction, an impedance no peak. */
export function valueSlips(right: Amount, { kind }: Wanted, circuit: Circuit): readonly Candidate[] {
  const isSeen = kind === "resistance" || kind === "impedance";
  if (kind === "power" && frequenciesOf(circuit).length > 0) {
    return [signTurned(right), ...meanSlips(right), ...prefixSlips(right)];
  }
  const ofWaves = [signTurned(right), ...peakSlips(right, measureOf(circuit))];
  return [...(isSeen ? [] : ofWaves), ...prefixSlips(right), ...phaseSlips(right)];
}

export function signTurned(right: Amount): Candidate {
  return knownCandidate(mistake("signTurned"), negatedAmount(right));
}

export function prefixSlips(right: Amount): readonly Candidate[] {
  return SLIPS.map((n) => knownCandidate(mistake("prefixSlip"), scaledAmount(right, thousands(n))));
}

export function thousands(n: number): Rational {
  const power = 1000n ** BigInt(Math.abs(n));
  return n < 0 ? rational(1n, power) : rational(power);
}

/** A mean power from peak values taken for rms values, and the other way about. */
function meanSlips(right: Amount): readonly Candidate[] {
  return [integer(2), rational(1n, 2n)].map((times) =>
    knownCandidate(mistake("peakAndRms"), scaledAmount(right, times)),
  );
}

function peakSlips(right: Amount, measure: "peak" | "rms"): readonly Candidate[] {
  if (right.phasors.length === 0) return [];
  const times = (code: "peakAndRms" | "peakToPeak", factor: number) =>
    [factor, 1 / factor].map((each) => withPhasors(right, code, (value) => multiplyComplex(value, complex(each))));
  // From trough to crest there are two peak values.
  return [...times("peakAndRms", Math.SQRT2), ...times("peakToPeak", measure === "rms" ? 2 * Math.SQRT2 : 2)];
}

function phaseSlips(right: Amount): readonly Candidate[] {
  if (right.phasors.length === 0) return [];
  const turned = (factor: number) => (value: Phasor) => fromPolar(magnitude(value), phaseDegrees(value) * factor);
  return [
    withPhasors(right, "conjugated", conjugate),
    ...[Math.PI / 180, 180 / Math.PI].map((factor) => withPhasors(right, "degreesAsRadians", turned(factor))),
  ];
}

function withPhasors(
  right: Amount,
  code: "peakAndRms" | "peakToPeak" | "conjugated" | "degreesAsRadians",
  of: (value: Phasor) => Phasor,
): Candidate {
  const phasors = right.phasors.map((term) => ({ ...term, value: of(term.value) }));
  return knownCandidate(mistake(code), { ...right, phasors });
}

type Phasor = Amount["phasors"][number]["value"];
