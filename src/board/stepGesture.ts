import { isStraight, type LineKind, type Point, samePoint } from "../../shared/board";
import { unreachable } from "../../shared/quantity";
import type { Spot } from "../figure";
import { type Gesture, type GestureEvent, NO_GESTURE, NOTHING, type Press, type Step } from "./gesture";
import { stepPick } from "./pickGesture";
import { stepSelect } from "./selectGesture";
import { axisTo, flipAxis, stretchPath } from "./stretchPath";
import { type Tool, takesPoints } from "./tool";
import { stepWire } from "./wireGesture";

/** One step of a gesture: where it stands after an event, and what comes of it. */
export function stepGesture(gesture: Gesture, event: GestureEvent, tool: Tool): Step {
  switch (event.type) {
    case "cancel":
      return { gesture: backedOut(gesture), outcome: NOTHING };
    case "move":
      return { gesture: moved(gesture, event), outcome: NOTHING };
    case "flip":
      return { gesture: flipped(gesture), outcome: NOTHING };
    case "end":
      return endedWire(gesture);
    case "down":
    case "up":
    case "enter":
      return gesture.kind === "move" ? stepSelect(gesture, event) : stepTool(gesture, event, tool);
    default:
      return unreachable(event);
  }
}

function stepTool(gesture: Gesture, event: Press, tool: Tool): Step {
  switch (tool.do) {
    case "stretch":
      return stepStretch(gesture, event, null);
    case "line":
      return stepStretch(gesture, event, tool.kind);
    case "wire":
      return stepWire(gesture, event);
    case "select":
      return stepSelect(gesture, event);
    case "pick":
      return stepPick(gesture, event, takesPoints(tool.pick));
    case "reference":
    case "name":
    case "block":
      return { gesture: NO_GESTURE, outcome: event.type === "down" ? NOTHING : { do: tool.do, at: event.at } };
    default:
      return unreachable(tool);
  }
}

/** A straight line asks what it is to be, or is a part of this kind. */
function stepStretch(gesture: Gesture, event: Press, kind: LineKind | null): Step {
  const { at } = event;
  if (event.type === "down") {
    if (gesture.kind === "stretch") return { gesture: { ...stretchedTo(gesture, at), isHeld: true }, outcome: NOTHING };
    return { gesture: { kind: "stretch", from: at, to: at, axis: null, isHeld: true }, outcome: NOTHING };
  }
  if (gesture.kind !== "stretch") {
    if (event.type === "up") return { gesture: NO_GESTURE, outcome: NOTHING };
    return { gesture: { kind: "stretch", from: at, to: at, axis: null, isHeld: false }, outcome: NOTHING };
  }
  const stretch = stretchedTo(gesture, at);
  if (!samePoint(at, gesture.from)) return ended(stretch, kind);
  if (event.type === "enter") return { gesture: NO_GESTURE, outcome: NOTHING };
  // A click on a symbol's body chooses it; anywhere else a click is the start of a stretch that the next click ends.
  if (event.body !== null && kind === null) {
    return { gesture: NO_GESTURE, outcome: { do: "click", entry: event.body, isAdding: event.isAdding } };
  }
  return { gesture: { ...stretch, isHeld: false }, outcome: { do: "select", entry: null, isAdding: false } };
}

type Stretch = Extract<Gesture, { kind: "stretch" }>;

function ended(stretch: Stretch, kind: LineKind | null): Step {
  const { from, to } = stretch;
  if (!isStraight(from, to)) {
    // A part lies along one line: a bent stretch goes on, and a wire it is only where the line may be one.
    if (kind !== null) return { gesture: { ...stretch, isHeld: false }, outcome: NOTHING };
    return { gesture: NO_GESTURE, outcome: { do: "wire", points: stretchPath(stretch) } };
  }
  return { gesture: NO_GESTURE, outcome: kind === null ? { do: "ask", from, to } : { do: "line", kind, from, to } };
}

function stretchedTo<G extends Extract<Gesture, { kind: "stretch" }>>(gesture: G, to: Point): G {
  return { ...gesture, to, axis: axisTo(gesture.from, to, gesture.axis) };
}

function moved(gesture: Gesture, { at, spot }: { readonly at: Point; readonly spot: Spot }): Gesture {
  switch (gesture.kind) {
    case "none":
      return gesture;
    case "stretch":
      return stretchedTo(gesture, at);
    case "wire":
      return { ...gesture, to: at, axis: axisTo(gesture.corners.at(-1) ?? at, at, gesture.axis) };
    case "move":
    case "pick":
      return { ...gesture, to: at };
    case "box":
      return { ...gesture, to: spot };
    default:
      return unreachable(gesture);
  }
}

function flipped(gesture: Gesture): Gesture {
  if (gesture.kind !== "stretch" && gesture.kind !== "wire") return gesture;
  return { ...gesture, axis: flipAxis(gesture.axis) };
}

/** A wire loses its last corner, every other gesture ends. */
function backedOut(gesture: Gesture): Gesture {
  if (gesture.kind !== "wire" || gesture.corners.length < 2) return NO_GESTURE;
  const corners = gesture.corners.slice(0, -1) as unknown as readonly [Point, ...Point[]];
  return { ...gesture, corners, axis: null, isHeld: false };
}

function endedWire(gesture: Gesture): Step {
  if (gesture.kind !== "wire" || gesture.corners.length < 2) return { gesture: NO_GESTURE, outcome: NOTHING };
  return { gesture: NO_GESTURE, outcome: { do: "wire", points: gesture.corners } };
}
