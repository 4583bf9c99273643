import type { Answers } from "../../shared/messages";
import { type Report, solveReport } from "../../shared/solve";
import { boardReading } from "./boardReading";

/** A job's answer, without the revision, which the room knows. */
export type Solved = Pick<Answers, "boardProblems"> & { readonly report: Report | null };

/** Reads the circuit off a board, given as one Yjs update, and solves it. No report for a board without parts. */
export function solveBoard(board: Uint8Array): Solved {
  const { circuit, problems, alone, groups } = boardReading(board);
  return {
    report: circuit.parts.length > 0 ? solveReport(circuit, { groups: [...alone, ...groups] }) : null,
    boardProblems: problems,
  };
}
