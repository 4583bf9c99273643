import { afterAll, afterEach, beforeEach, describe, expect, it } from "vitest";
import { ENTRY, type HistoryEntry, type HistoryStore, MemoryHistory } from "../../../server/history";
import { openHistory, removeFolders, temporaryFolder } from "../support/database";

function entry(room: string, sequence: number, bytes: readonly number[], kind: string = ENTRY.update): HistoryEntry {
  return {
    room,
    sequence,
    time: 1_700_000_000_000 + sequence,
    participant: "unknown",
    kind,
    bytes: Uint8Array.from(bytes),
  };
}

/** Same contents, whatever kind of byte array a store gives. */
const plain = (entries: readonly HistoryEntry[]) => entries.map((each) => ({ ...each, bytes: [...each.bytes] }));

const STORES = {
  "in memory": async (): Promise<HistoryStore> => new MemoryHistory(),
  "in SQLite": (): Promise<HistoryStore> => openHistory(temporaryFolder()),
};

describe.each(Object.entries(STORES))("a history %s", (_, open) => {
  let store: HistoryStore;
  beforeEach(async () => {
    store = await open();
  });
  afterEach(() => store.close());
  afterAll(removeFolders);

  it("gives heads and entries of a stretch, of all kinds or of some, each room its own", async () => {
    const kinds = ["join", "update", "update", "try", "update"];
    await store.append(kinds.map((kind, index) => entry("a", index + 1, new Array(index).fill(7), kind)));
    await store.append([entry("b", 1, [1])]);
    const heads = await store.heads("a", 1, 3);
    expect(heads.map(({ sequence, kind, size, time }) => [sequence, kind, size, time])).toEqual([
      [2, "update", 1, 1_700_000_000_002],
      [3, "update", 2, 1_700_000_000_003],
      [4, "try", 3, 1_700_000_000_004],
    ]);
    const read = async (...asked: Parameters<HistoryStore["read"]>) =>
      plain(await store.read(...asked)).map(({ sequence, bytes, time, room }) => [room, sequence, bytes, time % 1000]);
    expect(await read("a", 2, 3)).toEqual([
      ["a", 2, [7], 2],
      ["a", 3, [7, 7], 3],
    ]);
    expect((await read("a", 1, 9, ["try", "join"])).map(([, sequence]) => sequence)).toEqual([1, 4]);
    expect([await store.heads("c", 0, 9), await store.read("c", 1, 9)]).toEqual([[], []]);
  });

  it("gives the newest snapshot at a moment or before it", async () => {
    for (const sequence of [4, 2, 9]) {
      await store.writeSnapshot({
        room: "a",
        sequence,
        time: 5,
        bytes: Uint8Array.of(sequence),
        thin: null,
        access: null,
      });
    }
    expect(await store.snapshotsOf("a")).toEqual([2, 4, 9]);
    const at = async (sequence: number) => (await store.boardAt("a", sequence, null))?.sequence ?? null;
    expect([await at(1), await at(2), await at(8), await at(99)]).toEqual([null, 2, 4, 9]);
    expect([await store.snapshotsOf("c"), await store.boardAt("c", 1, null)]).toEqual([[], null]);
  });

  it("gives a board without its past where there is one, unless that was unfit", async () => {
    const snapshot = { room: "a", time: 5, access: null };
    await store.writeSnapshot({ ...snapshot, sequence: 3, bytes: Uint8Array.of(3, 3), thin: Uint8Array.of(1) });
    await store.writeSnapshot({ ...snapshot, sequence: 6, bytes: Uint8Array.of(6, 6), thin: null });
    const at = async (sequence: number, unfit: number | null) => {
      const stored = await store.boardAt("a", sequence, unfit);
      return stored && { ...stored, board: [...stored.board] };
    };
    const thin = { sequence: 3, board: [1], isThin: true };
    expect([await at(4, null), await at(4, 2), await at(5, 6)]).toEqual([thin, thin, thin]);
    expect(await at(4, 3)).toEqual({ sequence: 3, board: [3, 3], isThin: false });
    expect(await at(7, 3)).toEqual({ sequence: 6, board: [6, 6], isThin: false });
  });

  it("has nothing of a room that nobody has changed", async () => {
    expect(await store.load("algebra")).toEqual({ snapshot: null, entries: [] });
  });

  it("gives entries back by sequence, each room its own, with time, participant, kind and bytes", async () => {
    const entries = [entry("a", 1, [1]), entry("b", 1, [9]), entry("a", 2, [2, 0, 255]), entry("a", 3, [3], "reveal")];
    await store.append(entries.slice(0, 2));
    await store.append(entries.slice(2));
    const loaded = await store.load("a");
    expect(loaded.entries).toMatchObject(
      plain([entries[0], entries[2], entries[3]] as HistoryEntry[]).map(({ bytes: _bytes, ...rest }) => rest),
    );
    expect(plain(loaded.entries).map(({ bytes }) => bytes)).toEqual([[1], [2, 0, 255], [3]]);
  });

  it("passes over entries that it has, when an append is repeated", async () => {
    await store.append([entry("a", 1, [1]), entry("a", 2, [2])]);
    await store.append([entry("a", 1, [1]), entry("a", 2, [2]), entry("a", 3, [3])]);
    expect((await store.load("a")).entries.map(({ sequence }) => sequence)).toEqual([1, 2, 3]);
  });

  it("refuses another entry in a place that is taken, naming both, and then stores nothing", async () => {
    await store.append([entry("a", 1, [1])]);
    const append = store.append([entry("a", 1, [7]), entry("a", 2, [2])]);
    await expect(append).rejects.toThrow('entry 1 of room "a" is stored already with other bytes');
    expect((await store.load("a")).entries.map(({ sequence }) => sequence)).toEqual([1]);
  });

  it("loads the newest snapshot and what came after it", async () => {
    await store.append([entry("a", 1, [1]), entry("a", 2, [2]), entry("a", 3, [3])]);
    await store.writeSnapshot({ room: "a", sequence: 1, time: 5, bytes: Uint8Array.of(11), thin: null, access: null });
    await store.writeSnapshot({ room: "a", sequence: 2, time: 6, bytes: Uint8Array.of(12), thin: null, access: "{}" });
    const { snapshot, entries } = await store.load("a");
    expect(snapshot).toMatchObject({ room: "a", sequence: 2, time: 6, access: "{}" });
    expect([...(snapshot?.bytes ?? [])]).toEqual([12]);
    expect(entries.map(({ sequence }) => sequence)).toEqual([3]);
  });

  it("stores a batch of two hundred entries in several rooms", async () => {
    const entries = Array.from({ length: 200 }, (_, index) =>
      entry(`room${index % 4}`, Math.floor(index / 4) + 1, [index]),
    );
    await store.append(entries);
    expect((await store.load("room3")).entries.map(({ bytes }) => bytes[0])).toEqual(
      Array.from({ length: 50 }, (_, index) => index * 4 + 3),
    );
  });
});
