import { isShown, linesOf, type RoomAction, TOTAL_CARD, tidyCard } from "../../shared/messages";
import type { Decision } from "./decide";
import { isFullFor } from "./lines";
import type { RoomAccess } from "./roomAccess";
import { hidingOf, sameAnswer, type WholeWorkings } from "./wholeWorkings";

/**
 * What becomes of an instructor's wish to show some lines. Lines that tell a hidden answer show it as well; those of the
 * total can't be shown while they would tell an addend that is hidden.
 */
export function decideLines(
  access: RoomAccess,
  action: Extract<RoomAction, { readonly do: "showLines" }>,
  workings: WholeWorkings,
): Decision {
  if (isFullFor(access.lines, action)) return { outcome: "refused", why: "tooMany" };
  const told = action.lines === 0 ? [] : toldBy(action, workings);
  const hiding = hidingOf(workings, (card) => isShown(access.answers, card));
  if (tidyCard(action.card) === TOTAL_CARD && action.lines !== 0) {
    const own = sameAnswer(workings, TOTAL_CARD);
    if (hiding.hidden.some((card) => !own.includes(card))) return { outcome: "refused", why: "addendsHidden" };
  }
  const reveals = told.filter((card) => !hiding.shows(card)).flatMap((card) => sameAnswer(workings, card));
  const isSame = linesOf(access.lines, action.wanted, action.card) === action.lines;
  if (isSame && reveals.length === 0) return { outcome: "nothing" };
  return { outcome: "change", change: { ...action, reveals: [...new Set(reveals)] } };
}

/** The cards of which the lines tell an answer. None where there is no such card on the board as it is. */
function toldBy(
  { wanted, card, lines }: Extract<RoomAction, { readonly do: "showLines" }>,
  { workings }: WholeWorkings,
): readonly string[] {
  const name = tidyCard(card);
  const own = workings.filter((working) => working.wanted === wanted).flatMap(({ cards }) => cards);
  const asked = own.filter((each) => each.card === name);
  if (name === TOTAL_CARD && asked.length > 0) return [TOTAL_CARD];
  const count = lines === "all" ? Number.POSITIVE_INFINITY : lines;
  return asked.flatMap(({ tells }) => tells.filter(({ from }) => from < count)).map((tell) => tell.card);
}
