import type { Across, EntryId, LineKind, Point } from "../../shared/board";
import type { Spot } from "../figure";
import type { Axis } from "./stretchPath";

/** A gesture under way. */
export type Gesture =
  | { readonly kind: "none" }
  /** From a grid point to another; `isHeld` while the pointer is down, else the next click or Enter ends it. */
  | {
      readonly kind: "stretch";
      readonly from: Point;
      readonly to: Point;
      readonly axis: Axis;
      readonly isHeld: boolean;
    }
  /** A wire with some corners; the next one is at `to`. */
  | {
      readonly kind: "wire";
      readonly corners: readonly [Point, ...Point[]];
      readonly to: Point;
      readonly axis: Axis;
      readonly isHeld: boolean;
    }
  /** The selection on its way. `pressed` is the entry under the pointer, which a mere click chooses. */
  | {
      readonly kind: "move";
      readonly from: Point;
      readonly to: Point;
      readonly pressed: EntryId | null;
      readonly isHeld: boolean;
    }
  /** A box that selects what lies in it, in pixels of the drawing. */
  | { readonly kind: "box"; readonly from: Spot; readonly to: Spot; readonly isAdding: boolean }
  /** The first of two points is picked. */
  | { readonly kind: "pick"; readonly from: Point; readonly to: Point };

/** Where something happens: the nearest grid point, and the spot itself in pixels of the drawing. */
export type Place = {
  readonly at: Point;
  readonly spot: Spot;
  /** The symbol or label under the spot, null where there is none. */
  readonly body: EntryId | null;
  /** That, or the wire. */
  readonly entry: EntryId | null;
  /** Whether a wire that ends here is joined to something. */
  readonly isJoin: boolean;
};

export type GestureEvent =
  | ({
      readonly type: "down";
      readonly isAdding: boolean;
      /** Whether the entry pressed is selected already. */
      readonly isChosen: boolean;
    } & Place)
  | { readonly type: "move"; readonly at: Point; readonly spot: Spot }
  | ({ readonly type: "up"; readonly isAdding: boolean } & Place)
  /** Enter at the grid cursor. */
  | ({ readonly type: "enter" } & Place)
  /** The corner of a bent line goes to the other side. */
  | { readonly type: "flip" }
  /** The wire ends where it is. */
  | { readonly type: "end" }
  /** One step back. */
  | { readonly type: "cancel" };

/** What a gesture brings about. */
export type Outcome =
  | { readonly do: "nothing" }
  | { readonly do: "select"; readonly entry: EntryId | null; readonly isAdding: boolean }
  | { readonly do: "selectBox"; readonly from: Spot; readonly to: Spot; readonly isAdding: boolean }
  /** A click on a symbol: chooses it, and turns a switch over. */
  | { readonly do: "click"; readonly entry: EntryId; readonly isAdding: boolean }
  /** A straight stretch has ended: ask what it is to be. */
  | { readonly do: "ask"; readonly from: Point; readonly to: Point }
  | { readonly do: "line"; readonly kind: LineKind; readonly from: Point; readonly to: Point }
  | { readonly do: "block"; readonly at: Point }
  | { readonly do: "wire"; readonly points: readonly Point[] }
  | { readonly do: "reference" | "name"; readonly at: Point }
  | { readonly do: "move"; readonly by: Point }
  | { readonly do: "pick"; readonly across: Across }
  /** Nothing that can be picked is there. */
  | { readonly do: "missed" };

export const NO_GESTURE: Gesture = { kind: "none" };
export const NOTHING: Outcome = { do: "nothing" };
export type Step = { readonly gesture: Gesture; readonly outcome: Outcome };
export type Press = Extract<GestureEvent, { readonly type: "down" | "up" | "enter" }>;
