import { TOTAL_CARD } from "../messages";
import { unreachable } from "../quantity";
import type { Chapter, Judged } from "./chapter";

/** What a chapter is called: as an instructor named it, else in words for what begins there. `nameOf` gives participants'. */
export function chapterText({ title, subject }: Chapter, nameOf: (participant: number) => string): string {
  if (title !== null) return title;
  switch (subject.code) {
    case "solved":
      return `The circuit gives ${listed(subject.wanted)}`;
    case "opened":
      return `${capital(cardText(subject.card))} opened`;
    case "wrong":
      return `${nameOf(subject.participant)}: ${WRONG[subject.what]} for ${cardText(subject.card)}`;
    case "mended":
      return `${nameOf(subject.participant)}: ${MENDED[subject.what]}${cardText(subject.card)} mended`;
    case "revealed":
      return subject.cards.length === 0 ? "All answers shown" : `${capital(listed(subject.cards.map(cardText)))} shown`;
    case "added":
      return "A chapter";
    default:
      return unreachable(subject);
  }
}

/** What was wrong, and what stands before a card of which it was mended. */
const WRONG: Readonly<Record<Judged["what"], string>> = {
  value: "a wrong value",
  zeroing: "sources not zeroed right",
  line: "a false line",
};
const MENDED: Readonly<Record<Judged["what"], string>> = {
  value: "",
  zeroing: "sources for ",
  line: "line for ",
};

/** "the addend of V1", "V1 and I1 together", "the total". */
function cardText(card: string): string {
  if (card === TOTAL_CARD) return "the total";
  const sources = card.split("+");
  return sources.length === 1 ? `the addend of ${card}` : `${listed(sources)} together`;
}

function listed(words: readonly string[]): string {
  const [last = ""] = words.slice(-1);
  return words.length < 2 ? last : `${words.slice(0, -1).join(", ")} and ${last}`;
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
