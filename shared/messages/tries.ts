import type { Judgement } from "../check/judgement";
import { unreachable } from "../quantity";

/** A value that somebody hands in for one card of a wanted quantity, both by name. */
export type TryAction = {
  readonly do: "tryValue";
  readonly wanted: string;
  readonly card: string;
  readonly text: string;
};

/** Longest text of a try that is taken in at all; what can be read as a value is shorter. */
export const TRY_LENGTH = 1000;

/** A try that could be read: what was tried, by whom, and what is known of it. */
export type Try = Pick<TryAction, "wanted" | "card" | "text"> & {
  /** Id of whoever made it, and their name then. */
  readonly participant: string;
  readonly name: string;
  /** Milliseconds since 1970, by the server's clock. */
  readonly time: number;
  readonly judgement: Exclude<Judgement, { readonly outcome: "unread" }>;
  /** How many tries the room has made at this card, this one counted. */
  readonly count: number;
  /** Whether the card's answer is another by now than the one it was judged by. */
  readonly isOutdated: boolean;
};

/** What the server says of tries: the newest of each card to everybody, and to whoever made one what became of it. */
export type TriesMessage =
  | { readonly about: "room"; readonly tries: readonly Try[] }
  | { readonly about: "request"; readonly id: number; readonly reply: TryReply };

export type TryReply = Judgement | { readonly outcome: "refused"; readonly why: TryRefusal };

/** Why a try was not judged. */
export type TryRefusal =
  /** Observers only look. */
  | "isObserver"
  | "ended"
  /** Nothing of this name is asked, or no such card is there. */
  | "unknownCard"
  /** Two wanted quantities have the name, so that nobody can tell which is meant. */
  | "twoOfThisName"
  /** The circuit has no answer now, or is one without a single value. */
  | "noAnswer"
  | "tooFast"
  | "busy"
  /** The circuit takes longer to solve than one try may. */
  | "tooSlow"
  | "failed"
  /** The page's own: the room could not be reached, or left before it replied. */
  | "unreachable";

/** The sentences of why a try was not judged. */
export function tryRefusalText(why: TryRefusal): string {
  switch (why) {
    case "isObserver":
      return "Observers only look. To try an answer, join the room as a learner.";
    case "ended":
      return "This room has ended, so nothing more is tried in it.";
    case "unknownCard":
      return "This is not asked any more: the circuit has changed.";
    case "twoOfThisName":
      return "Two wanted quantities have this name. Rename one of them.";
    case "noAnswer":
      return "The circuit has no answer to compare with at the moment.";
    case "tooFast":
      return "These were many tries in a short time. Wait a few seconds before the next one.";
    case "busy":
      return "Many tries are being looked at. Try again in a moment.";
    case "tooSlow":
      return "Solving this circuit takes too long for a try to be compared with it.";
    case "failed":
      return "This try could not be looked at, which is a defect of the program. The room is safe.";
    case "unreachable":
      return "The room can't be reached at the moment, so nothing was tried.";
    default:
      return unreachable(why);
  }
}
