import type { UnitSymbol } from "./unit";
import { kindInUnits, kindWithSymbol } from "./unitTable";
import { unreachable } from "./unreachable";

/** A text as read, or what is wrong with it. */
export type Reading<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: QuantityProblem };

/** What may be wrong with the text of a quantity, apart from the text itself; {@link quantityProblemText} makes the sentences. */
export type QuantityFault =
  | { readonly code: "empty"; readonly wanted: readonly UnitSymbol[] }
  | { readonly code: "tooLong"; readonly limit: number }
  | { readonly code: "tooManyDigits"; readonly limit: number }
  | { readonly code: "exponentTooLarge"; readonly limit: number }
  | { readonly code: "notANumber"; readonly found: string }
  /** A comma with one to three digits before it and three behind: decimal mark or group of thousands. */
  | { readonly code: "ambiguousComma"; readonly found: string }
  | { readonly code: "severalMarks"; readonly found: string }
  | { readonly code: "digitGroups"; readonly found: string }
  | { readonly code: "zeroDenominator" }
  | { readonly code: "unknownUnit"; readonly found: string; readonly similar: readonly string[] }
  | { readonly code: "doublePrefix"; readonly found: string }
  | { readonly code: "toleranceLetter"; readonly letter: string; readonly rest: string }
  | { readonly code: "letterCodeUnit"; readonly found: string }
  | { readonly code: "unitMissing"; readonly wanted: readonly UnitSymbol[] }
  | { readonly code: "wrongUnit"; readonly found: UnitSymbol; readonly wanted: readonly UnitSymbol[] }
  | { readonly code: "unitTwice" }
  | { readonly code: "prefixAlone" }
  | { readonly code: "sinusoidNotWanted"; readonly wanted: readonly UnitSymbol[] }
  | { readonly code: "frequencyMissing" }
  | { readonly code: "frequencyNotPositive" }
  | { readonly code: "phaseInRadians" }
  | { readonly code: "phaseUnitMissing" }
  | { readonly code: "cosineArgument" }
  | { readonly code: "sumOfTerms" }
  | { readonly code: "unexpected"; readonly found: string };

/** A fault and the whole text it was found in, cut short where it is too long to show. */
export type QuantityProblem = QuantityFault & { readonly text: string };

/** One or two plain sentences that quote the text, say what is wrong with it and what to write instead. */
export function quantityProblemText(problem: QuantityProblem): string {
  // Longer than a function should be, since it is a list: one sentence a code.
  const text = `"${problem.text}"`;
  const where = "found" in problem ? quoteIn(problem.text, problem.found) : text;
  switch (problem.code) {
    case "empty":
      return `Nothing is written here; ${wantedText(problem.wanted)} is wanted.`;
    case "tooLong":
      return `${text} is too long: at most ${problem.limit} characters are read.`;
    case "tooManyDigits":
      return `${text} has too many digits: at most ${problem.limit} are read in one number.`;
    case "exponentTooLarge":
      return `${text} has too large a power of ten: it may lie between −${problem.limit} and ${problem.limit}.`;
    case "notANumber":
      return problem.found === ""
        ? `${text} stops where a number is expected. Write one such as 3.3 or 1/3.`
        : `${text} has "${problem.found}" where a number is expected. Write one such as 3.3 or 1/3.`;
    case "ambiguousComma":
      return ambiguousCommaText(where, problem.found);
    case "severalMarks":
      return `${where} has more than one comma or point. Use one decimal mark, and spaces or nothing between thousands.`;
    case "digitGroups":
      return `${where} has a space inside a number. Spaces may only part groups of three digits; write a fraction as 3/2.`;
    case "zeroDenominator":
      return `${text} divides by zero.`;
    case "unknownUnit":
      return `${where} is not a unit known here.${similarText(problem.similar)}`;
    case "doublePrefix":
      return `${where} has two prefixes. Use one, such as n for a thousandth of µ.`;
    case "toleranceLetter":
      return `${text} ends in "${problem.letter}", which in the letter code of resistors and capacitors is a tolerance. Leave it out: "${problem.rest}".`;
    case "letterCodeUnit":
      return `${where} is in the letter code of resistors (R, K, M, G, L) and capacitors (p, n, µ, m, F). Write a decimal point, a prefix and the unit, such as 4.7 mH.`;
    case "unitMissing":
      return `${text} has no unit where ${wantedText(problem.wanted)} is wanted. Write the unit after the number.`;
    case "wrongUnit":
      return `${text} is ${kindWithSymbol(problem.found)}; ${wantedText(problem.wanted)} is wanted.`;
    case "unitTwice":
      return `${text} has its unit twice. Write it once.`;
    case "prefixAlone":
      return `${text} has a prefix without a unit. Write both together, such as mA.`;
    case "sinusoidNotWanted":
      return `${text} is a sinusoid; ${wantedText(problem.wanted)} is wanted.`;
    case "frequencyMissing":
      return `${text} is a sinusoid without a frequency. Add one, such as @ 50 Hz or @ 1000 rad/s.`;
    case "frequencyNotPositive":
      return `${text}: the frequency of a sinusoid is greater than zero. Write a constant as a number with its unit.`;
    case "phaseInRadians":
      return `${text}: a phase is written in degrees (30°) or as a fraction of π (π/6), because other numbers of radians are no exact number of degrees.`;
    case "phaseUnitMissing":
      return `${text}: the phase has no unit. Write ° after it, as in cos(1000 t + 30°).`;
    case "cosineArgument":
      return `${text}: in the parentheses goes a number times t, then a phase: cos(1000 t + 30°), or cos(2π·50 t + 30°) for hertz.`;
    case "sumOfTerms":
      return `${text} is a sum; one constant or one sinusoid is wanted. Give each term a part of its own.`;
    case "unexpected":
      return `${where} is not understood here.`;
  }
  return unreachable(problem);
}

/** The faulty bit, after the whole text where it is only a bit of it. */
function quoteIn(text: string, found: string): string {
  return found === text ? `"${text}"` : `"${text}": "${found}"`;
}

function wantedText(wanted: readonly UnitSymbol[]): string {
  if (wanted.length === 0) return "a number";
  return wanted.map(kindInUnits).join(" or ");
}

function ambiguousCommaText(where: string, found: string): string {
  const asDecimal = found.replace(",", ".");
  const asThousands = found.replace(",", "");
  return `${where} may be ${asThousands} or ${asDecimal}. Write the one that is meant in that way.`;
}

function similarText(similar: readonly string[]): string {
  if (similar.length === 0) return " Units are Ω, S, V, A, W, F, H, Hz, rad/s, s and °, with prefixes from f to T.";
  return ` Capitals matter: is ${similar.join(" or ")} meant?`;
}
