/**
 * Kinds of history entries, and what their bytes are. "settings", "reveal" and "lines" change who may do or see what in
 * the room, the others don't: replaying a room's access goes through these three alone.
 */
export const ENTRY = {
  /** A Yjs update of the board. */
  update: "update",
  /** JSON of an AccessChange: who was admitted, renamed or removed, who may draw, how tries are judged, lock and end. */
  settings: "settings",
  /** JSON of an AccessChange: which answers are shown. */
  reveal: "reveal",
  /** JSON of an AccessChange: how many worked lines are shown, and the answers that they tell. */
  lines: "lines",
  /** JSON of a KeptTry or KeptStep (server/check): a value, a zeroing or a line that somebody tried, and what became of it. */
  try: "try",
  /** JSON of a RungGiven or StepEvent (server/check): a rung of help with a wrong try, its words and what it is about. */
  help: "help",
  /** JSON of a QuestionPut or QuestionAnswered: which of two mistakes it was. */
  question: "question",
  /** JSON of a ReasonGiven or StepEvent: why it was so, in one line. */
  reason: "reason",
  /**
   * JSON of a TryBeginning: in the room of a try, the owner was given the board of the room whose problem it is, which the
   * next update puts in the place of whatever was there. Who came into a try is told by "join", like everywhere.
   */
  begin: "begin",
  /** JSON `{"name", "role"}`: the first page of a participant came in. */
  join: "join",
  /** JSON `{}`: the last page of a participant is gone. Missing where the server ended with them inside. */
  leave: "leave",
  /** JSON of a RoomView: everybody was brought to it. */
  call: "call",
  /** JSON `{"card", "wanted"}`: somebody opened a card, or turned to another wanted quantity (its entry, or null). */
  look: "look",
  /** A piece of somebody's pointer track (shared/replay/pointerTrack.ts). */
  pointers: "pointers",
  /** JSON `{"wanted"}`: names of the wanted quantities that have an answer from here on; where they become others. */
  solved: "solved",
  /** JSON of a ChapterEdit (shared/replay): an instructor added, renamed or removed a chapter of the replay. */
  chapter: "chapter",
} as const;
export type EntryKind = (typeof ENTRY)[keyof typeof ENTRY];

/** In the place of a participant's id: what nobody did. */
export const NOBODY = "server";

/** One event of a room's life. */
export type HistoryEntry = {
  readonly room: string;
  /** Counts from 1 without gaps in its room, over all kinds. */
  readonly sequence: number;
  /** Milliseconds since 1970, by the server's clock. */
  readonly time: number;
  /** Id of who did it, or {@link NOBODY}. */
  readonly participant: string;
  readonly kind: string;
  readonly bytes: Uint8Array;
};

/** The room as it stood right after entry `sequence`. */
export type Snapshot = {
  readonly room: string;
  readonly sequence: number;
  readonly time: number;
  /** The board as one Yjs update. */
  readonly bytes: Uint8Array;
  /** The board without its past (`writeThinBoard`), for replays to begin from; null where that is not much less than all of it. */
  readonly thin: Uint8Array | null;
  /** JSON of the room's access, with its newest `tries` and `steps`; null in snapshots from before it was kept. */
  readonly access: string | null;
};

/** A board from which a replay begins, right after entry `sequence`: as one Yjs update, or thin as `writeThinBoard` writes it. */
export type StoredBoard = { readonly sequence: number; readonly board: Uint8Array; readonly isThin: boolean };

export type StoredRoom = {
  /** Whole: a room is no replay. */
  readonly snapshot: Omit<Snapshot, "thin"> | null;
  /** Entries after the snapshot, by sequence. */
  readonly entries: readonly HistoryEntry[];
};

/** An entry without its bytes, and how many those are. */
export type StoredHead = Omit<HistoryEntry, "room" | "bytes"> & { readonly size: number };

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
  /** Heads of a room's entries after a sequence, by sequence, `limit` at most. */
  heads(room: string, after: number, limit: number): Promise<readonly StoredHead[]>;
  /** A room's entries from one sequence to another, both included, by sequence; of these kinds only where any are named. */
  read(room: string, from: number, to: number, kinds?: readonly string[]): Promise<readonly HistoryEntry[]>;
  /** Sequences of a room's snapshots, rising. */
  snapshotsOf(room: string): Promise<readonly number[]>;
  /** The board of the newest snapshot at a sequence or before it, thin where there is such a one; whole in any case after entry `unfit`. */
  boardAt(room: string, sequence: number, unfit: number | null): Promise<StoredBoard | null>;
  /** Deletes a snapshot that there need not be: never the newest of its room. */
  dropSnapshot(room: string, sequence: number): Promise<void>;
  /** Stores a whole history in a room that has none yet, piece by piece: where it fails, some may be stored. */
  putWhole(entries: readonly HistoryEntry[], snapshots: readonly Snapshot[]): Promise<void>;
  /**
   * Deletes all that is kept of a room, itself included, so that no byte of it is left in the store's files. Nothing may be
   * appended to the room meanwhile.
   */
  erase(room: string): Promise<void>;
  close(): Promise<void>;
}
