import type { z } from "zod";
import { type AccessChange, accessSchema, changed, changeSchema, OPEN_ACCESS, type RoomAccess } from "../access";
import { ENTRY, type EntryKind, type StoredRoom } from "../history";

/** Which entry of the history a change becomes: what is shown stands apart, since a replay shows it. */
export function kindOf(change: AccessChange): EntryKind {
  return change.do === "setShown" || change.do === "setAnswers" ? ENTRY.reveal : ENTRY.settings;
}

/** A room's access as its history left it. What can't be read of it, which nobody but us has written, counts as nothing. */
export function accessFrom({ snapshot, entries }: StoredRoom): RoomAccess {
  let access = (snapshot?.access && readJson(snapshot.access, accessSchema)) || OPEN_ACCESS;
  for (const { kind, bytes } of entries) {
    if (kind !== ENTRY.settings && kind !== ENTRY.reveal) continue;
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
