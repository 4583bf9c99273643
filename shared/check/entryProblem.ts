import type { QuantityProblem } from "../quantity";
import type { Dimension } from "./dimension";

/** Why something that was entered can't be read as a value. It is no wrong answer: nothing is judged. */
export type EntryProblem =
  | { readonly code: "empty" }
  | { readonly code: "tooLong"; readonly limit: number }
  /** More numbers, names and signs than are read. */
  | { readonly code: "tooManyTerms"; readonly limit: number }
  | { readonly code: "tooDeep"; readonly limit: number }
  /** A number, its unit, a phase or the inside of a cosine. */
  | { readonly code: "quantity"; readonly problem: QuantityProblem }
  | { readonly code: "unknownName"; readonly name: string; readonly similar: readonly string[] }
  | { readonly code: "unknownFunction"; readonly name: string }
  /** A voltage or current where only numbers and parts are read: `V(a)`, `I_R1`, `Vth`. */
  | { readonly code: "quantityInValue"; readonly name: string }
  /** A voltage or current of something that is not there: `V(x)`. */
  | { readonly code: "unknownQuantity"; readonly name: string }
  /** A voltage or current that the circuit leaves open. */
  | { readonly code: "undetermined"; readonly name: string }
  /** More primes than there are addends. */
  | { readonly code: "noAddend"; readonly name: string }
  /** A part that is there, but is not a single value: an op amp, a switch. */
  | { readonly code: "noValue"; readonly name: string }
  | { readonly code: "unknownCharacter"; readonly found: string }
  | { readonly code: "equation" }
  | { readonly code: "equalsMissing" }
  | { readonly code: "sideMissing" }
  | { readonly code: "tooManySides"; readonly limit: number }
  | { readonly code: "notClosed" }
  | { readonly code: "notOpened" }
  | { readonly code: "argumentMissing"; readonly name: string }
  | { readonly code: "phaseMissing" }
  | { readonly code: "exponent"; readonly limit: number }
  | { readonly code: "unfinished" }
  | { readonly code: "misplaced"; readonly found: string }
  | {
      readonly code: "unitsDiffer";
      readonly operation: "add" | "subtract" | "parallel";
      readonly left: Dimension;
      readonly right: Dimension;
    }
  | { readonly code: "dividedByZero" }
  | { readonly code: "numberTooLarge" }
  | { readonly code: "rootOfUnit"; readonly dimension: Dimension }
  | { readonly code: "angleHasUnit"; readonly name: "sin" | "cos"; readonly dimension: Dimension }
  /** Two functions of time multiplied, or one divided by. */
  | { readonly code: "timesTime" }
  /** A function of time and a phasor in one expression. */
  | { readonly code: "phasorAndTime" }
  | { readonly code: "functionOfTime"; readonly name: string };

/** Thrown inside this folder to end a reading; never leaves it. */
export class Unreadable extends Error {
  /** `at` is where in the text that was read, in characters; null where nobody has said. */
  constructor(
    readonly problem: EntryProblem,
    public at: number | null = null,
  ) {
    super(problem.code);
  }
}

export function refuse(problem: EntryProblem): never {
  throw new Unreadable(problem);
}

/** What a reading or a calculation gives; null where it ends with {@link Unreadable}. */
export function unlessUnreadable<R>(work: () => R): R | null {
  try {
    return work();
  } catch (error) {
    if (error instanceof Unreadable) return null;
    throw error;
  }
}
