import { kindWords } from "../words/circuitWords";
import type { Gesture } from "./gesture";
import { stretchPath } from "./stretchPath";
import type { Pick, Tool } from "./tool";

/** A step that can be taken while something is under way, by its word. */
export type ModeStep = "bend" | "end" | "turn" | "mirror" | "toReference" | "back";

/** What is under way, in words, and the steps that can be taken; null where nothing is that needs them. */
export function modeWords(
  tool: Tool,
  gesture: Gesture,
  hasReference: boolean,
): { readonly text: string; readonly steps: readonly ModeStep[] } | null {
  if (gesture.kind === "move" && !gesture.isHeld) {
    return { text: "Click where the middle of the selection is to go.", steps: ["back"] };
  }
  if (gesture.kind === "wire" && !gesture.isHeld) {
    const steps: readonly ModeStep[] = gesture.corners.length > 1 ? ["bend", "end", "back"] : ["bend", "back"];
    return { text: "Each click adds a corner. On a terminal or a wire it ends, and where you click twice.", steps };
  }
  if (gesture.kind === "stretch" && !gesture.isHeld) {
    const isBent = stretchPath(gesture).length > 2;
    return { text: "Click where the line ends.", steps: isBent ? ["bend", "back"] : ["back"] };
  }
  switch (tool.do) {
    case "block":
      return { text: `Click where the ${kindWords(tool.kind)} is to stand.`, steps: ["turn", "mirror", "back"] };
    case "line":
      return { text: lineText(tool.kind), steps: ["back"] };
    case "pick":
      return pickWords(tool.pick, gesture, hasReference);
    case "stretch":
    case "wire":
    case "select":
    case "reference":
    case "name":
      return null;
  }
}

function lineText(kind: Extract<Tool, { do: "line" }>["kind"]): string {
  const where = `Drag, or click two grid points, for the ${kindWords(kind)}`;
  if (kind === "vcvs" || kind === "ccvs" || kind === "voltage-source") return `${where}: from − to +.`;
  return kind === "switch" ? `${where}.` : `${where}: its arrow points to the second.`;
}

function pickWords(pick: Pick, gesture: Gesture, hasReference: boolean) {
  if (gesture.kind === "pick") {
    const steps: readonly ModeStep[] = hasReference ? ["toReference", "back"] : ["back"];
    return { text: "That is +. Now click the point that is −.", steps };
  }
  return { text: pickText(pick), steps: ["back"] as const };
}

function pickText(pick: Pick): string {
  if (pick.for === "control") {
    return pick.follows === "current"
      ? "It follows a current: click the part or wire that carries it."
      : "It follows a voltage: click the part across which it is, or two points one after the other.";
  }
  switch (pick.kind) {
    case "current":
      return "Click the part or wire whose current is wanted.";
    case "power":
      return "Click the part whose power is wanted.";
    case "voltage":
      return "Click the part across which the voltage is wanted, or two points one after the other.";
    case "resistance":
    case "impedance":
    case "open-circuit-voltage":
    case "short-circuit-current":
    case "thevenin":
    case "norton":
    case "maximum-power-load":
      return "Click the two points of the port one after the other, or a part between them.";
  }
}

export function stepText(step: ModeStep): string {
  switch (step) {
    case "bend":
      return "Bend it the other way";
    case "end":
      return "End it here";
    case "turn":
      return "Turn";
    case "mirror":
      return "Mirror";
    case "toReference":
      return "To the reference node";
    case "back":
      return "Back";
  }
}

/** What can be done now, for the foot of the board. */
export function hintText(tool: Tool, gesture: Gesture, hasCursor: boolean, isAnySelected: boolean): string {
  if (gesture.kind === "stretch" && !gesture.isHeld)
    return "Click where the line ends, or press Enter there. Esc gives it up.";
  if (hasCursor && tool.do === "stretch")
    return "Arrow keys move the ring, Enter starts and ends a line, Space chooses what lies there. ? lists all keys.";
  switch (tool.do) {
    case "stretch":
      return "Drag from one grid point to another, or click both, then type a value. Click a symbol to change it.";
    case "wire":
      return "Click where the wire begins, then at each corner. B bends it the other way.";
    case "select":
      return isAnySelected
        ? "Drag it, or use the arrow keys, to move it with its wires. Shift and click adds more."
        : "Click a symbol or wire, or drag a box around several.";
    case "reference":
      return "Click the node that is to be at 0 V. Click the symbol again to take it away.";
    case "name":
      return "Click the node that is to have a name.";
    case "line":
    case "block":
    case "pick":
      return "Esc gives it up.";
  }
}
