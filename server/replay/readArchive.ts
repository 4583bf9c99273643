import { createHash } from "node:crypto";
import * as decoding from "lib0/decoding";
import { z } from "zod";
import type { TryProgress } from "../../shared/messages";
import type { HistoryEntry } from "../history";
import { ARCHIVE_VERSION, type ArchiveHeader, CHECKSUM_BYTES, MAGIC } from "./archive";

/** Entries by sequence from 1, of no room yet. */
export type Entries = readonly Omit<HistoryEntry, "room">[];

/** A session as an archive has it. */
export type Session = { readonly title: string; readonly entries: Entries; readonly tries: readonly SessionTry[] };

/** A learner's own try of the session's problem. */
export type SessionTry = {
  readonly owner: string;
  readonly progress: TryProgress | null;
  readonly entries: Entries;
};

export type ArchiveReading =
  | { readonly ok: true; readonly session: Session }
  /** One or two sentences that say what is wrong, and where. */
  | { readonly ok: false; readonly text: string };

/** `entries` counts those of tries as well. */
export type ArchiveLimits = { readonly entries: number; readonly entryBytes: number; readonly tries: number };

const count = z.int().min(0);
const versionSchema = z.looseObject({ format: z.literal("addend-session"), version: z.int() });
const fields = {
  format: z.literal("addend-session"),
  title: z.string().max(2000),
  exportedAt: z.number(),
  entries: count,
  participants: z.array(z.string().min(1).max(64)),
  kinds: z.array(z.string().min(1).max(32)),
};
const progress = z.strictObject({ right: count, cards: count, changedAt: z.number() });
const tryHeader = z.strictObject({ owner: count, entries: count, progress: progress.nullable() });
/** By version: what a header has. Archives of version 1 have no tries. */
const HEADERS: Readonly<Record<number, z.ZodType<Omit<ArchiveHeader, "version">>>> = {
  1: z.strictObject({ ...fields, version: z.literal(1) }).transform((header) => ({ ...header, tries: [] })),
  [ARCHIVE_VERSION]: z.strictObject({ ...fields, version: z.literal(ARCHIVE_VERSION), tries: z.array(tryHeader) }),
};

/** Latest time that a date can have, in milliseconds since 1970. */
const LATEST = 8.64e15;

/** Reads an archive, all of it, and checks it against its checksum. Never throws. */
export function readArchive(bytes: Uint8Array, limits: ArchiveLimits): ArchiveReading {
  if (!MAGIC.every((byte, index) => bytes[index] === byte)) {
    const isBegun = bytes.length < MAGIC.length && bytes.every((byte, index) => MAGIC[index] === byte);
    return fault(isBegun ? CUT_IN_HEADER : "This is no archive of a session: it begins otherwise.");
  }
  const decoder = decoding.createDecoder(bytes);
  decoder.pos = MAGIC.length;
  const header = readHeader(decoder);
  if (typeof header === "string") return fault(header);
  const problem = tooMuchIn(header, limits) ?? badOwnerIn(header);
  if (problem !== null) return fault(problem);
  const entries = readEntries(decoder, header, header.entries, "", limits);
  if (typeof entries === "string") return fault(entries);
  const tries: SessionTry[] = [];
  for (const [index, { owner, progress, entries: count }] of header.tries.entries()) {
    const own = readEntries(decoder, header, count, ` of try ${index + 1}`, limits);
    if (typeof own === "string") return fault(own);
    tries.push({ owner: header.participants[owner] ?? "", progress, entries: own });
  }
  const rest = bytes.length - decoder.pos;
  if (rest < CHECKSUM_BYTES) return fault("This archive is cut short: its checksum is missing at the end.");
  if (rest > CHECKSUM_BYTES) return fault(`This archive is damaged: ${rest - CHECKSUM_BYTES} bytes follow its end.`);
  const checksum = createHash("sha256").update(bytes.subarray(0, decoder.pos)).digest();
  if (!checksum.equals(bytes.subarray(decoder.pos)))
    return fault("This archive is damaged: its checksum is another one.");
  return { ok: true, session: { title: header.title, entries, tries } };
}

