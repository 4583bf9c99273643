import * as Y from "yjs";
import { circuitOf, readBoard } from "../../shared/board";
import type { Answers } from "../../shared/messages";
import { eachAlone, type Report, solveReport } from "../../shared/solve";

/** A job's answer, without the revision, which the room knows. */
export type Solved = Pick<Answers, "boardProblems"> & { readonly report: Report | null };

/** Reads the circuit off a board, given as one Yjs update, and solves it. No report for a board without parts. */
export function solveBoard(board: Uint8Array): Solved {
  const doc = new Y.Doc();
  try {
    Y.applyUpdate(doc, board);
    const { circuit, problems, groups } = circuitOf(readBoard(doc));
    const grouping = [...eachAlone(circuit), ...groups];
    return {
      report: circuit.parts.length > 0 ? solveReport(circuit, { groups: grouping }) : null,
      boardProblems: problems,
    };
  } finally {
    doc.destroy();
  }
}
