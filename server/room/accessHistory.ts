import type { z } from "zod";
import { type AccessChange, accessSchema, changed, changeSchema, OPEN_ACCESS, type RoomAccess } from "../access";
import { ENTRY, type EntryKind, type StoredRoom } from "../history";

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

const OF_ACCESS: readonly string[] = [ENTRY.settings, ENTRY.reveal, ENTRY.lines];

/** A room's access as its history left it. What can't be read of it, which nobody but us has written, counts as nothing. */
export function accessFrom({ snapshot, entries }: StoredRoom): RoomAccess {
  let access = (snapshot?.access && readJson(snapshot.access, accessSchema)) || OPEN_ACCESS;
  for (const { kind, bytes } of entries) {
    if (!OF_ACCESS.includes(kind)) continue;
    const change = readJson(new TextDecoder().decode(bytes), changeSchema);
    if (change) access = changed(access, change);
  }
  return access;
}

export function jsonBytes(value: object): Uint8Array {
  return new TextEncoder().encode(JSON.stringify(value));
}

function readJson<T>(text: string, schema: z.ZodType<T>): T | null {
  try {
    return schema.safeParse(JSON.parse(text)).data ?? null;
  } catch {
    return null;
  }
}
