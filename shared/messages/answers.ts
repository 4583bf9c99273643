import type { BoardProblem } from "../board/problem";
import type { HiddenReport } from "./hiddenReport";

/** What the server's solver has to say about one state of a room's board, as one participant is sent it. */
export type Answers = {
  /** Number of the last change the answers take in: a room's history sequence, growing, 0 for the empty board. */
  readonly revision: number;
  /** Null where the board holds no circuit that can be read, or where solving failed. */
  readonly report: HiddenReport | null;
  /** Why parts of the drawing could not be read as a circuit. */
  readonly boardProblems: readonly BoardProblem[];
  /** Null where solving went well. */
  readonly failure: SolverFailure | null;
};

/** "overBudget": ended after `milliseconds`, the longest that one circuit may take. "failed": a defect of the solver. */
export type SolverFailure =
  | { readonly code: "overBudget"; readonly milliseconds: number }
  | { readonly code: "failed"; readonly message: string };
