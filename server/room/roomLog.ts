import type { EntryKind, HistoryStore, Recorder, Snapshot, StoredRoom } from "../history";
import type { Log } from "../log";
import { SnapshotPlan, SnapshotSeries } from "./snapshotPlan";
import { StoreGate } from "./storeGate";

export type LogServices = {
  readonly store: HistoryStore;
  readonly recorder: Recorder;
  readonly log: Log;
  /** Milliseconds since 1970. */
  readonly now: () => number;
};

/** What a snapshot keeps of a room as it is now. */
export type SnapshotContents = Pick<Snapshot, "bytes" | "thin" | "access">;

/** A room's end of the history: numbers its entries, says when they are stored, and writes snapshots now and then. */
export class RoomLog {
  readonly #room: string;
  readonly #services: LogServices;
  readonly #gate: StoreGate;
  readonly #snapshots: SnapshotPlan;
  readonly #series: SnapshotSeries;
  readonly #contents: () => SnapshotContents | null;
  #sequence: number;
  #isClosed = false;

  constructor(room: string, stored: StoredRoom, services: LogServices, contents: () => SnapshotContents | null) {
    const { snapshot, entries } = stored;
    this.#room = room;
    this.#services = services;
    this.#contents = contents;
    this.#sequence = entries.at(-1)?.sequence ?? snapshot?.sequence ?? 0;
    this.#gate = new StoreGate(this.#sequence);
    this.#series = new SnapshotSeries(snapshot?.sequence ?? null);
    for (const { bytes } of entries) this.#series.count(bytes.length);
    this.#snapshots = new SnapshotPlan(
      snapshot?.bytes.length ?? 0,
      entries.map(({ bytes }) => bytes),
    );
  }

  /** Number of the last entry, stored or not. */
  get sequence(): number {
    return this.#sequence;
  }

  get isStored(): boolean {
    return this.#gate.stored === this.#sequence;
  }

  /** Bytes that wait to be stored before they may be sent. */
  get heldBytes(): number {
    return this.#gate.heldBytes;
  }

  /** From now on nothing is recorded any more: the room is being deleted. */
  close(): void {
    this.#isClosed = true;
  }

  /** Adds an entry and gives its number; `whenStored` is called once it outlives the process. */
  record(kind: EntryKind, participant: string, bytes: Uint8Array, whenStored: () => void): number {
    if (this.#isClosed) return this.#sequence;
    const sequence = ++this.#sequence;
    const { recorder, now } = this.#services;
    this.#gate.pass(sequence, bytes.length, whenStored);
    const entry = { room: this.#room, sequence, time: now(), participant, kind, bytes };
    recorder.record(entry, () => this.#gate.open(sequence));
    this.#series.count(bytes.length);
    if (this.#snapshots.isDueAfter(bytes)) this.#writeSnapshot();
    return sequence;
  }

  /** Calls `release` as soon as entry `sequence` is stored, which may be at once. `bytes` is what it keeps in memory. */
  after(sequence: number, bytes: number, release: () => void): void {
    this.#gate.pass(sequence, bytes, release);
  }

  #writeSnapshot(): void {
    const contents = this.#contents();
    if (!contents) return;
    const { store, log, now } = this.#services;
    const snapshot = { room: this.#room, sequence: this.#sequence, time: now(), ...contents };
    this.#snapshots.taken(contents.bytes);
    // Never ahead of the entries that it stands for.
    this.#gate.pass(snapshot.sequence, contents.bytes.length, () => {
      this.#store(store, snapshot).catch((error: unknown) => log.warn(`no snapshot of room "${this.#room}"`, error));
    });
  }

  /** Writes a snapshot, and drops the one that nobody needs beside it: never before it is there. */
  async #store(store: HistoryStore, snapshot: Snapshot): Promise<void> {
    await store.writeSnapshot(snapshot);
    const superfluous = this.#series.added(snapshot.sequence);
    if (superfluous !== null && !this.#isClosed) await store.dropSnapshot(this.#room, superfluous);
  }
}
