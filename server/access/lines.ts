import { type CardLines, type LineCount, linesOf, type ShownLines, tidyCard } from "../../shared/messages";

/** Cards of which the number of shown lines is kept one by one; far more than a board has room for. */
export const LINES_LIMIT = 200;

/** The setting with another number of lines for one card. */
export function withLines(setting: ShownLines, { wanted, card, lines }: CardLines): ShownLines {
  const own = { wanted, card: tidyCard(card), lines };
  const others = setting.except.filter((each) => each.wanted !== own.wanted || each.card !== own.card);
  const isPlain = lines === (setting.shown ? "all" : 0);
  return { ...setting, except: isPlain ? others : [...others, own] };
}

/** Whether the setting has no place for one card more. */
export function isFullFor(setting: ShownLines, { wanted, card }: CardLines): boolean {
  if (setting.except.length < LINES_LIMIT) return false;
  return !setting.except.some((each) => each.wanted === wanted && each.card === tidyCard(card));
}

/** The fewer lines of two settings: what both show. */
export function linesOfBoth(one: ShownLines, other: ShownLines, wanted: string, card: string): LineCount {
  const [a, b] = [linesOf(one, wanted, card), linesOf(other, wanted, card)];
  if (a === "all") return b;
  return b === "all" ? a : Math.min(a, b);
}
