export { BoardPane, type PanePlace } from "./BoardPane";
export type { Tool } from "./gesture";
export { screenBox } from "./noteLayout";
export { toScreen } from "./viewport";
