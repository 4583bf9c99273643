export { useInkLayers } from "./InkLayer";
export { InkSheet } from "./InkSheet";
export { InkTools } from "./InkTools";
export { INK_SHADES, inkShade, type Paper } from "./inkColours";
export { type InkTool, leavesInk } from "./inkTool";
