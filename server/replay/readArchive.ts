import { createHash } from "node:crypto";
import * as decoding from "lib0/decoding";
import { z } from "zod";
import type { HistoryEntry } from "../history";
import { ARCHIVE_VERSION, type ArchiveHeader, CHECKSUM_BYTES, MAGIC } from "./archive";

/** A session as an archive has it: entries by sequence from 1, of no room yet. */
export type Session = { readonly title: string; readonly entries: readonly Omit<HistoryEntry, "room">[] };

export type ArchiveReading =
  | { readonly ok: true; readonly session: Session }
  /** One or two sentences that say what is wrong, and where. */
  | { readonly ok: false; readonly text: string };

export type ArchiveLimits = { readonly entries: number; readonly entryBytes: number };

const headerSchema = z.strictObject({
  format: z.literal("addend-session"),
  version: z.int(),
  title: z.string().max(2000),
  exportedAt: z.number(),
  entries: z.int().min(0),
  participants: z.array(z.string().min(1).max(64)),
  kinds: z.array(z.string().min(1).max(32)),
});

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
  if (header.entries > limits.entries) {
    return fault(`This archive has ${header.entries} entries; a session of ${limits.entries} at most can be imported.`);
  }
  const entries: Omit<HistoryEntry, "room">[] = [];
  for (let sequence = 1; sequence <= header.entries; sequence++) {
    const entry = readEntry(decoder, header, sequence, entries.at(-1)?.time ?? 0);
    if (typeof entry === "string") return fault(`${entry} (entry ${sequence} of ${header.entries}).`);
    if (entry.bytes.length > limits.entryBytes) {
      return fault(`Entry ${sequence} of this archive has more than ${limits.entryBytes} bytes.`);
    }
    entries.push(entry);
  }
  const rest = bytes.length - decoder.pos;
  if (rest < CHECKSUM_BYTES) return fault("This archive is cut short: its checksum is missing at the end.");
  if (rest > CHECKSUM_BYTES) return fault(`This archive is damaged: ${rest - CHECKSUM_BYTES} bytes follow its end.`);
  const checksum = createHash("sha256").update(bytes.subarray(0, decoder.pos)).digest();
  if (!checksum.equals(bytes.subarray(decoder.pos)))
    return fault("This archive is damaged: its checksum is another one.");
  return { ok: true, session: { title: header.title, entries } };
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
  const { data, error } = headerSchema.safeParse(json);
  if (!data)
    return `This archive is damaged: "${error.issues[0]?.path.join(".")}" of its header is not as it should be.`;
  if (data.version !== ARCHIVE_VERSION) {
    return `This archive is of version ${data.version} of its format; this server reads version ${ARCHIVE_VERSION}.`;
  }
  return { ...data, version: ARCHIVE_VERSION };
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
