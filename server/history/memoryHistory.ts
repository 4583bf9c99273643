import type { HistoryEntry, HistoryStore, Snapshot, StoredBoard, StoredHead, StoredRoom } from "./historyStore";

/** A history that lives as long as the object: for tests. */
export class MemoryHistory implements HistoryStore {
  readonly entries: HistoryEntry[] = [];
  readonly snapshots: Snapshot[] = [];

  async append(entries: readonly HistoryEntry[]): Promise<void> {
    const added: HistoryEntry[] = [];
    for (const entry of entries) {
      const stored = [...this.entries, ...added].find((each) => isSame(each, entry));
      if (!stored) added.push(entry);
      else if (!Buffer.from(stored.bytes).equals(entry.bytes)) throw new Error(conflictText(entry));
    }
    this.entries.push(...added);
  }

  async load(room: string): Promise<StoredRoom> {
    const snapshot = newest(this.snapshots.filter((each) => each.room === room));
    const entries = this.entries.filter((each) => each.room === room && each.sequence > (snapshot?.sequence ?? 0));
    return { snapshot, entries: entries.sort((a, b) => a.sequence - b.sequence) };
  }

  async writeSnapshot(snapshot: Snapshot): Promise<void> {
    this.snapshots.push(snapshot);
  }

  async heads(room: string, after: number, limit: number): Promise<readonly StoredHead[]> {
    const entries = this.#of(room, after + 1, Number.POSITIVE_INFINITY).slice(0, limit);
    return entries.map(({ sequence, time, participant, kind, bytes }) => {
      return { sequence, time, participant, kind, size: bytes.length };
    });
  }

  async read(room: string, from: number, to: number, kinds?: readonly string[]): Promise<readonly HistoryEntry[]> {
    return this.#of(room, from, to).filter(({ kind }) => !kinds || kinds.includes(kind));
  }

  async snapshotsOf(room: string): Promise<readonly number[]> {
    const own = this.snapshots.filter((each) => each.room === room);
    return own.map(({ sequence }) => sequence).sort((a, b) => a - b);
  }

  async boardAt(room: string, sequence: number, unfit: number | null): Promise<StoredBoard | null> {
    const found = newest(this.snapshots.filter((each) => each.room === room && each.sequence <= sequence));
    const thin = found?.sequence === unfit ? null : found?.thin;
    return found && { sequence: found.sequence, board: thin ?? found.bytes, isThin: thin != null };
  }

  async dropSnapshot(room: string, sequence: number): Promise<void> {
    const index = this.snapshots.findIndex((each) => each.room === room && each.sequence === sequence);
    if (index >= 0) this.snapshots.splice(index, 1);
  }

  async putWhole(entries: readonly HistoryEntry[], snapshots: readonly Snapshot[]): Promise<void> {
    await this.append(entries);
    this.snapshots.push(...snapshots);
  }

  async erase(room: string): Promise<void> {
    const others = <T extends { readonly room: string }>(list: T[]) => list.filter((each) => each.room !== room);
    this.entries.splice(0, this.entries.length, ...others(this.entries));
    this.snapshots.splice(0, this.snapshots.length, ...others(this.snapshots));
  }

  #of(room: string, from: number, to: number): HistoryEntry[] {
    const own = this.entries.filter((each) => each.room === room && each.sequence >= from && each.sequence <= to);
    return own.sort((a, b) => a.sequence - b.sequence);
  }

  async close(): Promise<void> {}
}

function newest(snapshots: readonly Snapshot[]): Snapshot | null {
  return snapshots.reduce<Snapshot | null>((a, b) => (a && a.sequence > b.sequence ? a : b), null);
}

function isSame(a: HistoryEntry, b: HistoryEntry): boolean {
  return a.room === b.room && a.sequence === b.sequence;
}

/** Two servers on one database, or a defect: the place in a room's history is taken by something else. */
export function conflictText(entry: Pick<HistoryEntry, "room" | "sequence">): string {
  return `entry ${entry.sequence} of room "${entry.room}" is stored already with other bytes`;
}
