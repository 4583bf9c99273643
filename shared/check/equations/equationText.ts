import { listed } from "../../circuit/problemText";
import { unreachable, writeNumber } from "../../quantity";
import { dimensionKind } from "../dimension";
import { entryProblemText } from "../entryProblemText";
import type { EquationDiagnosis, EquationJudgement } from "./equationJudgement";
import type { TakenName } from "./takenNames";

/** What is said of an equation: one to four plain sentences. Without a diagnosis, which is kept back, only that it is false. */
export function equationText(judgement: EquationJudgement | FalseOne): string {
  switch (judgement.outcome) {
    case "true":
      return "True of this circuit.";
    case "trueButEmpty":
      return judgement.why === "identity"
        ? "True, but of any circuit: both sides are the same whatever the voltages and currents are."
        : "True, but it holds no voltage or current that is looked for.";
    case "false":
      return `${judgement.diagnosis ? diagnosisText(judgement.diagnosis) : "Not true of this circuit."}${takenText(judgement.taken)}`;
    case "unread":
      return entryProblemText(judgement.problem);
    default:
      return unreachable(judgement);
  }
}

type FalseOne = { readonly outcome: "false"; readonly diagnosis: null; readonly taken?: readonly TakenName[] };

function takenText(taken: readonly TakenName[] = []): string {
  if (taken.length === 0) return "";
  const read = taken.map(({ name, as, part }) =>
    as === "current" ? `${name} as the current in ${part}` : `${name} as the source ${part}`,
  );
  return ` Read here: ${listed(read)}. The current in a part is written as I_R1; mesh currents have no names here.`;
}

function diagnosisText(diagnosis: EquationDiagnosis): string {
  switch (diagnosis.code) {
    case "otherUnit":
      return `The left side is ${dimensionKind(diagnosis.left)}, the right side ${dimensionKind(diagnosis.right)}.`;
    case "sideTurned":
      return "Not true of this circuit: the two sides have the same size and opposite signs.";
    case "termTurned":
      return `Not true of this circuit, but it would be with the other sign before ${diagnosis.term}.`;
    case "termTooMuch":
      return `Not true of this circuit, but it would be without ${diagnosis.term}.`;
    case "powerOfTen":
      return `Not true of this circuit: the left side is ${writeNumber(10 ** Math.abs(diagnosis.power), "1").text} times too ${diagnosis.power > 0 ? "large" : "small"}. Look at the prefixes.`;
    case "unequal":
      return `Not true of this circuit${comparison(diagnosis)}.`;
    case "notNothing":
      return `Not true of this circuit: the ${diagnosis.side} side is not 0.`;
    default:
      return unreachable(diagnosis);
  }
}

function comparison({ larger, signs }: Extract<EquationDiagnosis, { code: "unequal" }>): string {
  const size = larger === null ? "the two sides have the same size" : `the ${larger} side is the larger one`;
  return signs === "opposite" ? `: ${size}, and their signs are opposite` : `: ${size}`;
}
