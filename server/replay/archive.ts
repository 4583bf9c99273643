import { createHash } from "node:crypto";
import * as encoding from "lib0/encoding";
import type { RoomAccess } from "../access";
import type { HistoryEntry, HistoryStore } from "../history";
import { MANY, type RoomReplay } from "./roomReplay";

/** First bytes of every archive. */
export const MAGIC = new TextEncoder().encode("addend session\n");
export const CHECKSUM_BYTES = 32;
export const ARCHIVE_VERSION = 1;

/** What an archive says of itself in its header; ARCHIVE.md has the whole format. */
export type ArchiveHeader = {
  readonly format: "addend-session";
  readonly version: typeof ARCHIVE_VERSION;
  /** Title of the board when it was exported. */
  readonly title: string;
  /** Milliseconds since 1970. */
  readonly exportedAt: number;
  readonly entries: number;
  /** Ids that entries refer to by their place in this list. */
  readonly participants: readonly string[];
  /** Kinds, in the same way. */
  readonly kinds: readonly string[];
};

/** Bytes of entries that are read at once. */
const PART_BYTES = 256 * 1024;
const PART_ENTRIES = 1000;

/** A room's session as an archive, part by part; `access` says who may be called by name. Rejects with the store's error; what was given till then is no archive. */
export async function* writeArchive(
  replay: RoomReplay,
  store: HistoryStore,
  access: RoomAccess,
  title: string,
  exportedAt: number,
): AsyncGenerator<Uint8Array> {
  const entries = replay.length;
  const { participants, kinds } = replay.archived();
  const header: ArchiveHeader = {
    format: "addend-session",
    version: ARCHIVE_VERSION,
    title,
    exportedAt,
    entries,
    participants,
    kinds,
  };
  const hash = createHash("sha256");
  const hashed = (bytes: Uint8Array) => {
    hash.update(bytes);
    return bytes;
  };
  yield hashed(headerBytes(header));
  const unnamed = replay.persons.unnamed(access);
  const places = { participants: placesOf(participants), kinds: placesOf(kinds) };
  let time = 0;
  for (let from = 1; from <= entries; ) {
    const to = replay.endOf(from, entries, PART_ENTRIES, PART_BYTES);
    const part = await store.read(replay.room, from, to);
    const told = part.map((entry) => withoutNames(entry, unnamed));
    yield hashed(partBytes(told, places, time));
    time = part.at(-1)?.time ?? time;
    from = to + 1;
  }
  yield hash.digest();
}

function headerBytes(header: ArchiveHeader): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeUint8Array(encoder, MAGIC);
  encoding.writeVarString(encoder, JSON.stringify(header));
  return encoding.toUint8Array(encoder);
}

type Places = { readonly participants: ReadonlyMap<string, number>; readonly kinds: ReadonlyMap<string, number> };

function partBytes(entries: readonly HistoryEntry[], places: Places, before: number): Uint8Array {
  const encoder = encoding.createEncoder();
  let time = before;
  for (const entry of entries) {
    encoding.writeVarInt(encoder, entry.time - time);
    encoding.writeVarUint(encoder, places.participants.get(entry.participant) ?? 0);
    encoding.writeVarUint(encoder, places.kinds.get(entry.kind) ?? 0);
    encoding.writeVarUint8Array(encoder, entry.bytes);
    time = entry.time;
  }
  return encoding.toUint8Array(encoder);
}

function placesOf(texts: readonly string[]): ReadonlyMap<string, number> {
  return new Map(texts.map((text, place) => [text, place]));
}

/**
 * The entry with "learner 3" in the place of the names of those who asked not to be kept by name; as it is where it names
 * none of them.
 */
function withoutNames(entry: HistoryEntry, unnamed: ReadonlyMap<string, string>): HistoryEntry {
  if (unnamed.size === 0 || MANY.includes(entry.kind)) return entry;
  try {
    const fields: Record<string, unknown> = JSON.parse(new TextDecoder().decode(entry.bytes));
    const about = typeof fields.participant === "string" ? fields.participant : entry.participant;
    const name = unnamed.get(about);
    if (name === undefined || typeof fields.name !== "string") return entry;
    return { ...entry, bytes: new TextEncoder().encode(JSON.stringify({ ...fields, name })) };
  } catch {
    // No JSON: of a kind that this version does not know, which names nobody that it could find.
    return entry;
  }
}
