import type { RoomVisit } from "../../shared/messages";

/** A room as it is found by its name. `keyHash` is null in a room from before there were instructor's keys. */
export type ListedRoom = { readonly room: string; readonly keyHash: string | null };

/** Which rooms there are, and who was in them. All verbs reject when the store can't do them. */
export interface RoomDirectory {
  /** Makes an empty room; false where the name is taken, and then nothing has changed. */
  create(room: string, keyHash: string): Promise<boolean>;
  find(room: string): Promise<ListedRoom | null>;
  /** Gives a room another key; the link with the one before no longer works. */
  setKey(room: string, keyHash: string): Promise<void>;
  /** Names of the rooms without a key. */
  keyless(): Promise<readonly string[]>;
  /** Remembers that a participant was in the room; null takes it off their list. */
  noteVisit(participant: string, room: string, visit: Omit<RoomVisit, "room"> | null): Promise<void>;
  /** The rooms that a participant was in, latest first, `limit` at most. */
  visits(participant: string, limit: number): Promise<readonly RoomVisit[]>;
}
