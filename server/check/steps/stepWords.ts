import type { ZeroingFault } from "../../../shared/check";
import { type EquationDiagnosis, equationText } from "../../../shared/check/equations";
import type { Explanation } from "../../../shared/check/mistakes";
import type { WordedRung } from "../rungs";
import { RUNGS, wordedRung } from "../rungs";
import type { TermNames } from "./stepJob";

/** The rungs for a zeroing that is not right: about one kind of mistake at a time, at all sources where it was made. */
export function zeroingRungs(faults: readonly ZeroingFault[]): readonly WordedRung[] {
  const [first] = faults;
  if (first === undefined) throw new Error("zeroingRungs: nothing is at fault");
  const alike = faults.filter(({ mistake }) => mistake.code === first.mistake.code);
  const mistake = { ...first.mistake, parts: alike.flatMap((each) => each.mistake.parts) };
  const explanation: Explanation = { mistakes: [mistake], addend: null };
  return RUNGS.map((rung) => wordedRung(explanation, rung));
}

/** The rungs for a line that is false by one sign, term or prefix; null for others, of which all that is known is said. */
export function lineRungs(diagnosis: EquationDiagnosis, names: TermNames): readonly WordedRung[] | null {
  const words = wordsFor(diagnosis);
  if (words === null) return null;
  const [where, principle] = words;
  const fix = equationText({ outcome: "false", diagnosis });
  // The fix alone names the term.
  return [
    { rung: "where", text: where, ...NO_NAMES },
    { rung: "principle", text: principle, ...NO_NAMES },
    { rung: "fix", text: fix, ...names },
  ];
}

const NO_NAMES: TermNames = { parts: [], nodes: [] };

function wordsFor({ code }: EquationDiagnosis): readonly [where: string, principle: string] | null {
  switch (code) {
    case "sideTurned":
      return [
        "Compare the directions in which the two sides are counted.",
        "A current or a voltage counted the other way has the other sign.",
      ];
    case "termTurned":
      return [
        "Look at the sign before each term.",
        "A term that runs against the direction of the sum is taken away from it.",
      ];
    case "termTooMuch":
      return [
        "Count the terms of each side.",
        "At a node the currents of its own branches add up to 0, around a loop the voltages of its own parts.",
      ];
    case "powerOfTen":
      return [
        "Look at the prefixes and units of each side.",
        "k is 1000 and m is a thousandth: a voltage in V over a resistance in kΩ is a current in mA.",
      ];
    default:
      return null;
  }
}
