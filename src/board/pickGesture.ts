import { samePoint } from "../../shared/board";
import { type Gesture, NO_GESTURE, NOTHING, type Press, type Step } from "./gesture";

/**
 * Picks a part or wire, or, where `takesPoints`, two points one after the other. A symbol is picked as a part; on a
 * wire a point is meant, unless points cannot be picked.
 */
export function stepPick(gesture: Gesture, event: Press, takesPoints: boolean): Step {
  if (event.type === "down") return { gesture, outcome: NOTHING };
  const { at, body, entry, isJoin } = event;
  if (gesture.kind === "pick") {
    if (!isJoin || samePoint(at, gesture.from)) return { gesture, outcome: { do: "missed" } };
    return { gesture: NO_GESTURE, outcome: { do: "pick", across: { by: "points", from: gesture.from, to: at } } };
  }
  const part = takesPoints ? body : entry;
  if (part !== null) {
    return { gesture: NO_GESTURE, outcome: { do: "pick", across: { by: "part", part, direction: "forward" } } };
  }
  if (takesPoints && isJoin) return { gesture: { kind: "pick", from: at, to: at }, outcome: NOTHING };
  return { gesture: NO_GESTURE, outcome: { do: "missed" } };
}
