import type { HistoryEntry, HistoryStore } from "./historyStore";

type Recorded = { readonly entry: HistoryEntry; readonly whenStored: () => void };

/** How many entries and bytes go into one commit at most. */
const BATCH_ENTRIES = 200;
const BATCH_BYTES = 4 * 1024 * 1024;
/** First and longest pause, in ms, before an append that failed is tried again. */
const FIRST_PAUSE = 100;
const LONGEST_PAUSE = 5000;

export type RecorderEvents = {
  /** The store began to fail, or works again; `problem` is its message, null when it works. */
  readonly onStore: (problem: string | null) => void;
  /** The backlog has shrunk to half its limit. */
  readonly onDrained: () => void;
};

/**
 * Writes all rooms' entries to the store, in the order in which they came, in group commits. A commit takes what has
 * gathered while the one before it was under way, so that nothing waits for a timer: with little to do each entry has
 * its own commit at once, and under load many share one. An append that fails is repeated until it works.
 */
export class Recorder {
  readonly #store: HistoryStore;
  readonly #events: RecorderEvents;
  readonly #backlogLimit: number;
  #queue: Recorded[] = [];
  #queuedBytes = 0;
  #wasFull = false;
  #running: Promise<void> | null = null;
  #problem: string | null = null;
  #wake: (() => void) | null = null;
  #isClosed = false;

  constructor(store: HistoryStore, backlogLimit: number, events: RecorderEvents) {
    this.#store = store;
    this.#backlogLimit = backlogLimit;
    this.#events = events;
  }

  /** Why nothing is stored at the moment; null when the store works. */
  get problem(): string | null {
    return this.#problem;
  }

  /** Whether more waits to be stored than should: whoever sends is to be held up until `onDrained`. */
  get isFull(): boolean {
    if (this.#queuedBytes > this.#backlogLimit) this.#wasFull = true;
    return this.#wasFull;
  }

  /** Queues an entry; `whenStored` is called once it outlives the process, in the order of the calls. */
  record(entry: HistoryEntry, whenStored: () => void): void {
    this.#queue.push({ entry, whenStored });
    this.#queuedBytes += entry.bytes.length;
    this.#running ??= this.#run();
  }

  /** Waits until nothing is queued, for `patience` ms at most, and says how many entries are left. Then records no more. */
  async close(patience: number): Promise<number> {
    this.#wake?.();
    if (this.#running) await Promise.race([this.#running, pause(patience)]);
    this.#isClosed = true;
    this.#wake?.();
    return this.#queue.length;
  }

  async #run(): Promise<void> {
    // Lets the frames that arrived together share the first commit.
    await Promise.resolve();
    try {
      let failures = 0;
      while (this.#queue.length > 0 && !this.#isClosed) {
        const batch = this.#nextBatch();
        const problem = await this.#append(batch);
        this.#setProblem(problem);
        if (problem === null) this.#stored(batch);
        failures = problem === null ? 0 : failures + 1;
        if (failures > 0) await this.#pauseAfter(failures);
      }
    } finally {
      // Here and not in a callback on the promise: an entry recorded in between would wait for a run that is over.
      this.#running = null;
    }
  }

  async #append(batch: readonly Recorded[]): Promise<string | null> {
    try {
      await this.#store.append(batch.map(({ entry }) => entry));
      return null;
    } catch (error) {
      return error instanceof Error ? error.message : String(error);
    }
  }

  #nextBatch(): Recorded[] {
    let bytes = 0;
    const end = this.#queue.slice(0, BATCH_ENTRIES).findIndex(({ entry }) => {
      bytes += entry.bytes.length;
      return bytes > BATCH_BYTES;
    });
    return this.#queue.slice(0, end === -1 ? BATCH_ENTRIES : Math.max(1, end));
  }

  #stored(batch: readonly Recorded[]): void {
    this.#queue = this.#queue.slice(batch.length);
    for (const { entry } of batch) this.#queuedBytes -= entry.bytes.length;
    for (const { whenStored } of batch) whenStored();
    if (this.#wasFull && this.#queuedBytes <= this.#backlogLimit / 2) {
      this.#wasFull = false;
      this.#events.onDrained();
    }
  }

  #setProblem(problem: string | null): void {
    const isNews = (problem === null) !== (this.#problem === null);
    this.#problem = problem;
    if (isNews) this.#events.onStore(problem);
  }

  async #pauseAfter(failures: number): Promise<void> {
    await pause(Math.min(FIRST_PAUSE * 2 ** (failures - 1), LONGEST_PAUSE), (wake) => {
      this.#wake = wake;
    });
    this.#wake = null;
  }
}

/** Resolves after `milliseconds`, or when the function given to `onStart` is called. */
function pause(milliseconds: number, onStart?: (wake: () => void) => void): Promise<void> {
  return new Promise((resolve) => {
    const timer = setTimeout(resolve, milliseconds);
    timer.unref();
    onStart?.(() => {
      clearTimeout(timer);
      resolve();
    });
  });
}
