import { cardOf, type HiddenReport, type HiddenWanted, TOTAL_CARD } from "../../shared/messages";
import type { Report, WantedReport } from "../../shared/solve";

/**
 * The report without the answers of the cards that are not shown, and without anything else that says the same: a hidden
 * addend's coefficient and sheet; a hidden total's second method, components, sheet and power balance. With one source,
 * or for a group of all, addend and total are one answer: each hides the other. Notes are words that may hold numbers, so
 * they go as soon as anything is hidden.
 */
export function hideAnswers(report: Report, isShown: (card: string) => boolean): HiddenReport {
  const addends = [...report.partials, ...report.wanted.flatMap((wanted) => wanted.addends)];
  const cards = new Set(addends.map(({ sources }) => cardOf(sources)));
  const whole = cardOf(report.sources.map(({ id }) => id));
  const isTotalShown = isShown(TOTAL_CARD) && (!cards.has(whole) || isShown(whole));
  const shows = (sources: readonly string[]) => {
    const card = cardOf(sources);
    return card === whole ? isTotalShown : isShown(card);
  };
  const hidden = [...cards].filter((card) => !shows(card.split("+")));
  if (!isTotalShown) hidden.push(TOTAL_CARD);
  if (hidden.length === 0) return { ...report, hidden };
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
