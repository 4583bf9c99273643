import { tidyCard } from "./roomState";

/**
 * How many of their first lines learners and observers are sent of the workings: `shown` says it of every card, all lines
 * or none, and `except` otherwise of single ones.
 */
export type ShownLines = { readonly shown: boolean; readonly except: readonly CardLines[] };

/** Of one card of one wanted quantity, both by name. */
export type CardLines = { readonly wanted: string; readonly card: string; readonly lines: LineCount };

/** How many of the first lines; 0 hides them. */
export type LineCount = number | "all";

/** How many lines of a card are shown, its sources in any order; a number may go beyond those that there are. */
export function linesOf({ shown, except }: ShownLines, wanted: string, card: string): LineCount {
  const tidy = tidyCard(card);
  const own = except.find((each) => each.wanted === wanted && each.card === tidy);
  return own?.lines ?? (shown ? "all" : 0);
}
