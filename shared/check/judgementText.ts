import { kindInUnits, unreachable, writeNumber } from "../quantity";
import { dimensionKind } from "./dimension";
import { entryProblemText } from "./entryProblemText";
import type { Diagnosis, Judgement, ValueForm } from "./judgement";

/** What is said of an entry: one or two plain sentences about the value. */
export function judgementText(judgement: Judgement): string {
  switch (judgement.outcome) {
    case "right":
      return "Right.";
    case "wrong":
      return diagnosisText(judgement.diagnosis);
    case "unread":
      return entryProblemText(judgement.problem);
    default:
      return unreachable(judgement);
  }
}

function diagnosisText(diagnosis: Diagnosis): string {
  switch (diagnosis.code) {
    case "unitMissing":
      return `The unit is missing: ${kindInUnits(diagnosis.wanted)} is wanted.`;
    case "otherUnit":
      return `This is ${dimensionKind(diagnosis.found)}; ${kindInUnits(diagnosis.wanted)} is wanted.`;
    case "otherForm":
      return `This is ${formText(diagnosis.found)}; the answer is ${formText(diagnosis.wanted)}.`;
    case "signTurned":
      return "The size is right, the sign is turned round.";
    case "tooCoarse":
      return `This is right to ${diagnosis.figures} significant figures; ${diagnosis.wanted} count.`;
    case "powerOfTen":
      return powerText(diagnosis.power, diagnosis.sign);
    case "size":
      return diagnosis.sign === "right"
        ? `The sign is right, the size is ${factorText(diagnosis.factor)} times the right one.`
        : `The sign is turned round, and the size is ${factorText(diagnosis.factor)} times the right one.`;
    case "nothing":
      return "The answer is not 0.";
    case "unlike":
      return "This is not the answer.";
    case "phaseTurned":
      return "The size is right, the phase has the opposite sign.";
    case "phase":
      return "The size is right, the phase is not.";
    case "phasorSize":
      return diagnosis.isPhaseRight
        ? `The phase is right, the size is ${factorText(diagnosis.factor)} times the right one.`
        : `The phase is not right, and the size is ${factorText(diagnosis.factor)} times the right one.`;
    case "terms":
      return `Wrong, missing or too much: ${diagnosis.wrong.map(termText).join(", ")}.`;
    default:
      return unreachable(diagnosis);
  }
}

function formText(form: ValueForm): string {
  switch (form) {
    case "number":
      return "a plain number";
    case "phasor":
      return "a phasor";
    case "timeSum":
      return "a sum in time, such as 5 V + 2 cos(1000 t) V";
    default:
      return unreachable(form);
  }
}

function powerText(power: number, sign: "right" | "turned"): string {
  const times = writeNumber(10 ** Math.abs(power), "1").text;
  const size = `The digits are right, but the value is ${times} times too ${power > 0 ? "large" : "small"}: look at the prefixes.`;
  return sign === "right" ? size : `${size} The sign is turned round, too.`;
}

const FACTOR_FIGURES = 3;

/** To three figures, or to as many more as tell the factor from 1. */
function factorText(factor: number): string {
  for (let digits = FACTOR_FIGURES; digits < 15; digits++) {
    const { text } = writeNumber(factor, "1", { digits });
    if (text !== "1") return text;
  }
  return "1";
}

function termText(omega: number): string {
  return omega === 0 ? "the constant part" : `the part at ${writeNumber(omega, "rad/s").text}`;
}
