import { type EntryPlace, givensOf, type Judgement, judge } from "../../shared/check";
import type { Circuit } from "../../shared/circuit";
import type { Grouping } from "../../shared/solve";
import { measureOf, type Report, solveReport } from "../../shared/solve";
import { boardReading } from "../solver/boardReading";
import { answerOf } from "./answerOf";
import type { Checked, CheckJob } from "./checker";
import { explainEntry, UNEXPLAINED } from "./explainEntry";
import { Memory } from "./memory";

/** What entries about one board are judged by; no report for a board without parts. */
export type SolvedBoard = Pick<EntryPlace, "givens" | "measure"> & {
  readonly key: string;
  readonly circuit: Circuit;
  /** The sources one by one: the addends of each total. */
  readonly alone: Grouping;
  readonly report: Report | null;
};

/** Parts of a circuit, above which no mistakes are looked for: it would take longer than a class can wait. */
const PART_LIMIT = 40;

/** How many boards are remembered: as many as rooms in which people try at the same time. */
const MEMORY = 32;
const solvedBoards = new Memory<SolvedBoard>(MEMORY);

/**
 * Judges an entry by the answer of its card on the board, and finds the mistakes that lead to a wrong one. `early` hears
 * what is certain before these are looked for, which takes longest.
 */
export function checkEntry(job: CheckJob, early: (checked: Checked) => void = () => {}): Checked {
  const { wanted, card, text, rules } = job;
  const solved = solvedBoard(job);
  const { report, givens, measure } = solved;
  const answer = answerOf(report, wanted, card);
  if (!answer.ok) return { outcome: "refused", why: answer.why };
  const judgement = judge(text, { givens, measure, name: wanted }, answer.right, rules);
  const judged = { outcome: "judged", judgement, answer: answer.key, ...UNEXPLAINED } as const;
  if (job.isToExplain === false || solved.circuit.parts.length > PART_LIMIT || !isExplainable(judgement)) return judged;
  early(judged);
  return { ...judged, ...explainEntry(solved, job, answer.right.unit) };
}

/** A value of another unit or form, or one that is only written too short, says by itself what is wrong with it. */
function isExplainable(judgement: Judgement): boolean {
  if (judgement.outcome !== "wrong") return false;
  return !["unitMissing", "otherUnit", "otherForm", "tooCoarse"].includes(judgement.diagnosis.code);
}

/** What is known of a board; a class tries the same one over and over, so it is solved once. */
export function solvedBoard(job: Pick<CheckJob, "key" | "board">): SolvedBoard {
  return solvedBoards.take(job.key, () => solveBoard(job));
}

function solveBoard({ key, board }: Pick<CheckJob, "key" | "board">): SolvedBoard {
  const { circuit, alone, groups } = boardReading(board);
  const measure = measureOf(circuit);
  const report = circuit.parts.length > 0 ? solveReport(circuit, { groups: [...alone, ...groups] }) : null;
  return { key, circuit, alone, report, measure, givens: givensOf(circuit, measure) };
}
