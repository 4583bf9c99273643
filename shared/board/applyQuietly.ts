import * as Y from "yjs";

/** Applies a change to a board; one that Yjs can't read is passed over. */
export function applyQuietly(doc: Y.Doc, update: Uint8Array): void {
  try {
    Y.applyUpdate(doc, update);
  } catch {
    // A room that is loaded passes it over as well.
  }
}
