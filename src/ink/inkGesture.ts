import type { EntryId, InkSpot } from "../../shared/board";
import type { InkTool } from "./inkTool";

/** Something that is being done to ink, by pointer (`isHeld` while it is down) or by two clicks or keys. */
export type InkGesture =
  | { readonly kind: "none" }
  /** `spots` grows in place: a long stroke has thousands, and comes in hundreds a second. */
  | { readonly kind: "stroke"; readonly spots: InkSpot[] }
  | { readonly kind: "arrow"; readonly from: InkSpot; readonly to: InkSpot; readonly isHeld: boolean }
  | {
      readonly kind: "shift";
      readonly mark: EntryId;
      readonly from: InkSpot;
      readonly to: InkSpot;
      readonly isHeld: boolean;
    }
  | { readonly kind: "wipe" };

/** `mark` is the mark under the pointer or the ring; "enter" is the Enter key at the ring. */
export type InkEvent =
  | { readonly type: "down" | "move" | "up" | "enter"; readonly at: InkSpot; readonly mark: EntryId | null }
  | { readonly type: "cancel" };

/** What comes of a gesture. */
export type InkOutcome =
  | { readonly do: "nothing" }
  | { readonly do: "stroke"; readonly spots: readonly InkSpot[] }
  | { readonly do: "arrow"; readonly from: InkSpot; readonly to: InkSpot }
  | { readonly do: "erase"; readonly mark: EntryId }
  | { readonly do: "shift"; readonly mark: EntryId; readonly by: InkSpot }
  /** Ask for words, either new ones or those of a note. */
  | { readonly do: "write"; readonly at: InkSpot; readonly mark: EntryId | null };

type Step = { readonly gesture: InkGesture; readonly outcome: InkOutcome };
type Press = Exclude<InkEvent, { type: "cancel" }>;

export const NO_INK_GESTURE: InkGesture = { kind: "none" };
const NOTHING: InkOutcome = { do: "nothing" };
const AT_REST: Step = { gesture: NO_INK_GESTURE, outcome: NOTHING };
/** A pointer that has gone less far than this, in grid steps, has clicked and not dragged. */
const CLICK = 0.3;
/** Spots of a stroke that lie nearer than this to the one before are not kept, in grid steps. */
const NEAR = 0.02;

/** One step of a gesture: where it stands after an event, and what comes of it. */
export function stepInk(gesture: InkGesture, event: InkEvent, tool: InkTool): Step {
  if (event.type === "cancel") return AT_REST;
  if (event.type === "move") return stepMove(gesture, event);
  switch (tool) {
    case "pen":
    case "highlighter":
      return stepStroke(gesture, event);
    case "arrow":
      return stepArrow(gesture, event);
    case "words":
      return event.type === "down" ? AT_REST : rest({ do: "write", at: event.at, mark: event.mark });
    case "eraser":
      return stepEraser(event);
    case "shift":
      return stepShift(gesture, event);
    case "point":
      return AT_REST;
  }
}

function rest(outcome: InkOutcome): Step {
  return { gesture: NO_INK_GESTURE, outcome };
}

function stepMove(gesture: InkGesture, { at, mark }: Press): Step {
  switch (gesture.kind) {
    case "none":
      return AT_REST;
    case "stroke":
      return { gesture: extended(gesture, at), outcome: NOTHING };
    case "arrow":
    case "shift":
      return { gesture: { ...gesture, to: at }, outcome: NOTHING };
    case "wipe":
      return { gesture, outcome: mark ? { do: "erase", mark } : NOTHING };
  }
}

function extended(gesture: Extract<InkGesture, { kind: "stroke" }>, at: InkSpot) {
  const last = gesture.spots.at(-1);
  if (!last || distance(last, at) >= NEAR) gesture.spots.push(at);
  return gesture;
}

function stepStroke(gesture: InkGesture, { type, at }: Press): Step {
  if (gesture.kind === "stroke") {
    if (type === "down") return { gesture, outcome: NOTHING };
    return rest({ do: "stroke", spots: extended(gesture, at).spots });
  }
  return type === "up" ? AT_REST : { gesture: { kind: "stroke", spots: [at] }, outcome: NOTHING };
}

function stepArrow(gesture: InkGesture, { type, at }: Press): Step {
  if (gesture.kind !== "arrow") {
    if (type === "up") return AT_REST;
    return { gesture: { kind: "arrow", from: at, to: at, isHeld: type === "down" }, outcome: NOTHING };
  }
  if (type === "down") return { gesture: { ...gesture, to: at, isHeld: true }, outcome: NOTHING };
  const { from } = gesture;
  if (distance(from, at) >= CLICK) return rest({ do: "arrow", from, to: at });
  return type === "enter" ? AT_REST : { gesture: { ...gesture, to: at, isHeld: false }, outcome: NOTHING };
}

function stepShift(gesture: InkGesture, { type, at, mark }: Press): Step {
  if (gesture.kind !== "shift") {
    if (type === "up" || !mark) return AT_REST;
    return { gesture: { kind: "shift", mark, from: at, to: at, isHeld: type === "down" }, outcome: NOTHING };
  }
  if (type === "down") return { gesture: { ...gesture, to: at, isHeld: true }, outcome: NOTHING };
  const { from } = gesture;
  if (distance(from, at) >= CLICK) {
    return rest({ do: "shift", mark: gesture.mark, by: { x: at.x - from.x, y: at.y - from.y } });
  }
  return type === "enter" ? AT_REST : { gesture: { ...gesture, to: at, isHeld: false }, outcome: NOTHING };
}

function stepEraser({ type, mark }: Press): Step {
  const outcome: InkOutcome = mark && type !== "up" ? { do: "erase", mark } : NOTHING;
  return { gesture: type === "down" ? { kind: "wipe" } : NO_INK_GESTURE, outcome };
}

function distance(a: InkSpot, b: InkSpot): number {
  return Math.hypot(b.x - a.x, b.y - a.y);
}
