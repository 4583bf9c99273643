import { createHash } from "node:crypto";
import * as encoding from "lib0/encoding";
import type { TryProgress } from "../../shared/messages";
import type { RoomAccess } from "../access";
import type { HistoryEntry, HistoryStore, RoomDirectory } from "../history";
import { MANY, RoomReplay } from "./roomReplay";

/** First bytes of every archive. */
export const MAGIC = new TextEncoder().encode("addend session\n");
export const CHECKSUM_BYTES = 32;
export const ARCHIVE_VERSION = 2;

/** What an archive says of itself in its header; ARCHIVE.md has the whole format. */
export type ArchiveHeader = {
  readonly format: "addend-session";
  readonly version: typeof ARCHIVE_VERSION;
  /** Title of the board when it was exported. */
  readonly title: string;
  /** Milliseconds since 1970. */
  readonly exportedAt: number;
  /** How many entries of the room's own come first. */
  readonly entries: number;
  /** Ids that entries refer to by their place in this list. */
  readonly participants: readonly string[];
  /** Kinds, in the same way. */
  readonly kinds: readonly string[];
  /** The tries of the room's problem, whose entries follow in this order. */
  readonly tries: readonly TryHeader[];
};

/** A learner's own try in an archive's header: its owner by their place in `participants`, and how many entries it has. */
export type TryHeader = { readonly owner: number; readonly entries: number; readonly progress: TryProgress | null };

/** Bytes of entries that are read at once. */
const PART_BYTES = 256 * 1024;
const PART_ENTRIES = 1000;

/** A learner's own try, as it stands in an archive. */
type ArchivedTry = { readonly replay: RoomReplay; readonly owner: string; readonly progress: TryProgress | null };

/**
 * A room's session as an archive, part by part, with the tries of its problem; `access` says who may be called by name.
 * Rejects with the store's error; what was given till then is no archive.
 */
export async function* writeArchive(
  replay: RoomReplay,
  { store, directory }: { readonly store: HistoryStore; readonly directory: RoomDirectory },
  access: RoomAccess,
  title: string,
  exportedAt: number,
): AsyncGenerator<Uint8Array> {
  const tries = await readTries(replay.room, store, directory);
  const header = headerOf(replay, tries, title, exportedAt);
  const hash = createHash("sha256");
  const hashed = (bytes: Uint8Array) => {
    hash.update(bytes);
    return bytes;
  };
  yield hashed(headerBytes(header));
  const unnamed = replay.persons.unnamed(access);
  const places = { participants: placesOf(header.participants), kinds: placesOf(header.kinds) };
  const counts = [header.entries, ...header.tries.map(({ entries }) => entries)];
  for (const [index, each] of [replay, ...tries.map((own) => own.replay)].entries()) {
    for await (const part of entriesOf(each, counts[index] ?? 0, store)) {
      const told = part.entries.map((entry) => withoutNames(entry, unnamed));
      yield hashed(partBytes(told, places, part.before));
    }
  }
  yield hash.digest();
}

async function readTries(room: string, store: HistoryStore, directory: RoomDirectory): Promise<readonly ArchivedTry[]> {
  const tries: ArchivedTry[] = [];
  for (const { room: name, owner, progress } of await directory.tries(room)) {
    const replay = new RoomReplay(name, store, true);
    await replay.follow();
    tries.push({ replay, owner, progress });
  }
  return tries;
}

function headerOf(replay: RoomReplay, tries: readonly ArchivedTry[], title: string, exportedAt: number): ArchiveHeader {
  const all = [replay, ...tries.map((own) => own.replay)].map((each) => each.archived());
  const participants = [...new Set([...all.flatMap((each) => each.participants), ...tries.map(({ owner }) => owner)])];
  return {
    format: "addend-session",
    version: ARCHIVE_VERSION,
    title,
    exportedAt,
    entries: replay.length,
    participants,
    kinds: [...new Set(all.flatMap((each) => each.kinds))],
    tries: tries.map(({ replay: { length }, owner, progress }) => {
      return { owner: participants.indexOf(owner), entries: length, progress };
    }),
  };
}

/** A history's entries up to a count, part by part, each with the time of the entry before it. */
async function* entriesOf(
  replay: RoomReplay,
  count: number,
  store: HistoryStore,
): AsyncGenerator<{ readonly entries: readonly HistoryEntry[]; readonly before: number }> {
  let before = 0;
  for (let from = 1; from <= count; ) {
    const to = replay.endOf(from, count, PART_ENTRIES, PART_BYTES);
    const entries = await store.read(replay.room, from, to);
    yield { entries, before };
    before = entries.at(-1)?.time ?? before;
    from = to + 1;
  }
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
    const fields: unknown = JSON.parse(new TextDecoder().decode(entry.bytes));
    const told = JSON.stringify(nameless(fields, entry.participant, unnamed));
    return told === JSON.stringify(fields) ? entry : { ...entry, bytes: new TextEncoder().encode(told) };
  } catch {
    // No JSON: of a kind that this version does not know, which names nobody that it could find.
    return entry;
  }
}

/**
 * A value of JSON with other names for the unnamed, also in what lies deeper: a try has the reason that was given for it.
 * `by` is whom it names where it does not say so itself; null where that is nobody.
 */
function nameless(value: unknown, by: string | null, unnamed: ReadonlyMap<string, string>): unknown {
  if (Array.isArray(value)) return value.map((each) => nameless(each, null, unnamed));
  if (typeof value !== "object" || value === null) return value;
  const fields = value as Readonly<Record<string, unknown>>;
  const about = typeof fields.participant === "string" ? fields.participant : by;
  const name = about === null ? undefined : unnamed.get(about);
  const told = Object.entries(fields).map(([key, each]) => {
    const isName = key === "name" && typeof each === "string" && name !== undefined;
    return [key, isName ? name : nameless(each, null, unnamed)];
  });
  return Object.fromEntries(told);
}
