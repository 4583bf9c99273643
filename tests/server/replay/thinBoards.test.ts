import { expect, it } from "vitest";
import * as Y from "yjs";
import { OPEN_ACCESS } from "../../../server/access";
import { type HistoryEntry, MemoryDirectory, MemoryHistory } from "../../../server/history";
import { LIMITS } from "../../../server/limits";
import { rebuild } from "../../../server/replay";
import { Replays } from "../../../server/replay/replays";
import { applyCommand, entryId, LOCAL, readBoard } from "../../../shared/board";
import { R } from "../../board/builders";

const ROOM = "long";
const stateOf = (doc: Y.Doc) => JSON.stringify(readBoard(doc));

/** A session of 2,300 changes, of two values by turns; with change 1,200 somebody who had seen only the first ten makes one. */
function session() {
  const [room, late] = [new Y.Doc(), new Y.Doc()];
  const entries: HistoryEntry[] = [];
  const live = [stateOf(room)];
  room.on("update", (bytes: Uint8Array) => {
    const sequence = entries.length + 1;
    entries.push({ room: ROOM, sequence, time: sequence, participant: "p", kind: "update", bytes });
    live.push(stateOf(room));
  });
  const change = (doc: Y.Doc, part: string, value: string) =>
    applyCommand(doc, { do: "setValue", id: entryId(part), value }, LOCAL);
  // So that the late one's value comes before those that it has not seen.
  [room.clientID, late.clientID] = [9, 7];
  applyCommand(room, R("R1", "1k", [0, 0], [4, 0]), LOCAL);
  applyCommand(room, R("R2", "1k", [4, 0], [4, 4]), LOCAL);
  for (let n = 3; n <= 2300; n++) {
    if (n === 10) Y.applyUpdate(late, Y.encodeStateAsUpdate(room));
    if (n === 1200) {
      change(late, "R1", "77k");
      Y.applyUpdate(room, Y.encodeStateAsUpdate(late, Y.encodeStateVector(room)));
    } else change(room, n % 2 === 0 ? "R1" : "R2", `${n}k`);
  }
  return { entries, live };
}

it("a board that the server works with is what it was live before and after a change that no thin board takes", async () => {
  const { entries, live } = session();
  const [store, directory] = [new MemoryHistory(), new MemoryDirectory()];
  await directory.create(ROOM, null);
  const rebuilt = await rebuild(entries, LIMITS, OPEN_ACCESS);
  if (!rebuilt.ok) throw new Error(rebuilt.reason);
  await store.putWhole(entries, rebuilt.snapshots);
  expect(rebuilt.snapshots.filter(({ thin }) => thin !== null).map(({ sequence }) => sequence)).toEqual([
    1000, 2000, 2300,
  ]);
  const asked: string[] = [];
  const boardAt = store.boardAt.bind(store);
  store.boardAt = async (...args) => {
    const stored = await boardAt(...args);
    asked.push(`${stored?.sequence ?? 0} ${stored?.isThin ? "thin" : "whole"}`);
    return stored;
  };
  const replays = new Replays(store, directory);
  const boardOf = async (sequence: number) => {
    const doc = new Y.Doc();
    Y.applyUpdate(doc, await replays.boardAt(ROOM, sequence));
    return stateOf(doc);
  };
  for (const at of [1100, 1199, 1200, 1150, 1900, 2100, 1250, 500]) expect(await boardOf(at)).toBe(live[at]);
  expect(asked).toEqual([
    ...["1000 thin", "1000 thin", "1000 thin", "1000 whole", "1000 whole", "1000 whole"],
    ...["2000 thin", "1000 thin", "1000 whole", "0 whole"],
  ]);
});
