import type { PowerTable, SecondMethod } from "../../shared/derive";
import { type ShownWorking, TOTAL_CARD, type WorkingCard, type WorkingsFailure } from "../../shared/messages";
import { type CardHiding, cardHiding } from "./hiddenCards";

/** All worked lines to one state of a board, with what each of them gives away: what the server alone has whole. */
export type WholeWorkings = {
  readonly revision: number;
  readonly workings: readonly WholeWorking[];
  readonly powerTable: PowerTable | null;
  /** Cards of all addends and groups, as the answers have them. */
  readonly cards: readonly string[];
  /** The card of all sources together. */
  readonly whole: string;
  readonly failure: WorkingsFailure | null;
};

export type WholeWorking = Pick<ShownWorking, "wanted" | "kind" | "unit"> & {
  readonly cards: readonly WholeCard[];
  readonly secondMethods: readonly SecondMethod[];
};

export type WholeCard = Pick<WorkingCard, "card" | "name" | "derivation"> & {
  /** Which answers its lines tell. Empty for the total, whose lines may tell any. */
  readonly tells: readonly Tell[];
};

/** The lines from `from` on, counted from 0, tell an answer of `card`. */
export type Tell = { readonly card: string; readonly from: number };

/** No workings, at a revision. */
export function noWorkings(revision: number, failure: WorkingsFailure | null = null): WholeWorkings {
  return { revision, workings: [], powerTable: null, cards: [], whole: "", failure };
}

/** Which cards' answers are shown, of those that workings have. */
export function hidingOf({ cards, whole }: WholeWorkings, isShown: (card: string) => boolean): CardHiding {
  return cardHiding(cards, whole, isShown);
}

/** The cards that have the same answer as this one, itself among them: the total and the card of all sources are one. */
export function sameAnswer({ cards, whole }: WholeWorkings, card: string): readonly string[] {
  if (card !== TOTAL_CARD && card !== whole) return [card];
  return cards.includes(whole) ? [whole, TOTAL_CARD] : [TOTAL_CARD];
}
