/**
 * Keeps what a room sends from running ahead of what is stored. Everything sent is tied to a sequence, and leaves once
 * the entry with that sequence outlives the process; so nobody ever sees a change that a crash could take back.
 */
export class StoreGate {
  #stored: number;
  #held: { readonly sequence: number; readonly bytes: number; readonly release: () => void }[] = [];
  #heldBytes = 0;

  constructor(stored: number) {
    this.#stored = stored;
  }

  /** Sequence of the last stored entry. */
  get stored(): number {
    return this.#stored;
  }

  get heldBytes(): number {
    return this.#heldBytes;
  }

  /** Calls `release` as soon as entry `sequence` is stored, which may be at once. `bytes` is what it keeps in memory. */
  pass(sequence: number, bytes: number, release: () => void): void {
    if (sequence <= this.#stored) {
      release();
      return;
    }
    this.#held.push({ sequence, bytes, release });
    this.#heldBytes += bytes;
  }

  /** Tells that entry `sequence` and all before it are stored. */
  open(sequence: number): void {
    this.#stored = sequence;
    const free = this.#held.filter((each) => each.sequence <= sequence);
    this.#held = this.#held.filter((each) => each.sequence > sequence);
    for (const { bytes, release } of free) {
      this.#heldBytes -= bytes;
      release();
    }
  }
}
