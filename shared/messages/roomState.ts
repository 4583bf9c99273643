import type { TryOf } from "./ownTry";
import type { ShownLines } from "./shownLines";
import type { Trying } from "./trying";

/** What somebody is in a room. An instructor holds the room's secret link; an observer only looks. */
export type Role = "instructor" | "learner" | "observer";

/** Who may draw: all but observers, the instructor and the learners chosen, or the instructor alone. */
export type Drawers = "everyone" | "chosen" | "instructor";

export type Participant = {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
  /** Whether a page of theirs is connected now. */
  readonly isHere: boolean;
  /** Whether `drawing` lets them draw, whatever the room's lock or end say besides. */
  readonly mayDraw: boolean;
};

/** Which answers learners and observers are sent: `shown` says it of every card, and is turned round for those in `except`. */
export type ShownAnswers = { readonly shown: boolean; readonly except: readonly string[] };

/** Who is in a room and what they may do there, as one of them is told it. */
export type RoomState = {
  /** `mayDraw` takes in all: whether a change of this page would be accepted now. */
  readonly you: {
    readonly id: string;
    readonly name: string;
    readonly role: Role;
    readonly mayDraw: boolean;
    /** Whether replays call them by their name. */
    readonly isNameKept: boolean;
  };
  /** In the order in which they first came; without those who were removed. */
  readonly participants: readonly Participant[];
  readonly drawing: Drawers;
  readonly answers: ShownAnswers;
  readonly lines: ShownLines;
  readonly trying: Trying;
  /** Nobody but the instructor draws, and nobody new can join. */
  readonly isLocked: boolean;
  /** Nobody draws any more. */
  readonly isEnded: boolean;
  /** Whose own try this is; null in a room that others join. */
  readonly tryOf: TryOf | null;
};

/** Name of the card of all sources together. */
export const TOTAL_CARD = "total";

/** The card of some sources acting together, whatever their order: `V1`, `I1+V1`. */
export function cardOf(sources: readonly string[]): string {
  return [...sources].sort().join("+");
}

/** A card's name as {@link cardOf} gives it. */
export function tidyCard(card: string): string {
  return cardOf(card.split("+"));
}

/** Whether those who don't instruct are sent the answers of a card, named with its sources in any order. */
export function isShown({ shown, except }: ShownAnswers, card: string): boolean {
  return except.includes(tidyCard(card)) ? !shown : shown;
}
