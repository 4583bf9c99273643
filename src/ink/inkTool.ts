import { unreachable } from "../../shared/quantity";

/** What the pointer and the keyboard do to ink. */
export type InkTool = "pen" | "highlighter" | "arrow" | "words" | "eraser" | "shift" | "point";

/** The tools that share the word "Ink" in the margin. */
export const LINE_TOOLS: readonly { readonly tool: InkTool; readonly word: string }[] = [
  { tool: "pen", word: "Pen" },
  { tool: "highlighter", word: "Highlighter" },
  { tool: "arrow", word: "Arrow" },
  { tool: "eraser", word: "Eraser" },
  { tool: "shift", word: "Move ink" },
];

export function isLineTool(tool: InkTool): boolean {
  return LINE_TOOLS.some((each) => each.tool === tool);
}

/** Whether a tool leaves something on the board; a person who may not draw has only those that don't. */
export function leavesInk(tool: InkTool): boolean {
  return tool !== "point";
}

/** Whether marks are made in a colour with this tool. */
export function hasColour(tool: InkTool): boolean {
  return tool === "pen" || tool === "highlighter" || tool === "arrow" || tool === "words";
}

/** How a tool is used: by pointer, or by keys once the ring is shown. */
export function inkHint(tool: InkTool, hasRing: boolean): string {
  return hasRing ? keyHint(tool) : pointerHint(tool);
}

function pointerHint(tool: InkTool): string {
  switch (tool) {
    case "pen":
      return "Draw by hand. Two fingers or the wheel move the paper.";
    case "highlighter":
      return "Draw over what matters; it lies beneath the circuit.";
    case "arrow":
      return "Drag from tail to head, or click both.";
    case "words":
      return "Click where the words begin, or words that are to change. Mathematics goes between $ signs.";
    case "eraser":
      return "Click or wipe over marks; each goes as a whole.";
    case "shift":
      return "Drag a mark, or click it and then where it goes.";
    case "point":
      return "The others see where you point. Nothing stays.";
    default:
      return unreachable(tool);
  }
}

function keyHint(tool: InkTool): string {
  switch (tool) {
    case "pen":
    case "highlighter":
      return "Arrow keys move the ring, Enter puts the pen down and lifts it. Esc gives the line up.";
    case "arrow":
      return "Arrow keys move the ring, Enter sets tail and head.";
    case "words":
      return "Arrow keys move the ring, Enter writes there.";
    case "eraser":
      return "Arrow keys move the ring, Enter rubs out the mark there.";
    case "shift":
      return "Arrow keys move the ring, Enter takes a mark up and puts it down.";
    case "point":
      return "Arrow keys move the ring, which the others see.";
    default:
      return unreachable(tool);
  }
}
