import { addPoints, type EntryId, isStraight, type Point, samePoint } from "../../shared/board";

/** What the pointer and the keyboard do on the board. */
export type Tool = "stretch" | "select" | "reference";

/** A gesture under way. */
export type Gesture =
  | { readonly kind: "none" }
  /** From a grid point to another; `isHeld` while the pointer is down, else the next click or Enter ends it. */
  | {
      readonly kind: "stretch";
      readonly from: Point;
      readonly to: Point;
      readonly axis: Axis;
      readonly isHeld: boolean;
    }
  | { readonly kind: "move"; readonly ids: readonly EntryId[]; readonly from: Point; readonly to: Point };

/** Along which axis a bent stretch leaves its start; null until it has left. */
export type Axis = "level" | "upright" | null;

export type GestureEvent =
  /** `body` is the symbol under the pointer, `entry` that or the wire; null in the open. */
  | { readonly type: "down"; readonly at: Point; readonly body: EntryId | null; readonly entry: EntryId | null }
  | { readonly type: "move"; readonly at: Point }
  | { readonly type: "up"; readonly at: Point; readonly body: EntryId | null }
  /** Enter or space at the grid cursor. */
  | { readonly type: "enter"; readonly at: Point; readonly entry: EntryId | null }
  | { readonly type: "cancel" };

/** What a gesture brings about. */
export type Outcome =
  | { readonly do: "nothing" }
  | { readonly do: "select"; readonly entry: EntryId | null }
  /** A straight stretch has ended: ask what it is to be. */
  | { readonly do: "ask"; readonly from: Point; readonly to: Point }
  | { readonly do: "wire"; readonly points: readonly Point[] }
  | { readonly do: "reference"; readonly at: Point }
  | { readonly do: "move"; readonly ids: readonly EntryId[]; readonly by: Point };

export const NO_GESTURE: Gesture = { kind: "none" };
const NOTHING: Outcome = { do: "nothing" };
type Step = { readonly gesture: Gesture; readonly outcome: Outcome };

/** One step of a gesture: where it stands after an event, and what comes of it. */
export function stepGesture(gesture: Gesture, event: GestureEvent, tool: Tool): Step {
  if (event.type === "cancel") return { gesture: NO_GESTURE, outcome: NOTHING };
  if (event.type === "move") return { gesture: moved(gesture, event.at), outcome: NOTHING };
  switch (tool) {
    case "stretch":
      return stepStretch(gesture, event);
    case "select":
      return stepSelect(gesture, event);
    case "reference": {
      const isPlacing = event.type === "up" || event.type === "enter";
      return { gesture: NO_GESTURE, outcome: isPlacing ? { do: "reference", at: event.at } : NOTHING };
    }
  }
}

type Press = Exclude<GestureEvent, { type: "cancel" | "move" }>;

function stepStretch(gesture: Gesture, event: Press): Step {
  const { at } = event;
  if (event.type === "down") {
    if (gesture.kind === "stretch") return { gesture: { ...moved(gesture, at), isHeld: true }, outcome: NOTHING };
    return { gesture: { kind: "stretch", from: at, to: at, axis: null, isHeld: true }, outcome: NOTHING };
  }
  if (gesture.kind !== "stretch") {
    if (event.type === "up") return { gesture: NO_GESTURE, outcome: NOTHING };
    return { gesture: { kind: "stretch", from: at, to: at, axis: null, isHeld: false }, outcome: NOTHING };
  }
  const stretch = moved(gesture, at);
  if (!samePoint(at, gesture.from)) return { gesture: NO_GESTURE, outcome: ended(stretch) };
  if (event.type === "enter") return { gesture: NO_GESTURE, outcome: NOTHING };
  // A click on a symbol's body chooses it; anywhere else a click is the start of a stretch that the next click ends.
  if (event.body !== null) return { gesture: NO_GESTURE, outcome: { do: "select", entry: event.body } };
  return { gesture: { ...stretch, isHeld: false }, outcome: { do: "select", entry: null } };
}

function stepSelect(gesture: Gesture, event: Press): Step {
  if (event.type === "enter") return { gesture: NO_GESTURE, outcome: { do: "select", entry: event.entry } };
  if (event.type === "down") {
    const { at, entry } = event;
    const next: Gesture = entry ? { kind: "move", ids: [entry], from: at, to: at } : NO_GESTURE;
    return { gesture: next, outcome: { do: "select", entry } };
  }
  if (gesture.kind !== "move" || samePoint(event.at, gesture.from)) return { gesture: NO_GESTURE, outcome: NOTHING };
  const by = addPoints(event.at, { x: -gesture.from.x, y: -gesture.from.y });
  return { gesture: NO_GESTURE, outcome: { do: "move", ids: gesture.ids, by } };
}

type Stretch = Extract<Gesture, { kind: "stretch" }>;

function moved<G extends Gesture>(gesture: G, to: Point): G {
  if (gesture.kind === "none") return gesture;
  if (gesture.kind === "move") return { ...gesture, to };
  const axis = samePoint(gesture.from, to) ? null : (gesture.axis ?? leavingAxis(gesture.from, to));
  return { ...gesture, to, axis };
}

function leavingAxis(from: Point, to: Point): Axis {
  return Math.abs(to.x - from.x) >= Math.abs(to.y - from.y) ? "level" : "upright";
}

function ended(stretch: Stretch): Outcome {
  const { from, to } = stretch;
  return isStraight(from, to) ? { do: "ask", from, to } : { do: "wire", points: stretchPath(stretch) };
}

/** The line of a stretch: straight, or with one corner where its ends are neither level nor upright to each other. */
export function stretchPath({ from, to, axis }: Pick<Stretch, "from" | "to" | "axis">): readonly Point[] {
  if (samePoint(from, to)) return [from];
  if (isStraight(from, to)) return [from, to];
  return [from, axis === "upright" ? { x: from.x, y: to.y } : { x: to.x, y: from.y }, to];
}
