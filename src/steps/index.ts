export { lineSaid } from "./lineWords";
export { LinesPlace, ZeroingBarPlace, ZeroingLayerPlace, ZeroingPlace } from "./places";
export type { PlacedSource } from "./ZeroingLayer";
export { zeroingQuestion } from "./zeroingWords";
