import { type EntryPlace, givensOf, judge, USUAL_RULES } from "../../shared/check";
import { measureOf, type Report, solveReport } from "../../shared/solve";
import { boardReading } from "../solver/boardReading";
import { answerOf } from "./answerOf";
import type { Checked, CheckJob } from "./checker";

/** What entries about one board are judged by; no report for a board without parts. */
type SolvedBoard = Pick<EntryPlace, "givens" | "measure"> & { readonly report: Report | null };

/** How many boards are remembered: as many as rooms in which people try at the same time. */
const MEMORY = 32;
const solvedBoards = new Map<string, SolvedBoard>();

/** Judges an entry by the answer of its card on the board. */
export function checkEntry({ key, board, wanted, card, text }: CheckJob): Checked {
  const { report, givens, measure } = solvedBoard(key, board);
  const answer = answerOf(report, wanted, card);
  if (!answer.ok) return { outcome: "refused", why: answer.why };
  const judgement = judge(text, { givens, measure, name: wanted }, answer.right, USUAL_RULES);
  return { outcome: "judged", judgement, answer: answer.key };
}

/** A class tries the same board over and over, so it is solved once. */
function solvedBoard(key: string, board: Uint8Array): SolvedBoard {
  const known = solvedBoards.get(key);
  if (known) return known;
  const [oldest] = solvedBoards.keys();
  if (oldest !== undefined && solvedBoards.size >= MEMORY) solvedBoards.delete(oldest);
  const solved = solveBoard(board);
  solvedBoards.set(key, solved);
  return solved;
}

function solveBoard(board: Uint8Array): SolvedBoard {
  const { circuit, alone, groups } = boardReading(board);
  const measure = measureOf(circuit);
  const report = circuit.parts.length > 0 ? solveReport(circuit, { groups: [...alone, ...groups] }) : null;
  return { report, measure, givens: givensOf(circuit, measure) };
}
