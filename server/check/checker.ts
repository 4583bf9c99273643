import type { Judgement, JudgingRules } from "../../shared/check";
import type { Explanation } from "../../shared/check/mistakes";
import type { Decisions, TryRefusal, TryValue } from "../../shared/messages";
import type { CheckedStep, StepJob } from "./steps/stepJob";

/** An entry, and the board whose answer it is judged by. */
export type CheckJob = Pick<TryValue, "wanted" | "card" | "text"> & {
  /** Another one for every state of every board. */
  readonly key: string;
  /** As one Yjs update. */
  readonly board: Uint8Array;
  readonly rules: JudgingRules;
  /** The newest values that were tried at other cards of the quantity. */
  readonly earlier: readonly Pick<TryValue, "card" | "text">[];
  /** What was made of the sources for this card, as it was checked last; null where nothing was. */
  readonly zeroing: Decisions | null;
  /** Whether to look for the mistakes that lead to a wrong value; so where nothing is said. */
  readonly isToExplain?: boolean;
};

/**
 * `answer` is the key of the answer that was judged by, as `answerOf` gives it; `explanations` are the mistakes that lead
 * to a wrong value, the least surprising first.
 */
export type Checked =
  | {
      readonly outcome: "judged";
      readonly judgement: Judgement;
      readonly answer: string;
      readonly explanations: readonly Explanation[];
      /** Cards of earlier values that are wrong, where a total is rightly added up from such; none elsewhere. */
      readonly follows: readonly string[];
    }
  | { readonly outcome: "refused"; readonly why: TryRefusal };

export interface Checker {
  /** Judges an entry. Never rejects. */
  check(job: CheckJob): Promise<Checked>;
  /** Judges a step. Never rejects. */
  checkStep(job: StepJob): Promise<CheckedStep>;
  close(): Promise<void>;
}
