import type { Dimension } from "../dimension";
import type { EntryProblem } from "../entryProblem";
import type { TakenName } from "./takenNames";

/** What becomes of an equation. Plain data, so that it can be sent and kept. */
export type EquationJudgement =
  | { readonly outcome: "true" }
  /** True, but it says nothing of the circuit: whatever its voltages and currents were, or with none of them in it. */
  | { readonly outcome: "trueButEmpty"; readonly why: "identity" | "givens" }
  /** With `taken` where its short names may have been meant otherwise than they were read. */
  | { readonly outcome: "false"; readonly diagnosis: EquationDiagnosis; readonly taken?: readonly TakenName[] }
  /** `at` is where in the text, in characters. */
  | { readonly outcome: "unread"; readonly problem: EntryProblem; readonly at: number };

/** What is known of an equation that is false. Of several equals signs in a row it is about the first false one. */
export type EquationDiagnosis =
  | { readonly code: "otherUnit"; readonly left: Dimension; readonly right: Dimension }
  /** True but for the sign of one side as a whole. */
  | { readonly code: "sideTurned" }
  /** True with the other sign before one term. */
  | { readonly code: "termTurned"; readonly term: string }
  /** True without one term. */
  | { readonly code: "termTooMuch"; readonly term: string }
  /** The left side is 10^`power` times the right one. */
  | { readonly code: "powerOfTen"; readonly power: number }
  /** Which side is larger in size, null where they differ in phase or in their terms alone, and whether the signs agree. */
  | { readonly code: "unequal"; readonly larger: "left" | "right" | null; readonly signs: "same" | "opposite" | null }
  /** One side is 0 and the other is not. */
  | { readonly code: "notNothing"; readonly side: "left" | "right" };
