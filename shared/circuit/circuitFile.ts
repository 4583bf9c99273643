import type { Circuit } from "./circuit";
import type { WantedEntry } from "./fileWantedSchema";
import type { PartId } from "./part";

/** What a circuit file holds once it has been read. */
export type CircuitFile = {
  readonly title: string | null;
  /** The problem as it is put to people. */
  readonly statement: string | null;
  readonly circuit: Circuit;
  /** Null where the file gives no positions at all. */
  readonly drawing: Drawing | null;
  /** Wanted quantities that the file asks for and a steady state cannot answer; they are not in `circuit.wanted`. */
  readonly unanswerable: readonly Unanswerable[];
  /** Sources that are taken together besides each alone. */
  readonly groups: readonly SourceGroup[];
};

/** Two or more independent sources, not all of the circuit's. */
export type SourceGroup = readonly PartId[];

/** Where a circuit stands on the grid. x counts to the right, y down. */
export type Drawing = {
  /** In the order of the parts; a part without a position is left out. */
  readonly placements: readonly Placement[];
  /** Each wire is a polyline of at least two points, every stretch of it horizontal or vertical. */
  readonly wires: readonly (readonly Point[])[];
  /** Where the symbol of the reference node stands; null where it is not drawn. */
  readonly reference: Point | null;
};

export type Point = readonly [x: number, y: number];

/**
 * "line": a part with two terminals, `plus` at `from` and `minus` at `to`.
 * "body": an op amp or a transformer about its centre `at`, flipped top to bottom first, then turned clockwise.
 */
export type Placement =
  | { readonly part: PartId; readonly shape: "line"; readonly from: Point; readonly to: Point }
  | { readonly part: PartId; readonly shape: "body"; readonly at: Point; readonly turn: Turn; readonly flip: boolean };
export type Turn = 0 | 90 | 180 | 270;

/** A wanted quantity that belongs to a change in time: its value at one instant, or a time constant. */
export type Unanswerable = {
  /** Its place in the file's list of wanted quantities. */
  readonly index: number;
  /** The given name, or one made for it: `I(R3)`, `V(a, b)`, `τ(L1)`. */
  readonly name: string;
  readonly reason: "instant" | "timeConstant";
  /** As the file asks for it, so that it can be written back. */
  readonly asked: WantedEntry;
};
