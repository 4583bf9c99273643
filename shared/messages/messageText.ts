import { unreachable } from "../quantity";
import type { SolverFailure } from "./answers";
import type { Notice } from "./notice";

/** The sentences of a notice. */
export function noticeText(notice: Notice): string {
  switch (notice.code) {
    case "notStoring":
      return `Changes can't be saved at the moment (${notice.reason}). They stay on this page and reach the others once saving works again.`;
    case "storingAgain":
      return "Changes are saved again.";
    default:
      return unreachable(notice);
  }
}

/** The sentences of a solver's failure. */
export function solverFailureText(failure: SolverFailure): string {
  switch (failure.code) {
    case "overBudget":
      return `Solving this circuit took more than ${failure.milliseconds / 1000} s and was ended. A smaller circuit, or fewer sources, can be solved.`;
    case "failed":
      return `The solver failed on this circuit (${failure.message}). The drawing is safe; this is a defect of the solver.`;
    default:
      return unreachable(failure);
  }
}
