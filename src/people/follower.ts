import type { InkSpot } from "../../shared/board";

/** A pointer that glides after the places it is reported at. `shown` is where it is drawn; null where it is not. */
export type Follower = { readonly shown: InkSpot | null; readonly target: InkSpot | null };

/** How quickly a pointer comes up to its place: it covers all but 1/e of the way in this time, in ms. */
const SETTLING = 45;
/** Nearer than this, in grid steps, it is there. */
const THERE = 0.005;

/** A pointer after its next report. One that comes from nowhere does not glide in. */
export function followPointer(follower: Follower | undefined, target: InkSpot | null): Follower {
  const shown = target && follower?.shown ? follower.shown : target;
  const isSame = shown && target && shown.x === target.x && shown.y === target.y;
  return { shown: isSame ? target : shown, target };
}

/** A pointer after some ms more. It has arrived when `shown` is `target`, the same object. */
export function step({ shown, target }: Follower, elapsed: number): Follower {
  if (!shown || !target) return { shown: target, target };
  const share = 1 - Math.exp(-elapsed / SETTLING);
  const next = { x: shown.x + (target.x - shown.x) * share, y: shown.y + (target.y - shown.y) * share };
  const isThere = Math.hypot(target.x - next.x, target.y - next.y) < THERE;
  return { shown: isThere ? target : next, target };
}
