import type {
  HistoryEntry,
  HistoryStore,
  Snapshot,
  StoredBoard,
  StoredHead,
  StoredRoom,
} from "../../../server/history";

/** When a call fails: before it does anything, or after it has done it, as when the answer is lost. */
export type FaultMoment = "before" | "after";

/** A store of which the call with a given number (from 0, all verbs counted together) fails once. */
export class FaultyHistory implements HistoryStore {
  readonly inner: HistoryStore;
  readonly #fault: number;
  readonly #moment: FaultMoment;
  #calls = 0;

  constructor(inner: HistoryStore, fault: number, moment: FaultMoment) {
    this.inner = inner;
    this.#fault = fault;
    this.#moment = moment;
  }

  /** Whether the fault has come. */
  get hasFailed(): boolean {
    return this.#calls > this.#fault;
  }

  append(entries: readonly HistoryEntry[]): Promise<void> {
    return this.#call(() => this.inner.append(entries));
  }

  load(room: string): Promise<StoredRoom> {
    return this.#call(() => this.inner.load(room));
  }

  writeSnapshot(snapshot: Snapshot): Promise<void> {
    return this.#call(() => this.inner.writeSnapshot(snapshot));
  }

  heads(room: string, after: number, limit: number): Promise<readonly StoredHead[]> {
    return this.inner.heads(room, after, limit);
  }

  read(room: string, from: number, to: number, kinds?: readonly string[]): Promise<readonly HistoryEntry[]> {
    return this.inner.read(room, from, to, kinds);
  }

  snapshotsOf(room: string): Promise<readonly number[]> {
    return this.inner.snapshotsOf(room);
  }

  boardAt(room: string, sequence: number, unfit: number | null): Promise<StoredBoard | null> {
    return this.inner.boardAt(room, sequence, unfit);
  }

  dropSnapshot(room: string, sequence: number): Promise<void> {
    return this.inner.dropSnapshot(room, sequence);
  }

  putWhole(entries: readonly HistoryEntry[], snapshots: readonly Snapshot[]): Promise<void> {
    return this.inner.putWhole(entries, snapshots);
  }

  erase(room: string): Promise<void> {
    return this.inner.erase(room);
  }

  close(): Promise<void> {
    return this.inner.close();
  }

  async #call<T>(work: () => Promise<T>): Promise<T> {
    const isFault = this.#calls++ === this.#fault;
    if (isFault && this.#moment === "before") throw new Error("disk full");
    const result = await work();
    if (isFault) throw new Error("the answer was lost");
    return result;
  }
}

/** A store that fails all appends while `isBroken`. */
export class BreakableHistory extends FaultyHistory {
  isBroken = false;
  refusals = 0;

  constructor(inner: HistoryStore) {
    super(inner, Number.POSITIVE_INFINITY, "before");
  }

  override append(entries: readonly HistoryEntry[]): Promise<void> {
    if (!this.isBroken) return super.append(entries);
    this.refusals++;
    return Promise.reject(new Error("disk full"));
  }
}
