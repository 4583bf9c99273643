export { coveredByInk } from "./coveredByInk";
export { boxOfMark, noteSize } from "./drawNotes";
export { InkSheet } from "./InkSheet";
export { inkSvg } from "./InkSvg";
export { InkTools } from "./InkTools";
export { INK_SHADES, inkShade, type Paper } from "./inkColours";
export {
  drawInk,
  drawInkNow,
  type InkDrawing,
  inkBox,
  NO_INK_DRAWING,
  paintInkAbove,
  paintInkBeneath,
} from "./inkDrawing";
export { type InkTool, leavesInk } from "./inkTool";
export { useInkPaintings } from "./useInkPaintings";
