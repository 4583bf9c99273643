import { quantityProblemText, unreachable } from "../quantity";
import { dimensionKind } from "./dimension";
import type { EntryProblem } from "./entryProblem";
import { FUNCTIONS } from "./token";

/** One or two plain sentences that say what in an entry can't be read, and what to write instead. */
export function entryProblemText(problem: EntryProblem): string {
  // Longer than a function should be, since it is a list: one sentence a code.
  switch (problem.code) {
    case "empty":
      return "Nothing is written here. Write a number with its unit, or an expression such as 8 mA * R2/(R1 + R2).";
    case "tooLong":
      return `This is too long: at most ${problem.limit} characters are read.`;
    case "tooManyTerms":
      return `This has too many numbers, names and signs: at most ${problem.limit} are read.`;
    case "tooDeep":
      return `This has too many parentheses inside one another: at most ${problem.limit} are read.`;
    case "quantity":
      return quantityProblemText(problem.problem);
    case "unknownName":
      return `There is no part "${problem.name}" in this circuit, and it is no unit.${similarText(problem.similar)}`;
    case "unknownFunction":
      return `"${problem.name}" can't be used here. Functions are ${FUNCTIONS.join(", ")}.`;
    case "quantityInValue":
      return `A value is made of numbers and parts alone: put the number in for "${problem.name}".`;
    case "unknownQuantity":
      return `"${problem.name}" is of no node and no part of this circuit.`;
    case "undetermined":
      return `"${problem.name}" has no single value in this circuit.`;
    case "noAddend":
      return `"${problem.name}" has more primes than there are addends.`;
    case "noValue":
      return `"${problem.name}" is a part without a value of its own.`;
    case "unknownCharacter":
      return `"${problem.found}" has no meaning here.`;
    case "equation":
      return "Write the value alone, without an equals sign, or with the name of what is asked before it.";
    case "equalsMissing":
      return "An equation needs an equals sign.";
    case "sideMissing":
      return "Nothing stands on one side of the equals sign.";
    case "tooManySides":
      return `This has too many equals signs: at most ${problem.limit - 1} are read.`;
    case "notClosed":
      return "A parenthesis is opened and not closed.";
    case "notOpened":
      return "A parenthesis is closed that was not opened.";
    case "argumentMissing":
      return `"${problem.name}" needs what it is of in parentheses.`;
    case "phaseMissing":
      return 'Behind "∠" a phase is expected, such as 45°.';
    case "exponent":
      return `An exponent is a whole number from −${problem.limit} to ${problem.limit}.`;
    case "unfinished":
      return "The expression stops before it is complete.";
    case "misplaced":
      return problem.found === "" ? "A sign stands where it can't." : `"${problem.found}" stands where it can't.`;
    case "unitsDiffer":
      return `${capital(dimensionKind(problem.left))} and ${dimensionKind(problem.right)} can't be ${operationText(problem.operation)}.`;
    case "dividedByZero":
      return "This divides by zero.";
    case "numberTooLarge":
      return "A number in this grows beyond what is computed here.";
    case "rootOfUnit":
      return `The root of ${dimensionKind(problem.dimension)} has no unit.`;
    case "angleHasUnit":
      return `"${problem.name}" is taken of an angle, such as 30°, and this is ${dimensionKind(problem.dimension)}.`;
    case "timesTime":
      return "Functions of time can be added, and multiplied or divided by numbers, but not by one another.";
    case "phasorAndTime":
      return "A phasor and a function of time can't be in one expression. Write all of it in one of the two ways.";
    case "functionOfTime":
      return `"${problem.name}" can't be taken of a function of time here.`;
    default:
      return unreachable(problem);
  }
}

function similarText(similar: readonly string[]): string {
  return similar.length === 0 ? "" : ` Is ${similar.join(" or ")} meant?`;
}

function operationText(operation: "add" | "subtract" | "parallel"): string {
  switch (operation) {
    case "add":
      return "added";
    case "subtract":
      return "subtracted";
    case "parallel":
      return "put in parallel";
    default:
      return unreachable(operation);
  }
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
