import type { Line } from "../../shared/derive";
import type { EquationOrder } from "../settings";
import type { LitStore } from "./litStore";
import type { SketchView } from "./sketchFigure";

/** What all lines of a panel share. */
export type LineTools = {
  readonly order: EquationOrder;
  readonly lit: LitStore;
  readonly sketchView: SketchView;
  /** Pins a line to the board, and says whether it did; null for those who may not draw. */
  readonly pin: ((line: Line) => boolean) | null;
};
