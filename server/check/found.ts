import { cardOf, TOTAL_CARD, tidyCard } from "../../shared/messages";
import type { Report } from "../../shared/solve";
import { isTryOutdated } from "./answerOf";
import type { KeptTry } from "./keptTry";

type JudgedTry = Pick<KeptTry, "wanted" | "card" | "judgement" | "answer">;

/**
 * Which cards' values have been found: their newest try is right, by the very answer that the report has. Of an equivalent
 * nothing is, since its one total stands for several numbers.
 */
export function foundIn(report: Report, tries: readonly JudgedTry[]): (wanted: string, card: string) => boolean {
  const right = tries.filter(
    (made) => made.judgement.outcome === "right" && !isCompound(report, made.wanted) && !isTryOutdated(report, made),
  );
  return (wanted, card) => right.some((each) => each.wanted === wanted && each.card === tidyCard(card));
}

const isCompound = (report: Report, wanted: string) =>
  report.wanted.some(({ name, components }) => name === wanted && components.length > 0);

/** How many cards have a value that can be tried, and how many of these have been found. */
export function countFound(
  report: Report,
  tries: readonly JudgedTry[],
): { readonly right: number; readonly cards: number } {
  const isFound = foundIn(report, tries);
  const asked = report.wanted.filter(({ total, name }) => total !== null && !isCompound(report, name));
  const cards = asked.flatMap(({ name, addends }) =>
    [...addends.map(({ sources }) => cardOf(sources)), TOTAL_CARD].map((card) => ({ name, card })),
  );
  return { right: cards.filter(({ name, card }) => isFound(name, card)).length, cards: cards.length };
}
