import { readEntry } from "../../shared/check";
import {
  type Candidates,
  candidatesOf,
  type Explanation,
  explainAmong,
  type Target,
} from "../../shared/check/mistakes";
import type { PartId } from "../../shared/circuit";
import { TOTAL_CARD, tidyCard } from "../../shared/messages";
import type { UnitSymbol } from "../../shared/quantity";
import type { SolvedBoard } from "./checkEntry";
import type { CheckJob } from "./checker";
import { Memory } from "./memory";

/** Cards whose wrong values are remembered: those that a few classes try at the same time. */
const MEMORY = 64;
const candidates = new Memory<Candidates | null>(MEMORY);

/** The mistakes that lead to a wrong entry, the least surprising first; none where none is known to. */
export function explainEntry(
  solved: SolvedBoard,
  { wanted, card, text, rules }: CheckJob,
  unit: UnitSymbol,
): readonly Explanation[] {
  const target = targetOf(solved, wanted, card);
  const reading = readEntry(text, { givens: solved.givens, measure: solved.measure, name: wanted, unit });
  if (target === null || !reading.ok) return [];
  const key = JSON.stringify([solved.key, wanted, tidyCard(card)]);
  const found = candidates.take(key, () => candidatesOf(target));
  if (found === null) return [];
  return explainAmong(target, found, reading.entry.number, rules.figures, solved.measure);
}

function targetOf({ circuit, alone, report }: SolvedBoard, wanted: string, card: string): Target | null {
  const asked = circuit.wanted[report?.wanted.findIndex(({ name }) => name === wanted) ?? -1];
  if (asked === undefined) return null;
  const sources = card === TOTAL_CARD ? null : (tidyCard(card).split("+") as PartId[]);
  return { circuit, wanted: asked, grouping: alone, sources };
}
