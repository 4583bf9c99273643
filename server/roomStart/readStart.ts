import * as Y from "yjs";
import { applyCommand, type Board, boardFromFile } from "../../shared/board";
import { type CircuitFile, fileProblemText, readCircuitFile, unreachable } from "../../shared/circuit";
import { EXAMPLES } from "../../shared/examples";
import { layOutFile } from "../../shared/layout";
import type { ApiErrorCode, RoomStart } from "../../shared/messages";

/** What a new room's board begins with, as one Yjs update, null for a blank one; or why it can't. */
export type StartReading =
  | { readonly ok: true; readonly update: Uint8Array | null }
  | { readonly ok: false; readonly code: ApiErrorCode; readonly text: string };

/** A large file takes a while, above all where it has to be laid out: {@link StartThread} does that aside. */
export function readStart(start: RoomStart): StartReading {
  switch (start.kind) {
    case "blank":
      return { ok: true, update: null };
    case "example": {
      const example = EXAMPLES.find(({ id }) => id === start.id);
      if (example) return fromJson(example.json);
      return { ok: false, code: "unknownExample", text: "There is no example of that name." };
    }
    case "file":
      return fromJson(start.file);
    default:
      return unreachable(start);
  }
}

function fromJson(json: unknown): StartReading {
  const file = readCircuitFile(json);
  if (file.ok) return fromFile(file.value);
  const [first, ...others] = file.problems;
  const more =
    others.length === 0
      ? ""
      : ` There ${others.length === 1 ? "is 1 more problem" : `are ${others.length} more problems`}.`;
  return { ok: false, code: "badFile", text: `The file can't be read: ${fileProblemText(first)}${more}` };
}

/** A file that doesn't say where its parts stand is laid out. */
function fromFile(file: CircuitFile): StartReading {
  const board = boardFromFile(layOutFile(file));
  if (!board) throw new Error("readStart: a file that was laid out can't be drawn");
  return { ok: true, update: boardUpdate(board) };
}

/** A whole board as one Yjs update. */
export function boardUpdate(board: Board): Uint8Array {
  const doc = new Y.Doc();
  try {
    applyCommand(doc, { do: "fill", board }, { source: "local" });
    return Y.encodeStateAsUpdate(doc);
  } finally {
    doc.destroy();
  }
}
