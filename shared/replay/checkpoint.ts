import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import type { Moment } from "./moment";

/** A room right after an entry, whole: a replay goes on from here with the entries that follow. */
export type Checkpoint = {
  readonly moment: Moment;
  /** The board as one Yjs update, empty for the empty board; or as `writeThinBoard` writes it where it is thin. */
  readonly board: Uint8Array;
  readonly isThin: boolean;
};

const FORMAT = 2;

/** `checkpoint = varUint(2) • varString(JSON of the moment) • varUint(1 where the board is thin, else 0) • varBytes(board)` */
export function writeCheckpoint({ moment, board, isThin }: Checkpoint): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, FORMAT);
  encoding.writeVarString(encoder, JSON.stringify(moment));
  encoding.writeVarUint(encoder, isThin ? 1 : 0);
  encoding.writeVarUint8Array(encoder, board);
  return encoding.toUint8Array(encoder);
}

/** Reads what {@link writeCheckpoint} writes; null for anything else. Never throws. */
export function readCheckpoint(bytes: Uint8Array): Checkpoint | null {
  try {
    const decoder = decoding.createDecoder(bytes);
    if (decoding.readVarUint(decoder) !== FORMAT) return null;
    const moment = JSON.parse(decoding.readVarString(decoder)) as Moment;
    const kind = decoding.readVarUint(decoder);
    const board = decoding.readVarUint8Array(decoder);
    return decoder.pos === bytes.length && kind <= 1 ? { moment, board, isThin: kind === 1 } : null;
  } catch {
    return null;
  }
}
