import type { RoomVisit, TryProgress } from "../../shared/messages";
import type { ReplayLink, Retention } from "../../shared/replay";

/** In the place of a key's hash while a room is filled with a session that is imported: no key has this hash. */
export const UNFINISHED = "unfinished";

/** A day of those that a room is kept for, in ms. */
export const DAY = 24 * 3600 * 1000;

/**
 * A room as it is found by its name. `keyHash` is null in a room from before there were instructor's keys, and in a try:
 * nobody joins one by a link.
 */
export type ListedRoom = {
  readonly room: string;
  readonly keyHash: string | null;
  /** The room whose problem is tried here, and who tries it; null in a room of its own. */
  readonly tryOf: { readonly room: string; readonly owner: string } | null;
};

/** A participant's try of a room's problem. `progress` is null before anything was noted. */
export type ListedTry = { readonly room: string; readonly owner: string; readonly progress: TryProgress | null };

/** Which rooms there are, who was in them, how long they are kept, and by which links their replays are seen. All verbs reject when the store can't do them. */
export interface RoomDirectory {
  /** Makes an empty room; false where the name is taken, and then nothing has changed. */
  create(room: string, keyHash: string): Promise<boolean>;
  find(room: string): Promise<ListedRoom | null>;
  /** Gives a room another key; the link with the one before no longer works. */
  setKey(room: string, keyHash: string): Promise<void>;
  /** Names of the rooms without a key that could have one. */
  keyless(): Promise<readonly string[]>;
  /** Remembers that a participant was in the room; null takes it off their list. */
  noteVisit(participant: string, room: string, visit: Omit<RoomVisit, "room"> | null): Promise<void>;
  /** The rooms that a participant was in, latest first, `limit` at most. */
  visits(participant: string, limit: number): Promise<readonly RoomVisit[]>;
  /** Takes a room off the directory, with its links and all visits to it. Its history is the history's to erase. */
  remove(room: string): Promise<void>;
  /** Rooms that have {@link UNFINISHED} for a key: what an import left behind that the server's death cut off. */
  unfinished(): Promise<readonly string[]>;
  /** "forever" for a room that there isn't. */
  retention(room: string): Promise<Retention>;
  setRetention(room: string, retention: Retention): Promise<void>;
  /** Rooms whose time has come, at `now` in milliseconds since 1970. */
  overdue(now: number): Promise<readonly string[]>;
  /** Keeps a link to a room's replay, by the hash of its secret, and gives it as it is listed. */
  addLink(room: string, hash: string, madeAt: number, until: number | null): Promise<ReplayLink>;
  /** A room's links, the latest first. */
  links(room: string): Promise<readonly ReplayLink[]>;
  findLink(room: string, hash: string): Promise<ReplayLink | null>;
  /** Ends a link for good; false where the room has none of this id. */
  revokeLink(room: string, id: number, at: number): Promise<boolean>;
  /**
   * Makes an empty room for a participant's try of a room's problem, unless they have one or the name is taken. Whatever
   * others ask at the same time, a participant has at most one; {@link findTry} says which.
   */
  createTry(name: string, room: string, owner: string): Promise<void>;
  /** Name of the room of a participant's try; null where they have none. */
  findTry(room: string, owner: string): Promise<string | null>;
  /** All tries of a room's problem, in the order in which they were begun. */
  tries(room: string): Promise<readonly ListedTry[]>;
  /** Notes how far the try in this room is. */
  noteProgress(room: string, progress: TryProgress): Promise<void>;
}
