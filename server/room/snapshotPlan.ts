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
