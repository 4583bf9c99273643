import { numberOfKind } from "./kinds";
import { TRACK_SPAN } from "./pointerTrack";
import { lastPlayed, type Timeline, timeOf } from "./timeline";

const POINTERS = numberOfKind("pointers");

/** A stretch of time in which nothing happened, in milliseconds since 1970. */
export type Idle = { readonly from: number; readonly to: number };

/**
 * The stretches of at least `least` ms between entries, up to the last that is played. Somebody who points is at work from
 * the beginning of their track on.
 */
export function idleStretches(timeline: Timeline, least: number): readonly Idle[] {
  const { times, kinds } = timeline;
  const stretches: Idle[] = [];
  // Backwards, since a track that is recorded later may have begun before an earlier entry.
  let to = Number.POSITIVE_INFINITY;
  for (let index = lastPlayed(timeline) - 1; index >= 0; index--) {
    const time = times[index] as number;
    if (Number.isFinite(to) && to - time >= least) stretches.push({ from: time, to });
    to = Math.min(to, time - (kinds[index] === POINTERS ? TRACK_SPAN : 0));
  }
  return stretches.reverse();
}

/**
 * The time at which a replay stands that goes on for `elapsed` ms at `speed` from `time`, where `stretches` are passed over
 * in one step; at most the end of the last entry that is played.
 */
export function playedTo(
  timeline: Timeline,
  time: number,
  elapsed: number,
  speed: number,
  stretches: readonly Idle[],
): number {
  let at = time;
  let left = elapsed * speed;
  for (const { from, to } of stretches) {
    if (to <= at) continue;
    if (from >= at + left) break;
    left -= Math.max(0, from - at);
    at = to;
  }
  return Math.min(at + left, timeOf(timeline, lastPlayed(timeline)));
}
