import type * as Y from "yjs";
import { applyCommand } from "./apply";
import type { Board } from "./board";
import type { Origin } from "./command";
import { ENTRY_MAPS, entriesOf, inkOf } from "./document";

/** Puts a board in the place of all that a document holds, its ink included, in one transaction. */
export function replaceBoard(doc: Y.Doc, board: Board, origin: Origin): void {
  doc.transact(() => {
    for (const key of ENTRY_MAPS) entriesOf(doc, key).clear();
    inkOf(doc).clear();
    applyCommand(doc, { do: "fill", board }, origin);
  }, origin);
}
