import { describe, expect, it } from "vitest";
import { ENTRY, type HistoryEntry, MemoryHistory, Recorder } from "../../../server/history";
import { until } from "../support/until";

const NO_EVENTS = { onStore: () => {}, onDrained: () => {} };

function entry(room: string, sequence: number, length = 1): HistoryEntry {
  return { room, sequence, time: 0, participant: "unknown", kind: ENTRY.update, bytes: new Uint8Array(length) };
}

/** A store whose appends end when the test says so. */
class HeldHistory extends MemoryHistory {
  readonly batches: (readonly HistoryEntry[])[] = [];
  #release: ((error: Error | null) => void) | null = null;

  override async append(entries: readonly HistoryEntry[]): Promise<void> {
    this.batches.push(entries);
    const error = await new Promise<Error | null>((resolve) => {
      this.#release = resolve;
    });
    if (error) throw error;
    await super.append(entries);
  }

  async finish(error: Error | null = null): Promise<void> {
    const batches = this.batches.length;
    await until("an append is under way", () => this.#release !== null);
    const release = this.#release;
    this.#release = null;
    release?.(error);
    if (error) await until("it is tried again", () => this.batches.length > batches);
  }
}

describe("group commits", () => {
  it("share what came while one was under way, and tell each entry in order", async () => {
    const store = new HeldHistory();
    const recorder = new Recorder(store, 1000, NO_EVENTS);
    const stored: number[] = [];
    const record = (sequence: number) => recorder.record(entry("a", sequence), () => stored.push(sequence));
    record(1);
    await until("the first commit", () => store.batches.length === 1);
    for (const sequence of [2, 3, 4]) record(sequence);
    expect(stored).toEqual([]);
    await store.finish();
    await until("the second commit", () => store.batches.length === 2);
    expect(stored).toEqual([1]);
    await store.finish();
    await until("all are told", () => stored.length === 4);
    expect(stored).toEqual([1, 2, 3, 4]);
    expect(store.batches.map((batch) => batch.map(({ sequence }) => sequence))).toEqual([[1], [2, 3, 4]]);
  });

  it("hold 200 entries at most, and 4 MB unless one entry alone is larger", async () => {
    const store = new HeldHistory();
    const recorder = new Recorder(store, 1e9, NO_EVENTS);
    const big = 3 * 1024 * 1024;
    const lengths = [big, big, 5 * 1024 * 1024, ...Array.from({ length: 250 }, () => 1)];
    for (const [index, length] of lengths.entries()) recorder.record(entry("a", index + 1, length), () => {});
    for (const count of [1, 2, 3, 4]) {
      await until(`commit ${count}`, () => store.batches.length === count);
      await store.finish();
    }
    await until("the last commit", () => store.batches.length === 5);
    await store.finish();
    expect(store.batches.map((batch) => batch.length)).toEqual([1, 1, 1, 200, 50]);
  });
});

describe("a store that fails", () => {
  it("is tried again with the same entries, and both turns are told once", async () => {
    const store = new HeldHistory();
    const told: (string | null)[] = [];
    const recorder = new Recorder(store, 1000, { onStore: (problem) => told.push(problem), onDrained: () => {} });
    let isStored = false;
    recorder.record(entry("a", 1), () => {
      isStored = true;
    });
    await store.finish(new Error("disk full"));
    await store.finish(new Error("disk full"));
    expect(recorder.problem).toBe("disk full");
    expect(isStored).toBe(false);
    await store.finish();
    await until("it is stored", () => isStored);
    expect(told).toEqual(["disk full", null]);
    expect(store.entries.map(({ sequence }) => sequence)).toEqual([1]);
  });

  it("is given up when the recorder closes, which says how much is left", async () => {
    const store = new HeldHistory();
    const recorder = new Recorder(store, 1000, NO_EVENTS);
    recorder.record(entry("a", 1), () => {});
    recorder.record(entry("a", 2), () => {});
    await until("a commit is under way", () => store.batches.length === 1);
    expect(await recorder.close(0)).toBe(2);
  });
});

it("is full above its limit and until half of it is stored", async () => {
  const store = new HeldHistory();
  let drained = 0;
  const recorder = new Recorder(store, 100, { onStore: () => {}, onDrained: () => drained++ });
  recorder.record(entry("a", 1, 60), () => {});
  await until("the first commit", () => store.batches.length === 1);
  expect(recorder.isFull).toBe(false);
  recorder.record(entry("a", 2, 45), () => {});
  expect(recorder.isFull).toBe(true);
  await store.finish();
  await until("the second commit", () => store.batches.length === 2);
  // 45 of 100 bytes are left.
  expect(recorder.isFull).toBe(false);
  expect(drained).toBe(1);
  await store.finish();
});

it("closes when all is stored", async () => {
  const store = new MemoryHistory();
  const recorder = new Recorder(store, 1000, NO_EVENTS);
  for (let sequence = 1; sequence <= 500; sequence++) recorder.record(entry("a", sequence), () => {});
  expect(await recorder.close(10_000)).toBe(0);
  expect(store.entries).toHaveLength(500);
});
