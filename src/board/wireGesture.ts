import { type Point, samePoint, withoutIdlePoints } from "../../shared/board";
import { type Gesture, NO_GESTURE, NOTHING, type Press, type Step } from "./gesture";
import { axisTo, stretchPath } from "./stretchPath";

type Wire = Extract<Gesture, { kind: "wire" }>;

/**
 * Draws a wire: the first click starts it, each further one adds a corner, and one on a terminal or a wire, or twice
 * on the same point, ends it. A drag is two clicks.
 */
export function stepWire(gesture: Gesture, event: Press): Step {
  const { at } = event;
  if (gesture.kind !== "wire") {
    if (event.type === "up") return { gesture: NO_GESTURE, outcome: NOTHING };
    const isHeld = event.type === "down";
    return { gesture: { kind: "wire", corners: [at], to: at, axis: null, isHeld }, outcome: NOTHING };
  }
  const wire = { ...gesture, to: at, axis: axisTo(lastOf(gesture), at, gesture.axis) };
  if (event.type === "down") return { gesture: { ...wire, isHeld: true }, outcome: NOTHING };
  if (samePoint(at, lastOf(wire))) return clickedTwice(wire, event);
  const corners = withoutIdlePoints([...wire.corners, ...stretchPath({ ...wire, from: lastOf(wire) })]);
  if (event.isJoin) return { gesture: NO_GESTURE, outcome: { do: "wire", points: corners } };
  const goesOn = corners as readonly [Point, ...Point[]];
  return { gesture: { ...wire, corners: goesOn, axis: null, isHeld: false }, outcome: NOTHING };
}

function lastOf({ corners }: Wire): Point {
  return corners.at(-1) as Point; // never empty
}

/** At its start a wire goes on from the first click; at any other corner it ends. */
function clickedTwice(wire: Wire, event: Press): Step {
  if (wire.corners.length >= 2) return { gesture: NO_GESTURE, outcome: { do: "wire", points: wire.corners } };
  if (event.type === "up") return { gesture: { ...wire, isHeld: false }, outcome: NOTHING };
  return { gesture: NO_GESTURE, outcome: NOTHING };
}
