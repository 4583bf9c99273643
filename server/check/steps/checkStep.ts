import { judgeZeroing } from "../../../shared/check";
import {
  type EquationJudgement,
  type EquationPlace,
  equationPlace,
  judgeEquation,
} from "../../../shared/check/equations";
import { type Circuit, isIndependentSource, type PartId, terminalsOf } from "../../../shared/circuit";
import { TOTAL_CARD, tidyCard } from "../../../shared/messages";
import { type SolvedBoard, solvedBoard } from "../checkEntry";
import { Memory } from "../memory";
import type { CheckedStep, StepJob, TermNames } from "./stepJob";
import { circuitKey, sourcesKey } from "./stepKeys";

/** How many circuits of cards are remembered as solved for equations. */
const MEMORY = 64;
const places = new Memory<EquationPlace | null>(MEMORY);

/** Chooses the free numbers by which an identity is known: always the same ones. */
const SEED = 1;

/** Judges a step by the board. */
export function checkStep(job: StepJob): CheckedStep {
  const solved = solvedBoard(job);
  const acting = actingIn(solved.circuit, job.card);
  if (acting === undefined) return { outcome: "refused", why: "unknownCard" };
  return job.step === "zeroing" ? checkZeroing(job, solved, acting) : checkLine(job, solved, acting);
}

/** The sources of a card: null for all, undefined where the circuit has no such card. */
function actingIn({ parts }: Circuit, card: string): readonly PartId[] | null | undefined {
  if (card === TOTAL_CARD) return null;
  const names = tidyCard(card).split("+") as PartId[];
  const sources = new Set(parts.filter(isIndependentSource).map(({ id }) => id));
  return names.every((name) => sources.has(name)) ? names : undefined;
}

function checkZeroing(
  { decisions }: StepJob & { readonly step: "zeroing" },
  { circuit, report }: SolvedBoard,
  acting: readonly PartId[] | null,
): CheckedStep {
  // With all sources acting there is nothing to zero.
  if (acting === null) return { outcome: "refused", why: "unknownCard" };
  if (report === null) return { outcome: "refused", why: "noAnswer" };
  const made = new Map(Object.entries(decisions).map(([source, decision]) => [source as PartId, decision]));
  const judgement = judgeZeroing(circuit, acting, made);
  if (judgement.outcome === "unread") return { outcome: "refused", why: "noSource" };
  return { outcome: "zeroing", judgement, answer: sourcesKey(report) };
}

function checkLine(
  { key, card, text, rules }: StepJob & { readonly step: "line" },
  { circuit, alone, report }: SolvedBoard,
  acting: readonly PartId[] | null,
): CheckedStep {
  if (report === null) return { outcome: "refused", why: "noAnswer" };
  const answer = circuitKey(report, card);
  if (answer === null) return { outcome: "refused", why: "unknownCard" };
  const place = places.take(JSON.stringify([key, tidyCard(card)]), () => equationPlace(circuit, alone, acting));
  if (place === null) return { outcome: "refused", why: "noAnswer" };
  const judgement = judgeEquation(text, place, { figures: rules.figures, seed: SEED });
  return { outcome: "line", judgement, names: namesIn(termAtFault(judgement), circuit), answer };
}

function termAtFault(judgement: EquationJudgement): string {
  return judgement.outcome === "false" && "term" in judgement.diagnosis ? judgement.diagnosis.term : "";
}

/** The parts and nodes that a term names: `I_R5`, `V(b)`, `Va`, `R5 · Iy`. */
function namesIn(term: string, { parts }: Circuit): TermNames {
  const ids = new Set<string>(parts.map(({ id }) => id));
  const nodes = new Set<string>(parts.flatMap(terminalsOf).map(({ node }) => node));
  const words = [...term.matchAll(/([A-Za-z][A-Za-z0-9_]*)(?:\s*\(([^()]*)\))?/g)];
  const named = words.flatMap(([, word = "", inside]) => {
    if (/^[IVU]$/i.test(word) && inside !== undefined) return inside.split(",").map((each) => each.trim());
    return ids.has(word) ? word : word.replace(/^[IVU]_?/i, "");
  });
  const ofTerm = [...new Set(named)];
  const partNames = ofTerm.filter((name) => ids.has(name));
  return { parts: partNames, nodes: ofTerm.filter((name) => nodes.has(name) && !ids.has(name)) };
}
