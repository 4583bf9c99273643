/** Between two snapshots that are kept for replays there are no more entries and bytes than this, where there are others. */
const MOST_BETWEEN = { entries: 1000, bytes: 512 * 1024 };

type Place = {
  readonly sequence: number;
  /** Bytes of all entries up to it that were counted. */
  readonly bytes: number;
};

/**
 * Says which snapshots a replay can do without: a room that is loaded reads the newest alone, and going to a moment is
 * quick from any that is near before it. So of those that were superseded a series stays.
 */
export class SnapshotSeries {
  #bytes = 0;
  #before: Place | null = null;
  #newest: Place | null;

  /** `sequence` is that of the newest snapshot there is, null where there is none. */
  constructor(sequence: number | null) {
    this.#newest = sequence === null ? null : { sequence, bytes: 0 };
  }

  /** To be told of each entry's bytes. */
  count(bytes: number): void {
    this.#bytes += bytes;
  }

  /** Takes the next snapshot in, and gives the sequence of the one that is superfluous now; null where all are needed. */
  added(sequence: number): number | null {
    const added = { sequence, bytes: this.#bytes };
    const [before, last] = [this.#before, this.#newest];
    this.#newest = added;
    const isNear =
      before !== null &&
      added.sequence - before.sequence <= MOST_BETWEEN.entries &&
      added.bytes - before.bytes <= MOST_BETWEEN.bytes;
    if (last && isNear) return last.sequence;
    this.#before = last;
    return null;
  }
}

/** A snapshot is due when loading the room would have to read more than this beyond the last one. */
const LEAST_BYTES = 64 * 1024;
const MOST_ENTRIES = 1000;

/**
 * Says when a room's next snapshot is due, by cost: entries since the last one must weigh half as much as it does. So
 * the snapshots of a growing room stay within three times its history, and loading reads 1.5 times the board at most.
 */
export class SnapshotPlan {
  #snapshotBytes: number;
  #bytes = 0;
  #entries = 0;

  /** `updates` are the stored entries after the last snapshot. */
  constructor(snapshotBytes: number, updates: readonly Uint8Array[]) {
    this.#snapshotBytes = snapshotBytes;
    for (const update of updates) this.#count(update);
  }

  isDueAfter(update: Uint8Array): boolean {
    this.#count(update);
    return this.#entries >= MOST_ENTRIES || this.#bytes >= Math.max(LEAST_BYTES, this.#snapshotBytes / 2);
  }

  taken(snapshot: Uint8Array): void {
    this.#snapshotBytes = snapshot.length;
    this.#bytes = 0;
    this.#entries = 0;
  }

  #count(update: Uint8Array): void {
    this.#bytes += update.length;
    this.#entries += 1;
  }
}
