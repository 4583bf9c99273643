import type { Board, EntryId } from "../../shared/board";
import { cardOf, type HiddenAddend, type HiddenReport, type HiddenWanted, TOTAL_CARD } from "../../shared/messages";
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
  /** The addends that make up its value, by their numbers: its own for a source alone, one a source for a group, none for the total. */
  readonly primes: readonly number[];
  /** Null where there is none yet, or where it is hidden from this page. */
  readonly value: Shown | null;
  /** Whether it is hidden from this page; a value that its person found in a try of their own is there. */
  readonly isHidden: boolean;
  /** `3/7 mS × 15 V`, null where there is no such product. */
  readonly product: string | null;
  /** The group's entry on the board, null for other cards. */
  readonly group: EntryId | null;
};

export const TOTAL = TOTAL_CARD;

/**
 * The cards of a wanted quantity: its addends, its total, then the groups. A quantity without addends has the total
 * alone.
 */
export function sumCards(
  wanted: HiddenWanted,
  report: HiddenReport,
  accents: ReadonlyMap<string, number>,
  board: Pick<Board, "groups" | "parts">,
): readonly SumCard[] {
  const values = new Map(report.sources.map((source) => [source.id, source.value]));
  const hidden = new Set(report.hidden);
  const alone = wanted.addends.filter((addend) => addend.sources.length === 1);
  const together = wanted.addends.filter((addend) => addend.sources.length > 1);
  const primeOf = new Map(alone.map((addend, i) => [addend.sources[0] as string, i + 1]));
  const entries = groupEntries(board);
  return [
    ...alone.map((addend) => aloneCard(addend, { values, accents, primeOf, hidden })),
    totalCard(wanted.total, report.sources.length, wanted.total === null && hidden.has(TOTAL)),
    ...together.map((addend) => groupCard(addend, { primeOf, hidden, entries })),
  ];
}

type Known = {
  readonly values: ReadonlyMap<string, string>;
  readonly accents: ReadonlyMap<string, number>;
  readonly primeOf: ReadonlyMap<string, number>;
  readonly hidden: ReadonlySet<string>;
  readonly entries: ReadonlyMap<string, EntryId>;
};

function aloneCard(
  { sources, value, coefficient }: HiddenAddend,
  { values, accents, primeOf, hidden }: Omit<Known, "entries">,
): SumCard {
  const source = sources[0] as string;
  return {
    key: source,
    title: titleOfSources(sources),
    sourceValue: values.get(source) ?? "",
    acting: new Set(sources),
    accent: accents.get(source) ?? null,
    primes: [primeOf.get(source) as number],
    value,
    isHidden: value === null && hidden.has(source),
    product: coefficient?.text ?? null,
    group: null,
  };
}

/** The title of the card of some sources: `V1 alone`, `V1, I1 and V2 together`. */
export function titleOfSources(sources: readonly string[]): string {
  return sources.length === 1
    ? `${sources[0]} alone`
    : `${sources.slice(0, -1).join(", ")} and ${sources.at(-1)} together`;
}

function groupCard(
  { sources, value }: HiddenAddend,
  { primeOf, hidden, entries }: Pick<Known, "primeOf" | "hidden" | "entries">,
): SumCard {
  const key = cardOf(sources);
  return {
    key,
    title: titleOfSources(sources),
    sourceValue: "",
    acting: new Set(sources),
    accent: null,
    primes: sources.flatMap((source) => primeOf.get(source) ?? []),
    value,
    isHidden: value === null && hidden.has(key),
    product: null,
    group: entries.get(key) ?? null,
  };
}

function totalCard(value: Shown | null, sources: number, isHidden: boolean): SumCard {
  return {
    key: TOTAL,
    title: sources === 1 ? "The one source" : "All sources",
    sourceValue: "",
    acting: null,
    accent: null,
    primes: [],
    value,
    isHidden,
    product: null,
    group: null,
  };
}

function groupEntries({ groups, parts }: Pick<Board, "groups" | "parts">): ReadonlyMap<string, EntryId> {
  const names = new Map(parts.map((part) => [part.id, part.name]));
  return new Map(groups.map(({ id, sources }) => [cardOf(sources.map((source) => names.get(source) ?? "")), id]));
}

/** The card of this key, else the total, which is always there. */
export function chosenCard(cards: readonly SumCard[], key: string): SumCard | null {
  return cards.find((card) => card.key === key) ?? cards.find((card) => card.key === TOTAL) ?? null;
}
