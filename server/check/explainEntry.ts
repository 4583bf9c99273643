import { type Entry, judgeZeroing, readEntry, type ZeroingDecision } from "../../shared/check";
import { type EarlierLines, type EarlierValue, type MistakeBooks, mistakeBooks } from "../../shared/check/mistakes";
import type { PartId } from "../../shared/circuit";
import { cardOf, TOTAL_CARD, tidyCard } from "../../shared/messages";
import type { UnitSymbol } from "../../shared/quantity";
import type { SolvedBoard } from "./checkEntry";
import type { Checked, CheckJob } from "./checker";
import { Memory } from "./memory";

/** Quantities whose wrong values are remembered: those that a few classes try at the same time. */
const MEMORY = 32;
/** Written figures that are taken to be meant: beyond them doubles tell nothing. */
const MOST_FIGURES = 10;
const books = new Memory<MistakeBooks>(MEMORY);

/** What is known of a wrong entry besides the comparison, as {@link Checked} has it. */
type Explained = Pick<Checked & { readonly outcome: "judged" }, "explanations" | "follows">;

export const UNEXPLAINED: Explained = { explanations: [], follows: [] };

/**
 * The mistakes that lead to a wrong entry, the least surprising first, by what was tried at the other cards, and zeroed
 * for this one, as well; none where none is known to. A total that is the sum of values there, some of them wrong,
 * follows from those.
 */
export function explainEntry(solved: SolvedBoard, job: CheckJob, unit: UnitSymbol): Explained {
  const { key, circuit, alone, report, measure } = solved;
  const { wanted, card, text, rules } = job;
  const asked = circuit.wanted[report?.wanted.findIndex(({ name }) => name === wanted) ?? -1];
  const entry = entryOf(solved, wanted, text, unit);
  if (asked === undefined || entry === null) return UNEXPLAINED;
  const entered = entry.number;
  const ofWanted = books.take(JSON.stringify([key, wanted]), () =>
    mistakeBooks({ circuit, wanted: asked, grouping: alone }),
  );
  const sources = card === TOTAL_CARD ? null : sourcesOf(card);
  const book = ofWanted.of(sources);
  if (book === null) return UNEXPLAINED;
  const addends = earlierValues(solved, job, unit);
  const follows = book.follows(entered, rules.figures, measure, addends);
  if (follows !== null) return { explanations: [], follows: follows.map(cardOf) };
  const before: EarlierLines = { addends, zeroing: sources && zeroingBefore(solved, sources, job.zeroing) };
  // Whoever writes more figures than count tells more of the way there.
  const figures = Math.max(rules.figures, Math.min(entry.figures ?? 0, MOST_FIGURES));
  return { explanations: book.explain(entered, figures, measure, before), follows: [] };
}

function entryOf({ givens, measure }: SolvedBoard, wanted: string, text: string, unit: UnitSymbol): Entry | null {
  const reading = readEntry(text, { givens, measure, name: wanted, unit });
  return reading.ok ? reading.entry : null;
}

/** What was tried at the other cards: where each source has a value of its own, those alone, and no groups beside them. */
function earlierValues(solved: SolvedBoard, { wanted, card, earlier }: CheckJob, unit: UnitSymbol) {
  const all = earlier.flatMap(({ card: other, text }): EarlierValue[] => {
    const entry = other === TOTAL_CARD ? null : entryOf(solved, wanted, text, unit);
    return entry === null ? [] : [{ sources: sourcesOf(other), entered: entry.number }];
  });
  const asked = card === TOTAL_CARD ? solved.alone.flat() : sourcesOf(card);
  const alone = all.filter(({ sources: [first, ...others] }) => first && others.length === 0 && asked.includes(first));
  return alone.length === asked.length ? alone : all;
}

function zeroingBefore({ circuit }: SolvedBoard, sources: readonly PartId[], zeroing: CheckJob["zeroing"]) {
  return zeroing && judgeZeroing(circuit, sources, new Map(Object.entries(zeroing) as [PartId, ZeroingDecision][]));
}

function sourcesOf(card: string): PartId[] {
  return tidyCard(card).split("+") as PartId[];
}
