import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import type { Moment } from "./moment";

/** A room right after an entry, whole: a replay goes on from here with the entries that follow. */
export type Checkpoint = {
  readonly moment: Moment;
  /** The board as one Yjs update; empty for the empty board. */
  readonly board: Uint8Array;
};

const FORMAT = 1;

/** `checkpoint = varUint(1) • varString(JSON of the moment) • varBytes(board)` */
export function writeCheckpoint({ moment, board }: Checkpoint): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, FORMAT);
  encoding.writeVarString(encoder, JSON.stringify(moment));
  encoding.writeVarUint8Array(encoder, board);
  return encoding.toUint8Array(encoder);
}

/** Reads what {@link writeCheckpoint} writes; null for anything else. Never throws. */
export function readCheckpoint(bytes: Uint8Array): Checkpoint | null {
  try {
    const decoder = decoding.createDecoder(bytes);
    if (decoding.readVarUint(decoder) !== FORMAT) return null;
    const moment = JSON.parse(decoding.readVarString(decoder)) as Moment;
    const board = decoding.readVarUint8Array(decoder);
    return decoder.pos === bytes.length ? { moment, board } : null;
  } catch {
    return null;
  }
}
