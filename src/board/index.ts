export { type CanvasLayers, painter } from "./BoardCanvas";
export { BoardPane, type PanePlace } from "./BoardPane";
export type { Tool } from "./gesture";
export { screenBox } from "./noteLayout";
export { entryBox } from "./overlay";
export { useTouches } from "./useTouches";
export type { ViewportControl } from "./useViewport";
export { paneSpot, useWheel } from "./useWheel";
export { fitView, type Size, toScreen, toWorld, type Viewport } from "./viewport";
