import type { Derivation } from "../../shared/derive";
import { type LineCount, type ShownWorking, TOTAL_CARD, type WorkingCard, type Workings } from "../../shared/messages";
import type { CardHiding } from "./hiddenCards";
import { hidingOf, type WholeCard, type WholeWorking, type WholeWorkings } from "./wholeWorkings";

/** What those who don't instruct may be sent: answers by card, and lines by wanted quantity and card. */
export type Showing = {
  readonly isShown: (card: string) => boolean;
  readonly linesOf: (wanted: string, card: string) => LineCount;
};

/**
 * The workings as those who don't instruct are sent them: of each card the first lines that are shown, less those that
 * tell an answer which is hidden. The total's lines tell everything, so that they go only while no answer is hidden, and
 * second methods and power table only where besides all lines of a total are shown.
 */
export function cutWorkings(whole: WholeWorkings, showing: Showing): Workings {
  const hiding = hidingOf(whole, showing.isShown);
  const isWhole = whole.workings.map((working) => isTotalShown(working, hiding, showing));
  return {
    revision: whole.revision,
    workings: whole.workings.map((working, index): ShownWorking => {
      const { wanted, kind, unit, cards, secondMethods } = working;
      return {
        wanted,
        kind,
        unit,
        cards: cards.map((card) => cutCard(card, shownLines(wanted, card, hiding, showing))),
        secondMethods: isWhole[index] ? secondMethods : null,
      };
    }),
    powerTable: isWhole.includes(true) ? whole.powerTable : null,
    failure: whole.failure,
  };
}

/** The workings as an instructor is sent them: everything, and how much of it the others are sent. */
export function wholeWorkings(whole: WholeWorkings, showing: Showing): Workings {
  const { revision, powerTable, failure } = whole;
  const hiding = hidingOf(whole, showing.isShown);
  const workings = whole.workings.map(({ wanted, kind, unit, cards, secondMethods }): ShownWorking => {
    const own = cards.map((card): WorkingCard => {
      const { derivation } = card;
      const count = shownLines(wanted, card, hiding, showing);
      return { card: card.card, name: card.name, derivation, shownLines: count, lineCount: derivation.lines.length };
    });
    return { wanted, kind, unit, cards: own, secondMethods };
  });
  return { revision, workings, powerTable, failure };
}

function shownLines(wanted: string, whole: WholeCard, hiding: CardHiding, { linesOf }: Showing): number {
  const { card, derivation, tells } = whole;
  const asked = linesOf(wanted, card);
  const count = Math.min(asked === "all" ? Number.POSITIVE_INFINITY : asked, derivation.lines.length);
  if (card === TOTAL_CARD) return hiding.hidden.length === 0 ? count : 0;
  const hidden = tells.filter((tell) => !hiding.shows(tell.card));
  return Math.min(count, ...hidden.map(({ from }) => from));
}

function isTotalShown({ wanted, cards }: WholeWorking, hiding: CardHiding, showing: Showing): boolean {
  const total = cards.find(({ card }) => card === TOTAL_CARD);
  if (total === undefined || hiding.hidden.length > 0 || showing.linesOf(wanted, TOTAL_CARD) === 0) return false;
  return shownLines(wanted, total, hiding, showing) === total.derivation.lines.length;
}

function cutCard({ card, name, derivation }: WholeCard, count: number): WorkingCard {
  return { card, name, derivation: firstLines(derivation, count), shownLines: count, lineCount: null };
}

function firstLines(derivation: Derivation, count: number): Derivation {
  if (count === derivation.lines.length) return derivation;
  const lines = derivation.lines.slice(0, count);
  // Sketches stand in the order of the lines that they belong to.
  const sketches = Math.max(0, ...lines.map(({ sketch }) => (sketch ?? -1) + 1));
  return { ...derivation, lines, sketches: derivation.sketches.slice(0, sketches), result: null };
}
