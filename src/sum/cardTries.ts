import {
  type QuestionChoice,
  type Role,
  type Try,
  type TryHelp,
  type TryRefusal,
  type TryReply,
  tidyCard,
} from "../../shared/messages";
import type { SumCard } from "./cards";

/** What is tried at one card. */
export type CardTries = {
  /** The room's newest try at it. */
  readonly last: LastTry | null;
  /** Hands a value in; null where nothing is to be tried. */
  readonly hand: ((text: string) => Promise<TryReply>) | null;
  /** Whether the room is there to judge it. */
  readonly isReached: boolean;
  /** What may be done about the help with it; null for those who only look. */
  readonly help: HelpActs | null;
};

/** What may be done about the help with a wrong value. */
export type HelpActs = {
  /** Opens the card, with the help beside its working; asks for the first of it where none was given. */
  readonly open: () => void;
  readonly ask: () => void;
  readonly answer: (choice: QuestionChoice) => void;
  /** Null for instructors, whom the reason is for. */
  readonly giveReason: ((text: string) => void) | null;
  /** Why what was asked for last was not done; null where it was. */
  readonly refusal: TryRefusal | null;
  /** Whether this page has asked for something and is to be brought to it, and what to call when it has been. */
  readonly isAwaited: boolean;
  readonly arrived: () => void;
};

export type LastTry = Pick<Try, "text" | "judgement" | "count" | "isOutdated"> & {
  readonly help: ShownHelp | null;
  /** Who made it, by the name that they have now; "You" for this page's person. */
  readonly who: string;
  readonly isOwn: boolean;
};

/** The help as it is shown. A replay has besides what had been asked and answered before the rungs; a room tells the rungs alone. */
export type ShownHelp = TryHelp & { readonly answered?: readonly AnsweredQuestion[] };

export type AnsweredQuestion = {
  readonly text: string;
  /** Who answered it, within a sentence. */
  readonly who: string;
  /** What they chose; null where that is not told. */
  readonly choice: string | null;
};

/** What is chosen where it was none of the two ways that a question names. */
export const NEITHER = "neither of these";

type Person = { readonly id: string; readonly name: string };

/** The newest try at a card of a wanted quantity. */
export function lastTry(
  tries: readonly Try[],
  wanted: string,
  card: SumCard,
  people: { readonly you: Person | null; readonly participants: readonly Person[] },
): LastTry | null {
  const made = tries.find((each) => each.wanted === wanted && tidyCard(each.card) === tidyCard(card.key));
  if (!made) return null;
  const { text, judgement, help, count, isOutdated, participant, name } = made;
  const isOwn = participant === people.you?.id;
  const now = people.participants.find(({ id }) => id === participant)?.name ?? name;
  return { text, judgement, help, count, isOutdated, who: isOwn ? "You" : now, isOwn };
}

/** The word on a card for the way to its help; null where there is none. */
export function helpWord({ last, help }: Pick<CardTries, "last" | "help">): string | null {
  if (help === null || !last?.help) return null;
  const { rungs, question, hasMore, reason } = last.help;
  if (reason.state === "asked" && help.giveReason) return "Say why";
  if (question) return "Answer the question";
  if (rungs.length > 0) return "Read the help";
  return hasMore ? "Ask for help" : null;
}

/** Quantities whose answer is more than one value: no card has one to try. */
const COMPOUND = ["thevenin", "norton", "maximum-power-load"];

/**
 * Whether a value can be tried at a card: while its answer is hidden, since there is nothing to try where it stands on the
 * page, and by anybody but an observer.
 */
export function isToTry(kind: string, { isHidden }: SumCard, role: Role | null, isEnded: boolean): boolean {
  return isHidden && role !== null && role !== "observer" && !isEnded && !COMPOUND.includes(kind);
}
