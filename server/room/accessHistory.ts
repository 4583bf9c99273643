import { type AccessChange, accessSchema, changed, changeSchema, OPEN_ACCESS, type RoomAccess } from "../access";
import { ENTRY, type EntryKind, readJson, type StoredRoom } from "../history";

/** Which entry of the history a change becomes: what is shown stands apart, since a replay shows it. */
export function kindOf(change: AccessChange): EntryKind {
  switch (change.do) {
    case "setShown":
    case "setAnswers":
      return ENTRY.reveal;
    case "showLines":
    case "showAllLines":
      return ENTRY.lines;
    default:
      return ENTRY.settings;
  }
}

/** Kinds of entries whose bytes are an AccessChange. */
export const OF_ACCESS: readonly string[] = [ENTRY.settings, ENTRY.reveal, ENTRY.lines];

/**
 * A room's access as its history left it, which began with `start`. What can't be read of it, which nobody but us has
 * written, counts as nothing.
 */
export function accessFrom({ snapshot, entries }: StoredRoom, start: RoomAccess = OPEN_ACCESS): RoomAccess {
  let access = (snapshot?.access && readJson(snapshot.access, accessSchema)) || start;
  for (const { kind, bytes } of entries) {
    if (!OF_ACCESS.includes(kind)) continue;
    const change = readChange(bytes);
    if (change) access = changed(access, change);
  }
  return access;
}

/** The change that an entry of the kinds {@link OF_ACCESS} holds; null where it can't be read. */
export function readChange(bytes: Uint8Array): AccessChange | null {
  return readJson(bytes, changeSchema);
}
