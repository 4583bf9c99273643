import * as Y from "yjs";
import { type BoardCircuit, circuitOf, readBoard } from "../../shared/board";
import { eachAlone, type Grouping } from "../../shared/solve";

/** What a board asks: a circuit, and the sets of its sources that are taken as addends. */
export type BoardReading = Pick<BoardCircuit, "circuit" | "problems"> & {
  readonly alone: Grouping;
  /** Beside each source alone. */
  readonly groups: Grouping;
};

/** Reads the circuit off a board, given as one Yjs update. */
export function boardReading(board: Uint8Array): BoardReading {
  const doc = new Y.Doc();
  try {
    Y.applyUpdate(doc, board);
    const { circuit, problems, groups } = circuitOf(readBoard(doc));
    return { circuit, problems, alone: eachAlone(circuit), groups };
  } finally {
    doc.destroy();
  }
}
