import { addPoints, samePoint } from "../../shared/board";
import { type Gesture, NO_GESTURE, NOTHING, type Press, type Step } from "./gesture";

/** Selects what is pressed or lies in a box, and moves the selection. */
export function stepSelect(gesture: Gesture, event: Press): Step {
  if (gesture.kind === "move") return stepMove(gesture, event);
  if (event.type === "enter") {
    return { gesture: NO_GESTURE, outcome: { do: "select", entry: event.entry, isAdding: false } };
  }
  if (event.type === "up") return endBox(gesture, event);
  const { at, spot, entry, isAdding } = event;
  if (entry === null) return { gesture: { kind: "box", from: spot, to: spot, isAdding }, outcome: NOTHING };
  if (isAdding) return { gesture: NO_GESTURE, outcome: { do: "select", entry, isAdding } };
  const move: Gesture = { kind: "move", from: at, to: at, pressed: entry, isHeld: true };
  // What is selected already moves as a whole; else what is pressed is selected first.
  return { gesture: move, outcome: event.isChosen ? NOTHING : { do: "select", entry, isAdding: false } };
}

function stepMove(move: Extract<Gesture, { kind: "move" }>, event: Press): Step {
  const { from, pressed } = move;
  if (event.type === "down") return { gesture: { ...move, to: event.at, isHeld: true }, outcome: NOTHING };
  if (!samePoint(event.at, from)) {
    const by = addPoints(event.at, { x: -from.x, y: -from.y });
    return { gesture: NO_GESTURE, outcome: { do: "move", by } };
  }
  if (event.type === "enter" || pressed === null) return { gesture: NO_GESTURE, outcome: NOTHING };
  return { gesture: NO_GESTURE, outcome: { do: "click", entry: pressed, isAdding: false } };
}

/** Smaller than this, in pixels of the drawing, a box is a click in the open. */
const LEAST_BOX = 6;

function endBox(gesture: Gesture, { spot }: Press): Step {
  if (gesture.kind !== "box") return { gesture: NO_GESTURE, outcome: NOTHING };
  const { from, isAdding } = gesture;
  if (Math.hypot(spot.x - from.x, spot.y - from.y) >= LEAST_BOX) {
    return { gesture: NO_GESTURE, outcome: { do: "selectBox", from, to: spot, isAdding } };
  }
  return { gesture: NO_GESTURE, outcome: isAdding ? NOTHING : { do: "select", entry: null, isAdding } };
}
