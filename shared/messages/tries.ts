import type { Diagnosis, Judgement } from "../check/judgement";
import { unreachable } from "../quantity";
import { tidyCard } from "./roomState";
import { STEP_ACTIONS, type StepAction, type StepsMessage, type UnreadLine } from "./steps";
import type { TryHelp } from "./tryHelp";

/** A card of a wanted quantity, both by name. */
export type TryPlace = { readonly wanted: string; readonly card: string };

export function isSameCard(a: TryPlace, b: TryPlace): boolean {
  return a.wanted === b.wanted && tidyCard(a.card) === tidyCard(b.card);
}

/** Cards of which the newest try is kept; more than any board has room for. */
const CARD_LIMIT = 100;

/** The tries with a new one in the place of its card's last, newest last. The oldest goes where there are too many. */
export function withTry<T extends TryPlace>(tries: readonly T[], made: T): readonly T[] {
  return [...tries.filter((each) => !isSameCard(each, made)), made].slice(-CARD_LIMIT);
}

/** The try at a card that somebody means, by its number there: a newer one may have come meanwhile. */
export type MeantTry = TryPlace & { readonly count: number };

/** Whether a try is the one that is meant. */
export function isMeantTry(each: MeantTry, meant: MeantTry): boolean {
  return isSameCard(each, meant) && each.count === meant.count;
}

/** A value that somebody hands in for one card of a wanted quantity. */
export type TryValue = TryPlace & { readonly do: "tryValue"; readonly text: string };

/** What somebody asks or answers about a wrong try. */
export type HelpAction =
  /** The next rung. `given` are those that whoever asks has seen, so that two who ask at once are given one. */
  | (MeantTry & { readonly do: "askHelp"; readonly given: number })
  /** Which of the two ways it was, in the order in which the question names them. */
  | (MeantTry & { readonly do: "answerQuestion"; readonly choice: QuestionChoice })
  /** In one line, why it was so. */
  | (MeantTry & { readonly do: "giveReason"; readonly text: string });

export type QuestionChoice = 0 | 1 | "neither";

/** Has the values judged that are entered for a wanted quantity, all together. */
export type HandIn = { readonly do: "handIn"; readonly wanted: string };

export type TryAction = TryValue | HelpAction | HandIn | StepAction;

/** Longest text of a try that is taken in at all; what can be read as a value is shorter. */
export const TRY_LENGTH = 1000;

/** Longest reason, in UTF-16 units. */
export const REASON_LENGTH = 200;

/** Whether a request is about tries, which have replies of their own. */
export function isTryAction<Action extends { readonly do: string }>(
  action: Action,
): action is Extract<Action, { readonly do: TryAction["do"] }> {
  return TRY_ACTIONS.includes(action.do);
}

const TRY_ACTIONS: readonly string[] = [
  "tryValue",
  "askHelp",
  "answerQuestion",
  "giveReason",
  "handIn",
  ...STEP_ACTIONS,
] satisfies readonly TryAction["do"][];

/** What is told of a try. */
export type ToldJudgement =
  | { readonly outcome: "right" }
  /** With what is known by comparing; null where a mistake explains the value, of which nothing is told before it is asked for. */
  | { readonly outcome: "wrong"; readonly diagnosis: Diagnosis | null }
  /**
   * The sum, rightly added up, of values that were tried at other cards, of which some are wrong: one mistake is marked once.
   * `text` says which, or that other values have been tried there since.
   */
  | { readonly outcome: "follows"; readonly text: string }
  /** To be judged when it is handed in; until then it can be entered anew. */
  | { readonly outcome: "entered" };

/** A try that could be read: what was tried, by whom, and what is told of it. */
export type Try = TryPlace & {
  readonly text: string;
  /** Id of whoever made it, and their name then. */
  readonly participant: string;
  readonly name: string;
  /** Milliseconds since 1970, by the server's clock. */
  readonly time: number;
  readonly judgement: ToldJudgement;
  /** The help that there is with it; null where no mistake that is known explains it, and where none is needed. */
  readonly help: TryHelp | null;
  /** How many tries the room has had judged at this card, this one counted if it is. */
  readonly count: number;
  /** Whether the card's answer is another by now than the one it was judged by. */
  readonly isOutdated: boolean;
};

/** What the server says of tries: the newest of each card to everybody, so with steps, and to whoever asked what became of it. */
export type TriesMessage =
  | { readonly about: "room"; readonly tries: readonly Try[] }
  | StepsMessage
  | { readonly about: "request"; readonly id: number; readonly reply: TryReply };

export type TryReply =
  | ToldJudgement
  | Extract<Judgement, { readonly outcome: "unread" }>
  | UnreadLine
  /** What was asked about a try was done, or had been done already. */
  | { readonly outcome: "done" }
  | { readonly outcome: "refused"; readonly why: TryRefusal };

/** Why a try was not judged, or nothing done about one. */
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
  | "helpTooFast"
  /** The try that is meant is not its card's newest any more, or its answer is another by now. */
  | "olderTry"
  | "outdated"
  /** Nothing is entered that is still to be judged. */
  | "nothingEntered"
  /** The sources of this room are zeroed on the drawing without being asked for. */
  | "zeroingNotAsked"
  /** Something was decided of what is no source of the circuit, or the card's sources are not there. */
  | "noSource"
  /** Nothing more can be said about it. */
  | "noHelp"
  | "busy"
  /** The circuit takes longer to solve than one try may. */
  | "tooSlow"
  | "failed"
  /** The page's own: the room could not be reached, or left before it replied. */
  | "unreachable";

/** The sentences of why a try was not judged, or nothing done about one. */
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
    case "helpTooFast":
      return "This was much help in a short time. Wait a few seconds before the next.";
    case "olderTry":
      return "Another value has been tried here meanwhile.";
    case "outdated":
      return "The circuit has been changed since this was tried. Try it again.";
    case "nothingEntered":
      return "No value is entered here that is still to be handed in.";
    case "zeroingNotAsked":
      return "What the sources become is not asked in this room.";
    case "noSource":
      return "The sources of the circuit are others by now. Look at each of them again.";
    case "noHelp":
      return "There is no more help with this value.";
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
