import type { ZeroingJudgement } from "../../../shared/check";
import type { EquationJudgement } from "../../../shared/check/equations";
import type { TryLine, TryRefusal, TryZeroing } from "../../../shared/messages";
import type { CheckJob } from "../checker";

/** A step, and the board that it is judged by. */
export type StepJob = Pick<CheckJob, "key" | "board"> &
  (
    | ({ readonly step: "zeroing" } & Omit<TryZeroing, "do">)
    | ({ readonly step: "line" } & Omit<TryLine, "do"> & Pick<CheckJob, "rules">)
  );

export type TermNames = { readonly parts: readonly string[]; readonly nodes: readonly string[] };

/** `answer` is the key of the circuit that it was judged in. */
export type CheckedStep =
  | {
      readonly outcome: "zeroing";
      readonly judgement: Exclude<ZeroingJudgement, { readonly outcome: "unread" }>;
      readonly answer: string;
    }
  | {
      readonly outcome: "line";
      readonly judgement: EquationJudgement;
      /** What the term at fault names of the circuit; nothing where no term is. */
      readonly names: TermNames;
      readonly answer: string;
    }
  | { readonly outcome: "refused"; readonly why: TryRefusal };
