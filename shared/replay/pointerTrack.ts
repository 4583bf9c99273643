import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import { type InkSpot, inkSpot } from "../board";
import { countWhile } from "../quantity";

/** Where somebody's pointer was at a time, null off the board. Times in milliseconds since 1970. */
export type PointerSample = { readonly time: number; readonly at: InkSpot | null };

/** Longest time, in ms, that one track goes over, and the least between two of its samples: 10 Hz. */
export const TRACK_SPAN = 10_000;
export const SAMPLE_INTERVAL = 100;

/** Parts of a grid step that a track tells apart: fine enough for pointing, and mostly one byte a number. */
const PARTS = 20;
const FORMAT = 1;
/** Farthest from the board's origin, in parts. */
const FARTHEST = 10_000 * PARTS;

/**
 * A piece of somebody's pointer track, as the history keeps it, about three bytes a sample. `end` is the time that its
 * entry has: samples lie before it.
 *
 *     track  = varUint(1) • varUint(end less the time of the first sample, ms) • varUint(samples) • sample*
 *     sample = varUint(2 × ms since the sample before, and 1 more where it is on the board) • ( varInt(dx) • varInt(dy) )?
 *
 * dx and dy are twentieths of a grid step, from the last sample on the board, the first from the origin.
 */
export function writeTrack(samples: readonly PointerSample[], end: number): Uint8Array {
  const encoder = encoding.createEncoder();
  let time = samples[0]?.time ?? end;
  let [x, y] = [0, 0];
  encoding.writeVarUint(encoder, FORMAT);
  encoding.writeVarUint(encoder, Math.max(0, Math.round(end - time)));
  encoding.writeVarUint(encoder, samples.length);
  for (const sample of samples) {
    const since = Math.max(0, Math.round(sample.time - time));
    time += since;
    encoding.writeVarUint(encoder, 2 * since + (sample.at ? 1 : 0));
    if (!sample.at) continue;
    const [toX, toY] = [partsOf(sample.at.x), partsOf(sample.at.y)];
    encoding.writeVarInt(encoder, toX - x);
    encoding.writeVarInt(encoder, toY - y);
    [x, y] = [toX, toY];
  }
  return encoding.toUint8Array(encoder);
}

/** Reads what {@link writeTrack} writes, for an entry of that time; null for anything else. Never throws. */
export function readTrack(bytes: Uint8Array, end: number): readonly PointerSample[] | null {
  try {
    const decoder = decoding.createDecoder(bytes);
    if (decoding.readVarUint(decoder) !== FORMAT) return null;
    let time = end - decoding.readVarUint(decoder);
    const count = decoding.readVarUint(decoder);
    const samples: PointerSample[] = [];
    let [x, y] = [0, 0];
    for (let index = 0; index < count; index++) {
      const word = decoding.readVarUint(decoder);
      time += Math.floor(word / 2);
      if (word % 2 === 1) {
        x += decoding.readVarInt(decoder);
        y += decoding.readVarInt(decoder);
        if (Math.abs(x) > FARTHEST || Math.abs(y) > FARTHEST) return null;
      }
      samples.push({ time, at: word % 2 === 1 ? inkSpot(x / PARTS, y / PARTS) : null });
    }
    return decoder.pos === bytes.length ? samples : null;
  } catch {
    return null;
  }
}

/**
 * Where the pointer of a track is at a time: between two samples that follow one another quickly on the straight line
 * between them. Null before the first sample and where it is off the board.
 */
export function spotAt(samples: readonly PointerSample[], time: number): InkSpot | null {
  const passed = countWhile(samples.length, (index) => (samples[index] as PointerSample).time <= time);
  const [before, after] = [samples[passed - 1], samples[passed]];
  if (!before?.at) return null;
  const span = after ? after.time - before.time : 0;
  if (!after?.at || span === 0 || span > 3 * SAMPLE_INTERVAL) return before.at;
  const share = (time - before.time) / span;
  return inkSpot(before.at.x + share * (after.at.x - before.at.x), before.at.y + share * (after.at.y - before.at.y));
}

function partsOf(steps: number): number {
  // NaN compares false with everything and would pass a clamp.
  const parts = Number.isFinite(steps) ? Math.round(steps * PARTS) : 0;
  // + 0 turns −0 into 0.
  return Math.min(Math.max(parts, -FARTHEST), FARTHEST) + 0;
}
