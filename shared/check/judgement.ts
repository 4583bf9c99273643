import type { UnitSymbol } from "../quantity";
import type { Dimension } from "./dimension";
import type { EntryProblem } from "./entryProblem";

/** What becomes of an entry. Plain data, so that it can be sent and kept. */
export type Judgement =
  | { readonly outcome: "right" }
  | { readonly outcome: "wrong"; readonly diagnosis: Diagnosis }
  /** It could not be read, so nothing was judged. */
  | { readonly outcome: "unread"; readonly problem: EntryProblem };

/**
 * What is known of a wrong value, by what it is beside the right one. A mistake that explains it is a member of its own,
 * and goes before these.
 */
export type Diagnosis =
  | { readonly code: "unitMissing"; readonly wanted: UnitSymbol }
  | { readonly code: "otherUnit"; readonly found: Dimension; readonly wanted: UnitSymbol }
  /** A phasor or a function of time where a plain number is right, or the other way about. */
  | { readonly code: "otherForm"; readonly found: ValueForm; readonly wanted: ValueForm }
  | { readonly code: "signTurned" }
  /** Right to `figures` significant figures, where more count. */
  | { readonly code: "tooCoarse"; readonly figures: number; readonly wanted: number }
  /** `power` more powers of ten than the right value has. */
  | { readonly code: "powerOfTen"; readonly power: number; readonly sign: "right" | "turned" }
  /** `factor` times the size of the right value. */
  | { readonly code: "size"; readonly factor: number; readonly sign: "right" | "turned" }
  /** 0, which it is not. */
  | { readonly code: "nothing" }
  /** No factor leads from one to the other. */
  | { readonly code: "unlike" }
  | { readonly code: "phaseTurned" }
  /** A phasor of the right size whose phase is wrong. */
  | { readonly code: "phase" }
  | { readonly code: "phasorSize"; readonly factor: number; readonly isPhaseRight: boolean }
  /** A sum in time: the angular frequencies, 0 for the constant, of what is wrong in it, missing or too much. */
  | { readonly code: "terms"; readonly wrong: readonly number[] };

export type ValueForm = "number" | "phasor" | "timeSum";

/** What counts as right: settings of a problem. */
export type JudgingRules = {
  /** Significant figures that count, 1 to 12. */
  readonly figures: number;
  /** Whether a value without any unit is wrong, or is taken in the unit asked for. */
  readonly units: "demanded" | "assumed";
};

export const USUAL_RULES: JudgingRules = { figures: 3, units: "demanded" };
