import * as Y from "yjs";
import type { Board } from "./board";
import type { Origin } from "./command";
import { ENTRY_MAPS, entriesOf, inkOf, pageOf } from "./document";
import { readBoard } from "./read";

/** The origin of everything that this page's own person does. */
export const LOCAL: Origin = { source: "local" };

/** Calls back with the board after every transaction that changed it, which ink does not; returns its own undo. */
export function observeBoard(doc: Y.Doc, listener: (board: Board) => void): () => void {
  const onBoard = new Set<unknown>(boardTypes(doc));
  const onTransaction = ({ changedParentTypes }: Y.Transaction) => {
    if ([...changedParentTypes.keys()].some((type) => onBoard.has(type))) listener(readBoard(doc));
  };
  doc.on("afterTransaction", onTransaction);
  return () => doc.off("afterTransaction", onTransaction);
}

function boardTypes(doc: Y.Doc): readonly Y.Map<unknown>[] {
  return [...ENTRY_MAPS.map((key) => entriesOf(doc, key)), pageOf(doc)];
}

/** Undo and redo of what was done with a local origin; what others did stays. */
export type OwnHistory = {
  readonly undo: () => void;
  readonly redo: () => void;
  readonly canUndo: () => boolean;
  readonly canRedo: () => boolean;
  /** Calls back whenever one of the answers above may have changed; returns its own undo. */
  readonly observe: (listener: () => void) => () => void;
  readonly destroy: () => void;
};

export function ownHistory(doc: Y.Doc): OwnHistory {
  const manager = new Y.UndoManager([...boardTypes(doc), inkOf(doc)], {
    // Yjs compares origins by identity or constructor; ours are plain objects told apart by what they say.
    trackedOrigins: new Set([Object]),
    captureTransaction: (transaction) => isOwn(transaction.origin),
    captureTimeout: 0, // each command is a step of its own
  });
  return {
    undo: () => void manager.undo(),
    redo: () => void manager.redo(),
    canUndo: () => manager.undoStack.length > 0,
    canRedo: () => manager.redoStack.length > 0,
    observe: (listener) => {
      const events = ["stack-item-added", "stack-item-popped", "stack-cleared"] as const;
      for (const event of events) manager.on(event, listener);
      return () => {
        for (const event of events) manager.off(event, listener);
      };
    },
    destroy: () => manager.destroy(),
  };
}

function isOwn(origin: unknown): boolean {
  if (origin instanceof Y.UndoManager) return true;
  return typeof origin === "object" && origin !== null && "source" in origin && origin.source === "local";
}
