import { cardOf, type HiddenReport, type HiddenWanted, TOTAL_CARD } from "../../shared/messages";
import type { Report, WantedReport } from "../../shared/solve";
import { cardHiding } from "./hiddenCards";

/** Whether whoever is sent a report has found the value of a card of a wanted quantity, both by name, by themselves. */
export type Found = (wanted: string, card: string) => boolean;

/**
 * The report without the answers of the cards that are not shown, and without anything else that says the same: a hidden
 * addend's coefficient and sheet; a hidden total's second method, components, sheet and power balance. Notes are words
 * that may hold numbers, so they go as soon as anything is hidden. A value that was found stays, and nothing with it: its
 * card's sheet would tell what the same sources give to all else.
 */
export function hideAnswers(
  report: Report,
  isShown: (card: string) => boolean,
  isFound: Found = () => false,
): HiddenReport {
  const addends = [...report.partials, ...report.wanted.flatMap((wanted) => wanted.addends)];
  const cards = [...new Set(addends.map(({ sources }) => cardOf(sources)))];
  const whole = cardOf(report.sources.map(({ id }) => id));
  const hiding = cardHiding(cards, whole, isShown);
  const { hidden } = hiding;
  if (hidden.length === 0) return { ...report, hidden };
  const isTotalShown = hiding.shows(TOTAL_CARD);
  const shows = (sources: readonly string[]) => hiding.shows(cardOf(sources));
  return {
    ...report,
    wanted: report.wanted.map((wanted) =>
      hideWanted(wanted, shows, isTotalShown, foundOf(wanted.name, whole, isFound)),
    ),
    nodes: isTotalShown ? report.nodes : [],
    parts: isTotalShown ? report.parts : [],
    partials: report.partials.filter(({ sources }) => shows(sources)),
    powerBalance: isTotalShown ? report.powerBalance : null,
    hidden,
  };
}

function hideWanted(
  wanted: WantedReport,
  shows: (sources: readonly string[]) => boolean,
  isTotalShown: boolean,
  isFound: (card: string) => boolean,
): HiddenWanted {
  return {
    ...wanted,
    total: isTotalShown || isFound(TOTAL_CARD) ? wanted.total : null,
    secondMethod: isTotalShown ? wanted.secondMethod : null,
    components: isTotalShown ? wanted.components : [],
    note: null,
    addends: wanted.addends.map((addend) =>
      shows(addend.sources) || isFound(cardOf(addend.sources)) ? addend : { ...addend, value: null, coefficient: null },
    ),
  };
}

/** What was found of one wanted quantity: a group of all sources and the total are one answer. */
function foundOf(wanted: string, whole: string, isFound: Found): (card: string) => boolean {
  const isWhole = (card: string) => card === whole || card === TOTAL_CARD;
  return (card) =>
    isFound(wanted, card) || (isWhole(card) && [whole, TOTAL_CARD].some((each) => isFound(wanted, each)));
}