const CUT_IN_HEADER = "This archive is cut short: its header is not whole.";

function readHeader(decoder: decoding.Decoder): ArchiveHeader | string {
  let text: string;
  try {
    text = decoding.readVarString(decoder);
  } catch {
    return CUT_IN_HEADER;
  }
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return "This archive is damaged: its header is no JSON.";
  }
  const version = versionSchema.safeParse(json);
  if (!version.success) return badField(version.error);
  const schema = HEADERS[version.data.version];
  if (!schema) {
    return `This archive is of version ${version.data.version} of its format; this server reads versions up to ${ARCHIVE_VERSION}.`;
  }
  const { data, error } = schema.safeParse(json);
  return data ? { ...data, version: ARCHIVE_VERSION } : badField(error);
}

function badField({ issues }: z.ZodError): string {
  return `This archive is damaged: "${issues[0]?.path.join(".")}" of its header is not as it should be.`;
}

function tooMuchIn({ entries, tries }: ArchiveHeader, limits: ArchiveLimits): string | null {
  const all = tries.reduce((sum, each) => sum + each.entries, entries);
  if (all > limits.entries) {
    return `This archive has ${all} entries; a session of ${limits.entries} at most can be imported.`;
  }
  if (tries.length <= limits.tries) return null;
  return `This archive has ${tries.length} tries of its problem; ${limits.tries} at most can be imported.`;
}

/** Each try is somebody's, and nobody has two. */
function badOwnerIn({ tries, participants }: ArchiveHeader): string | null {
  const owners = new Set<string>();
  for (const [index, { owner }] of tries.entries()) {
    const id = participants[owner];
    if (id === undefined) return `This archive is damaged: try ${index + 1} of its header is nobody's.`;
    if (owners.has(id))
      return `This archive is damaged: try ${index + 1} of its header is of somebody who has one before.`;
    owners.add(id);
  }
  return null;
}

/** So many entries of one history; `where` says in sentences which, "" for the room's. */
function readEntries(
  decoder: decoding.Decoder,
  header: ArchiveHeader,
  count: number,
  where: string,
  limits: ArchiveLimits,
): Entries | string {
  const entries: Omit<HistoryEntry, "room">[] = [];
  for (let sequence = 1; sequence <= count; sequence++) {
    const entry = readEntry(decoder, header, sequence, entries.at(-1)?.time ?? 0);
    if (typeof entry === "string") return `${entry} (entry ${sequence} of ${count}${where}).`;
    if (entry.bytes.length > limits.entryBytes) {
      return `Entry ${sequence}${where} of this archive has more than ${limits.entryBytes} bytes.`;
    }
    entries.push(entry);
  }
  return entries;
}

const DAMAGED = "This archive is damaged";

function readEntry(
  decoder: decoding.Decoder,
  { participants, kinds }: ArchiveHeader,
  sequence: number,
  before: number,
): Omit<HistoryEntry, "room"> | string {
  try {
    const time = before + decoding.readVarInt(decoder);
    const participant = participants[decoding.readVarUint(decoder)];
    const kind = kinds[decoding.readVarUint(decoder)];
    const length = decoding.readVarUint(decoder);
    if (!Number.isInteger(time) || time < 0 || time > LATEST || participant === undefined || kind === undefined) {
      return DAMAGED;
    }
    const { arr, pos } = decoder;
    // The decoder gives fewer bytes, and no error, where there are fewer.
    if (pos + length > arr.length) return "This archive is cut short";
    decoder.pos += length;
    return { sequence, time, participant, kind, bytes: arr.subarray(pos, pos + length) };
  } catch {
    return "This archive is cut short";
  }
}

const fault = (text: string): ArchiveReading => ({ ok: false, text });
