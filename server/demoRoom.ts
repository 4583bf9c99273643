import { boardFromFile } from "../shared/board";
import { readCircuitFile } from "../shared/circuit";
import { EXAMPLES } from "../shared/examples";
import { type AccessChange, derivedInstructorKey, hashOfKey, instructorPath } from "./access";
import { ENTRY, type HistoryStore, jsonBytes, NOBODY, type RoomDirectory } from "./history";
import { kindOf } from "./room/accessHistory";
import { boardUpdate } from "./roomStart";

export const DEMO_ROOM = "demo";

/** Draws the first example in the demo room and shows all its lines, unless anything has ever happened there. Everyone may draw in it. */
export async function seedDemoRoom(store: HistoryStore, now: () => number): Promise<void> {
  const { snapshot, entries } = await store.load(DEMO_ROOM);
  if (snapshot || entries.length > 0) return;
  const entry = { room: DEMO_ROOM, time: now(), participant: NOBODY };
  const lines: AccessChange = { do: "showAllLines", shown: true };
  await store.append([
    { ...entry, sequence: 1, kind: ENTRY.update, bytes: demoBoard() },
    { ...entry, sequence: 2, kind: kindOf(lines), bytes: jsonBytes(lines) },
  ]);
}

/** Sees to it that the demo room's instructor's link is the one that follows from the secret, and gives its path. */
export async function demoInstructorLink(directory: RoomDirectory, secret: Uint8Array): Promise<string> {
  const key = derivedInstructorKey(secret, DEMO_ROOM);
  await directory.setKey(DEMO_ROOM, hashOfKey(key));
  return instructorPath(DEMO_ROOM, key);
}

/** The board of the first example as one Yjs update. Throws where our own example can't be drawn. */
export function demoBoard(): Uint8Array {
  const file = readCircuitFile(EXAMPLES[0]?.json);
  const board = file.ok ? boardFromFile(file.value) : null;
  if (!board) throw new Error("the first example has no readable drawing");
  return boardUpdate(board);
}
