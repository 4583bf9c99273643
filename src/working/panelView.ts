import {
  type Answers,
  isShown,
  type ShownAnswers,
  type ShownWorking,
  TOTAL_CARD,
  tidyCard,
  type WorkingCard,
  type Workings,
  workingsFailureText,
} from "../../shared/messages";

/** What the panel of a card shows: words where there are no lines at all, else the cards whose lines stand in it. */
export type PanelView =
  | { readonly kind: "words"; readonly text: string }
  | {
      readonly kind: "lines";
      readonly working: ShownWorking;
      /** The open card; for a total before it those that the sum line has no card for. */
      readonly cards: readonly WorkingCard[];
    };

export type PanelQuestion = {
  readonly workings: Workings | null;
  readonly answers: Answers | null;
  /** Name of the wanted quantity in focus, null where none has an answer. */
  readonly wanted: string | null;
  /** Key of the open card, and those of all that the sum line has. */
  readonly card: string;
  readonly sumCards: readonly string[];
};

export function panelView({ workings, answers, wanted, card, sumCards }: PanelQuestion): PanelView {
  if (wanted === null) {
    return words(
      "Once the board asks for a quantity that has an answer, this is where it is worked out, line by line.",
    );
  }
  if (workings?.failure) return words(workingsFailureText(workings.failure));
  const working = workings?.workings.find((each) => each.wanted === wanted);
  if (working === undefined) {
    // The answers never wait for the lines; lines that stay the same are not sent again.
    const isComing = workings === null || (answers !== null && workings.revision < answers.revision);
    return words(
      isComing ? "The lines are being worked out …" : "There is no working for this quantity: it has no answer yet.",
    );
  }
  const cards = cardsOf(working, card, sumCards);
  return cards.length === 0 ? words(NO_LINES) : { kind: "lines", working, cards };
}

const words = (text: string): PanelView => ({ kind: "words", text });

export const NO_LINES = "There are no worked lines for this card.";

function cardsOf({ cards }: ShownWorking, open: string, sumCards: readonly string[]): readonly WorkingCard[] {
  const tidy = tidyCard(open);
  const isInSum = (each: WorkingCard) => sumCards.some((key) => tidyCard(key) === each.card);
  // Powers and equivalents have no addends in the sum line, yet their working begins with each source's lines.
  return cards.filter((each) => each.card === tidy || (tidy === TOTAL_CARD && !isInSum(each)));
}

/** Whether this page is one of those who decide how many lines are shown: only they are told how many there are. */
export function isStepping({ lineCount }: WorkingCard): boolean {
  return lineCount !== null;
}

/** `2 of 5 lines shown` for those who instruct, `2 lines` for the others. */
export function countText(cards: readonly WorkingCard[]): string {
  const shown = cards.reduce((sum, card) => sum + Math.min(card.shownLines, linesIn(card)), 0);
  const all = cards.reduce((sum, card) => sum + linesIn(card), 0);
  if (cards.some(isStepping)) return shown === all ? `all ${all} shown` : `${shown} of ${all} shown`;
  return shown === 1 ? "1 line" : `${shown} lines`;
}

export function linesIn({ lineCount, derivation }: WorkingCard): number {
  return lineCount ?? derivation.lines.length;
}

/** How many lines of a card are to be shown now. */
export type Step = { readonly card: string; readonly lines: number };

/** The next line, in the order in which the cards stand; null where all are shown. */
export function nextStep(cards: readonly WorkingCard[]): (Step & { readonly isLast: boolean }) | null {
  const card = cards.find((each) => each.shownLines < linesIn(each));
  if (card === undefined) return null;
  const lines = card.shownLines + 1;
  return { card: card.card, lines, isLast: lines === linesIn(card) };
}

/** One line back, from the last card that shows any; null where none does. */
export function backStep(cards: readonly WorkingCard[]): Step | null {
  const card = [...cards].reverse().find((each) => Math.min(each.shownLines, linesIn(each)) > 0);
  return card === undefined ? null : { card: card.card, lines: Math.min(card.shownLines, linesIn(card)) - 1 };
}

/** What stands in the place of lines that a learner is not sent. */
export function emptyText({ card, isHidden }: { readonly card: WorkingCard; readonly isHidden: boolean }): string {
  const { omitted } = card.derivation;
  if (omitted === "too large") return "This working is too long to be written out line by line. The answer stands.";
  if (omitted === "failed" || isStepping(card)) return NO_LINES;
  const rest = "Each line comes here when the instructor shows it.";
  return isHidden ? `Nothing is shown yet, and the answer is hidden too. ${rest}` : `No line is shown yet. ${rest}`;
}

/** What the next line does besides, null where it only shows itself. `hidden` are the titles of the hidden addends. */
export function stepNote(
  cards: readonly WorkingCard[],
  answers: ShownAnswers,
  hidden: readonly string[],
): string | null {
  const next = nextStep(cards);
  if (next === null) return null;
  if (next.card === TOTAL_CARD && hidden.length > 0) {
    return `The lines of the total tell every addend. Reveal first: ${hidden.join(", ")}.`;
  }
  return next.isLast && !isShown(answers, next.card)
    ? "The next line tells the answer, so it reveals this card too."
    : null;
}

/** Whether the others are sent the second methods and the power table too: they are, with all lines of the total. */
export function areMethodsShown(total: WorkingCard): boolean {
  return linesIn(total) > 0 && total.shownLines >= linesIn(total);
}

/** L shows the next line, Shift and L takes one back. Null where a key is neither, or nothing is left to do. */
export function stepOfKey(key: string, isShift: boolean, cards: readonly WorkingCard[]): Step | null {
  if (key.toLowerCase() !== "l") return null;
  return isShift ? backStep(cards) : nextStep(cards);
}
