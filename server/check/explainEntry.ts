import { readEntry } from "../../shared/check";
import { type Explanation, type MistakeBooks, mistakeBooks } from "../../shared/check/mistakes";
import type { PartId } from "../../shared/circuit";
import { TOTAL_CARD, tidyCard } from "../../shared/messages";
import type { UnitSymbol } from "../../shared/quantity";
import type { SolvedBoard } from "./checkEntry";
import type { CheckJob } from "./checker";
import { Memory } from "./memory";

/** Quantities whose wrong values are remembered: those that a few classes try at the same time. */
const MEMORY = 32;
const books = new Memory<MistakeBooks>(MEMORY);

/** The mistakes that lead to a wrong entry, the least surprising first; none where none is known to. */
export function explainEntry(
  { key, circuit, alone, report, givens, measure }: SolvedBoard,
  { wanted, card, text, rules }: CheckJob,
  unit: UnitSymbol,
): readonly Explanation[] {
  const asked = circuit.wanted[report?.wanted.findIndex(({ name }) => name === wanted) ?? -1];
  const reading = readEntry(text, { givens, measure, name: wanted, unit });
  if (asked === undefined || !reading.ok) return [];
  const ofWanted = books.take(JSON.stringify([key, wanted]), () =>
    mistakeBooks({ circuit, wanted: asked, grouping: alone }),
  );
  const sources = card === TOTAL_CARD ? null : (tidyCard(card).split("+") as PartId[]);
  return ofWanted.of(sources)?.explain(reading.entry.number, rules.figures, measure) ?? [];
}
