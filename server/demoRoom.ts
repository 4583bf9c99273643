import * as Y from "yjs";
import { applyCommand, boardFromFile } from "../shared/board";
import { readCircuitFile } from "../shared/circuit";
import { EXAMPLES } from "../shared/examples";
import { BOARD_UPDATE, type HistoryStore } from "./history";

export const DEMO_ROOM = "demo";

/** Draws the first example in the demo room, unless anybody has ever drawn there. */
export async function seedDemoRoom(store: HistoryStore, now: () => number): Promise<void> {
  const { snapshot, entries } = await store.load(DEMO_ROOM);
  if (snapshot || entries.length > 0) return;
  const entry = { room: DEMO_ROOM, sequence: 1, time: now(), participant: "server", kind: BOARD_UPDATE };
  await store.append([{ ...entry, bytes: demoBoard() }]);
}

/** The board of the first example as one Yjs update. Throws where our own example can't be drawn. */
export function demoBoard(): Uint8Array {
  const file = readCircuitFile(EXAMPLES[0]?.json);
  const board = file.ok ? boardFromFile(file.value) : null;
  if (!board) throw new Error("the first example has no readable drawing");
  const doc = new Y.Doc();
  applyCommand(doc, { do: "fill", board }, { source: "local" });
  const update = Y.encodeStateAsUpdate(doc);
  doc.destroy();
  return update;
}
