import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import { countWhile } from "../quantity";
import type { ReplayEntry } from "./chunk";
import { KINDS, numberOfKind } from "./kinds";

/** When each entry of a room's history came, by whom and of what kind: all that a replay's scale needs, four bytes an entry. */
export type Timeline = {
  /** Number of entries; entry `sequence` stands at index `sequence − 1`. */
  readonly length: number;
  /** Milliseconds since 1970, never falling. */
  readonly times: Float64Array;
  /** Numbers in the replay's list of participants, 0 for what nobody did. */
  readonly participants: Uint16Array;
  /** Numbers of kinds, 0 for one without. */
  readonly kinds: Uint8Array;
};

/** What a timeline is made of: an entry of a replay without its bytes. */
export type EntryHead = Omit<ReplayEntry, "bytes">;

const FORMAT = 1;
const CHAPTER = numberOfKind("chapter");

/** `heads` are all of a room's entries from the first on. A clock that was put back stands still until it is made up. */
export function timelineOf(heads: readonly EntryHead[]): Timeline {
  const timeline = emptyTimeline(heads.length);
  let latest = Number.NEGATIVE_INFINITY;
  for (const [index, { time, participant, kind }] of heads.entries()) {
    latest = Math.max(latest, time);
    timeline.times[index] = latest;
    timeline.participants[index] = participant;
    timeline.kinds[index] = numberOfKind(kind);
  }
  return timeline;
}

/**
 *     timeline = varUint(1) • varUint(entries) • entry*
 *     entry    = varUint(ms since the entry before, the first since 1970) • varUint(participant) • varUint(number of its kind)
 */
export function writeTimeline({ length, times, participants, kinds }: Timeline): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, FORMAT);
  encoding.writeVarUint(encoder, length);
  let time = 0;
  for (let index = 0; index < length; index++) {
    const next = Math.round(times[index] as number);
    encoding.writeVarUint(encoder, next - time);
    encoding.writeVarUint(encoder, participants[index] as number);
    encoding.writeVarUint(encoder, kinds[index] as number);
    time = next;
  }
  return encoding.toUint8Array(encoder);
}

/** Reads what {@link writeTimeline} writes; null for anything else. Never throws. */
export function readTimeline(bytes: Uint8Array): Timeline | null {
  try {
    const decoder = decoding.createDecoder(bytes);
    if (decoding.readVarUint(decoder) !== FORMAT) return null;
    const length = decoding.readVarUint(decoder);
    // Each entry takes three bytes at least.
    if (length > bytes.length / 3) return null;
    const timeline = emptyTimeline(length);
    let time = 0;
    for (let index = 0; index < length; index++) {
      time += decoding.readVarUint(decoder);
      timeline.times[index] = time;
      timeline.participants[index] = decoding.readVarUint(decoder);
      const kind = decoding.readVarUint(decoder);
      if (kind > KINDS.length) return null;
      timeline.kinds[index] = kind;
    }
    return decoder.pos === bytes.length ? timeline : null;
  } catch {
    return null;
  }
}

function emptyTimeline(length: number): Timeline {
  return {
    length,
    times: new Float64Array(length),
    participants: new Uint16Array(length),
    kinds: new Uint8Array(length),
  };
}

/** Sequence of the last entry that had come at a time; 0 before the first. */
export function sequenceAt({ times, length }: Timeline, time: number): number {
  return countWhile(length, (index) => (times[index] as number) <= time);
}

/** When an entry came; for 0, the beginning, that of the first. 0 in an empty history. */
export function timeOf({ times, length }: Timeline, sequence: number): number {
  return length === 0 ? 0 : (times[Math.min(Math.max(sequence, 1), length) - 1] as number);
}

/**
 * Sequence of the last entry that is played: chapters that an instructor added afterwards belong to no moment of their own.
 * 0 in an empty history.
 */
export function lastPlayed({ kinds, length }: Timeline): number {
  let last = length;
  while (last > 0 && kinds[last - 1] === CHAPTER) last--;
  return last;
}

/** The next edit of the board after an entry, or the last one before it; null where there is none. */
export function nextEdit({ kinds, length }: Timeline, sequence: number, step: 1 | -1): number | null {
  const update = numberOfKind("update");
  for (let at = sequence + step; at >= 1 && at <= length; at += step) if (kinds[at - 1] === update) return at;
  return null;
}
