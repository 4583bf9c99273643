import { TOTAL_CARD } from "../../shared/messages";

/** Which cards' answers are shown to those who don't instruct. */
export type CardHiding = {
  readonly shows: (card: string) => boolean;
  /** In the order of the cards, the total last. */
  readonly hidden: readonly string[];
};

/**
 * What hiding some of a board's cards hides: with one source, or for a group of all, addend and total are one answer, and
 * each hides the other. `cards` are those of addends and groups, `whole` is that of all sources.
 */
export function cardHiding(cards: readonly string[], whole: string, isShown: (card: string) => boolean): CardHiding {
  const isTotalShown = isShown(TOTAL_CARD) && (!cards.includes(whole) || isShown(whole));
  const shows = (card: string) => (card === whole || card === TOTAL_CARD ? isTotalShown : isShown(card));
  return { shows, hidden: [...cards, TOTAL_CARD].filter((card) => !shows(card)) };
}
