import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import { kindOfNumber, numberOfKind } from "./kinds";

/** One entry of a room's history as a replay is given it: what its receiver may not have is left out of its bytes. */
export type ReplayEntry = {
  /** Counts from 1 without gaps, over all kinds. */
  readonly sequence: number;
  /** Milliseconds since 1970, by the server's clock. */
  readonly time: number;
  /** Number of a participant in the replay's list; 0 for what nobody did. */
  readonly participant: number;
  readonly kind: string;
  readonly bytes: Uint8Array;
};

/** Entries that follow one another, and where to go on: the sequence to ask for next, 0 where this was all. */
export type Chunk = { readonly entries: readonly ReplayEntry[]; readonly next: number };

const FORMAT = 1;

/**
 *     chunk = varUint(1) • varUint(next) • varUint(first sequence) • varUint(entries) • entry*
 *     entry = varInt(ms since the entry before, the first since 1970) • varUint(participant) • kind • varBytes(bytes)
 *     kind  = varUint(number) | varUint(0) • varString(name)
 *
 * Throws where entries don't follow one another.
 */
export function writeChunk({ entries, next }: Chunk): Uint8Array {
  const encoder = encoding.createEncoder();
  const first = entries[0]?.sequence ?? 0;
  let time = 0;
  for (const number of [FORMAT, next, first, entries.length]) encoding.writeVarUint(encoder, number);
  for (const [index, entry] of entries.entries()) {
    if (entry.sequence !== first + index) {
      throw new RangeError(`got entry ${entry.sequence} in a chunk, expected ${first + index}`);
    }
    encoding.writeVarInt(encoder, entry.time - time);
    encoding.writeVarUint(encoder, entry.participant);
    writeKind(encoder, entry.kind);
    encoding.writeVarUint8Array(encoder, entry.bytes);
    time = entry.time;
  }
  return encoding.toUint8Array(encoder);
}

/** Reads what {@link writeChunk} writes; null for anything else. Never throws. */
export function readChunk(bytes: Uint8Array): Chunk | null {
  try {
    const decoder = decoding.createDecoder(bytes);
    if (decoding.readVarUint(decoder) !== FORMAT) return null;
    const next = decoding.readVarUint(decoder);
    const first = decoding.readVarUint(decoder);
    const count = decoding.readVarUint(decoder);
    const entries: ReplayEntry[] = [];
    let time = 0;
    for (let index = 0; index < count; index++) {
      time += decoding.readVarInt(decoder);
      const participant = decoding.readVarUint(decoder);
      const kind = readKind(decoder);
      if (kind === null) return null;
      entries.push({ sequence: first + index, time, participant, kind, bytes: decoding.readVarUint8Array(decoder) });
    }
    return decoder.pos === bytes.length ? { entries, next } : null;
  } catch {
    // The decoder throws where a number or a byte array runs past the end.
    return null;
  }
}

function writeKind(encoder: encoding.Encoder, kind: string): void {
  const number = numberOfKind(kind);
  encoding.writeVarUint(encoder, number);
  if (number === 0) encoding.writeVarString(encoder, kind);
}

function readKind(decoder: decoding.Decoder): string | null {
  const number = decoding.readVarUint(decoder);
  return number === 0 ? decoding.readVarString(decoder) : kindOfNumber(number);
}
