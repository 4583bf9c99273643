import { unreachable } from "../quantity";
import type { SolverFailure } from "./answers";
import type { ChangeRefusal, Notice, RequestRefusal } from "./notice";
import type { WorkingsFailure } from "./workings";

/** The sentences of a notice. */
export function noticeText(notice: Notice): string {
  switch (notice.code) {
    case "notStoring":
      return `Changes can't be saved at the moment (${notice.reason}). They stay on this page and reach the others once saving works again.`;
    case "storingAgain":
      return "Changes are saved again.";
    case "changeRefused":
      return `${changeRefusalText(notice.why)} The last change was not taken in, and the board is shown as the room has it.`;
    case "requestRefused":
      return requestRefusalText(notice.why);
    case "removed":
      return "The instructor has removed you from this room.";
    case "ended":
      return "The instructor has ended this room. Its board can still be read.";
    case "deleted":
      return "This room has been deleted, with everything in it.";
    default:
      return unreachable(notice);
  }
}

function changeRefusalText(why: ChangeRefusal): string {
  switch (why) {
    case "notAllowed":
      return "You can look at this board, but not draw on it now.";
    case "locked":
      return "The instructor has locked this room.";
    case "ended":
      return "This room has ended.";
    default:
      return unreachable(why);
  }
}

function requestRefusalText(why: RequestRefusal): string {
  switch (why) {
    case "notAllowed":
      return "Only the instructor can do this.";
    case "ended":
      return "This room has ended, so nothing in it can be changed.";
    case "unknownParticipant":
      return "That participant is not in this room any more.";
    case "isInstructor":
      return "An instructor can always draw and can't be removed.";
    case "isObserver":
      return "Observers only look. To draw, they join again as learners.";
    case "addendsHidden":
      return "The lines of the total tell every addend, and some are hidden. Show those first.";
    case "tooMany":
      return "More answers or lines are shown or hidden one by one than a room keeps. Show or hide all of them first.";
    case "inTry":
      return "This is settled in the room itself, not in somebody's own try.";
    case "notOwner":
      return "A try is begun again by whose try it is.";
    default:
      return unreachable(why);
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

/** The sentences of why there are no worked lines. */
export function workingsFailureText(failure: WorkingsFailure): string {
  switch (failure.code) {
    case "overBudget":
      return `Working this circuit out line by line took more than ${failure.milliseconds / 1000} s and was ended. The answers stand.`;
    case "tooLarge":
      return "The worked lines of this circuit are too many to be sent. Ask for fewer quantities, or group fewer sources.";
    case "failed":
      return `The worked lines of this circuit failed (${failure.message}). The answers stand; this is a defect of the program.`;
    default:
      return unreachable(failure);
  }
}
