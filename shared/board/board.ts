import type { Direction, PartKind, PortKind, Winding } from "../circuit";
import type { Point } from "./point";
import type { BoardProblem } from "./problem";

declare const brand: unique symbol;
/** Key of an entry in the shared document. Made by whoever places it; entries are ordered by it. */
export type EntryId = string & { readonly [brand]: "entry" };
export const entryId = (text: string): EntryId => text as EntryId;

export type Turn = 0 | 90 | 180 | 270;

/** Kinds drawn along a straight line between two grid points, `plus` terminal at `from`. */
export type LineKind = Exclude<PartKind, BlockKind | "wire">;
/** Kinds drawn as a block around one grid point. */
export type BlockKind = "ideal-opamp" | "ideal-transformer";

/** `name` is unique on the board: {@link readBoard} settles names that two people gave at once. */
type Named = { readonly id: EntryId; readonly name: string };
type OnLine = Named & { readonly shape: "line"; readonly from: Point; readonly to: Point };
/** A union with one member a kind, so that a switch over `kind` narrows the part too. */
type EachKind<K extends PartKind, Rest> = K extends PartKind ? Rest & { readonly kind: K } : never;
type InBlock = Named & { readonly shape: "block"; readonly at: Point; readonly turn: Turn; readonly flip: boolean };

export type ValuedKind = "resistor" | "capacitor" | "inductor" | "voltage-source" | "current-source";
export type DependentKind = "vcvs" | "vccs" | "ccvs" | "cccs";

/** `value` is the text as somebody typed it, empty where nobody has yet. */
export type ValuedPart = EachKind<ValuedKind, OnLine & { readonly value: string }>;
/** `value` is the gain; `control` is null until it is picked. */
export type DependentPart = EachKind<
  DependentKind,
  OnLine & { readonly value: string; readonly control: Across | null }
>;
export type SwitchPart = OnLine & { readonly kind: "switch"; readonly state: "open" | "closed" };
export type OpAmpPart = InBlock & { readonly kind: "ideal-opamp" };
/** `value` is the ratio. */
export type TransformerPart = InBlock & { readonly kind: "ideal-transformer"; readonly value: string };

export type LinePart = ValuedPart | DependentPart | SwitchPart;
export type BlockPart = OpAmpPart | TransformerPart;
export type BoardPart = LinePart | BlockPart;

/** A drawn wire: a polyline of horizontal and vertical pieces. It has a name for when it is a part of its own. */
export type BoardWire = Named & { readonly points: readonly [Point, Point, ...Point[]] };

/** Two places on the board: the ends of a part (or wire), or two points. */
export type Across =
  | { readonly by: "part"; readonly part: EntryId; readonly direction: Direction }
  | { readonly by: "points"; readonly from: Point; readonly to: Point };

export type BoardReference = { readonly id: EntryId; readonly at: Point };

/** A name that somebody gave to the node at a point. */
export type NodeName = { readonly id: EntryId; readonly at: Point; readonly name: string };

/** A wanted quantity as it is marked on the drawing. */
export type BoardWanted = { readonly id: EntryId; readonly name: string | null } & WantedMark;
export type WantedMark =
  | { readonly kind: "current"; readonly part: EntryId; readonly direction: Direction; readonly winding: Winding }
  | { readonly kind: "power"; readonly part: EntryId }
  | { readonly kind: "voltage" | PortKind; readonly across: Across };

/** Independent sources that somebody wants to see acting together, the others zeroed. */
export type BoardGroup = { readonly id: EntryId; readonly sources: readonly EntryId[] };

/** What the shared document says, checked: plain immutable data in a fixed order. */
export type Board = {
  readonly title: string;
  readonly statement: string;
  readonly parts: readonly BoardPart[];
  readonly wires: readonly BoardWire[];
  readonly references: readonly BoardReference[];
  readonly nodeNames: readonly NodeName[];
  readonly wanted: readonly BoardWanted[];
  readonly groups: readonly BoardGroup[];
  /** Entries of the document that could not be read, and are left out. */
  readonly problems: readonly BoardProblem[];
};

export const EMPTY_BOARD: Board = {
  title: "",
  statement: "",
  parts: [],
  wires: [],
  references: [],
  nodeNames: [],
  wanted: [],
  groups: [],
  problems: [],
};
