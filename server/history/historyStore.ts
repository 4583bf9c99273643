/** Kind of a history entry whose bytes are a Yjs update of the board. Other kinds may stand beside it. */
export const BOARD_UPDATE = "update";

/** One event of a room's life. */
export type HistoryEntry = {
  readonly room: string;
  /** Counts from 1 without gaps in its room, over all kinds. */
  readonly sequence: number;
  /** Milliseconds since 1970, by the server's clock. */
  readonly time: number;
  readonly participant: string;
  readonly kind: string;
  readonly bytes: Uint8Array;
};

/** The board as it stood right after entry `sequence`, as one Yjs update. */
export type Snapshot = {
  readonly room: string;
  readonly sequence: number;
  readonly time: number;
  readonly bytes: Uint8Array;
};

export type StoredRoom = {
  readonly snapshot: Snapshot | null;
  /** Entries after the snapshot, by sequence. */
  readonly entries: readonly HistoryEntry[];
};

/** Where rooms' histories are kept. All verbs reject when the store can't do them, and have then changed nothing or all. */
export interface HistoryStore {
  /**
   * Stores all entries or none, in one commit; once it resolves they outlive the process. Entries that are stored
   * already, with the same bytes, are passed over, so that an append whose outcome is unknown can be repeated.
   */
  append(entries: readonly HistoryEntry[]): Promise<void>;
  /** The newest snapshot and all that came after it; no snapshot and no entries for a room nobody has changed. */
  load(room: string): Promise<StoredRoom>;
  writeSnapshot(snapshot: Snapshot): Promise<void>;
  close(): Promise<void>;
}
