export { useLitLayers, useLitMarks } from "./LitLayer";
export { LitSketch } from "./LitSketch";
export type { LineTools } from "./lineTools";
export { type Drawn, withLitMarks } from "./litMarks";
export { type LitStore, litStore } from "./litStore";
export { panelView } from "./panelView";
export { noteText, placeForNote } from "./pinning";
export { WorkingPanel } from "./WorkingPanel";
