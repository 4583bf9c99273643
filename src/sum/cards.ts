import type { HiddenAddend, HiddenReport, HiddenWanted } from "../../shared/messages";
import type { Shown } from "../../shared/solve/report";

/** One card of the sum line. */
export type SumCard = {
  /** `V1`, or `V1+I1` for a group; `total` for all sources. */
  readonly key: string;
  readonly title: string;
  /** The value of the one source that acts, else "". */
  readonly sourceValue: string;
  /** The sources that act, null for all. */
  readonly acting: ReadonlySet<string> | null;
  /** Accent of the one source that acts; null for groups and for the total. */
  readonly accent: number | null;
  /** How many primes its value's name carries; 0 for the total. */
  readonly prime: number;
  readonly value: Shown | null;
};

export const TOTAL = "total";

/** The addends of a wanted quantity and its total, as cards. A quantity without addends has the total alone. */
export function sumCards(
  wanted: HiddenWanted,
  report: HiddenReport,
  accents: ReadonlyMap<string, number>,
): readonly SumCard[] {
  const values = new Map(report.sources.map((source) => [source.id, source.value]));
  const addends = wanted.addends.map((addend, i) => addendCard(addend, i, values, accents));
  return [...addends, totalCard(wanted.total, report.sources.length)];
}

function addendCard(
  addend: HiddenAddend,
  index: number,
  values: ReadonlyMap<string, string>,
  accents: ReadonlyMap<string, number>,
): SumCard {
  const [only, ...others] = addend.sources;
  const isAlone = only !== undefined && others.length === 0;
  return {
    key: addend.sources.join("+"),
    title: isAlone ? `${only} alone` : `${addend.sources.join(", ")} together`,
    sourceValue: isAlone ? (values.get(only) ?? "") : "",
    acting: new Set(addend.sources),
    accent: isAlone ? (accents.get(only) ?? null) : null,
    prime: index + 1,
    value: addend.value,
  };
}

function totalCard(total: Shown | null, sources: number): SumCard {
  const title = sources === 1 ? "The one source" : "All sources";
  return { key: TOTAL, title, sourceValue: "", acting: null, accent: null, prime: 0, value: total };
}

/** The card of this key, else the total, which is always there. */
export function chosenCard(cards: readonly SumCard[], key: string): SumCard | null {
  return cards.find((card) => card.key === key) ?? cards.at(-1) ?? null;
}
