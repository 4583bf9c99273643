import { cardOf, type HiddenReport, type HiddenWanted, TOTAL_CARD } from "../../shared/messages";
import type { Report, WantedReport } from "../../shared/solve";
import { cardHiding } from "./hiddenCards";

/**
 * The report without the answers of the cards that are not shown, and without anything else that says the same: a hidden
 * addend's coefficient and sheet; a hidden total's second method, components, sheet and power balance. Notes are words
 * that may hold numbers, so they go as soon as anything is hidden.
 */
export function hideAnswers(report: Report, isShown: (card: string) => boolean): HiddenReport {
  const addends = [...report.partials, ...report.wanted.flatMap((wanted) => wanted.addends)];
  const cards = [...new Set(addends.map(({ sources }) => cardOf(sources)))];
  const hiding = cardHiding(cards, cardOf(report.sources.map(({ id }) => id)), isShown);
  const { hidden } = hiding;
  if (hidden.length === 0) return { ...report, hidden };
  const isTotalShown = hiding.shows(TOTAL_CARD);
  const shows = (sources: readonly string[]) => hiding.shows(cardOf(sources));
  return {
    ...report,
    wanted: report.wanted.map((wanted) => hideWanted(wanted, shows, isTotalShown)),
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
): HiddenWanted {
  return {
    ...wanted,
    total: isTotalShown ? wanted.total : null,
    secondMethod: isTotalShown ? wanted.secondMethod : null,
    components: isTotalShown ? wanted.components : [],
    note: null,
    addends: wanted.addends.map((addend) =>
      shows(addend.sources) ? addend : { ...addend, value: null, coefficient: null },
    ),
  };
}
