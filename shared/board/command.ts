import type { Across, BlockKind, Board, EntryId, LineKind, Turn, WantedMark } from "./board";
import type { InkCommand } from "./ink";
import type { Point } from "./point";

/** A new part. `name` null asks for the next free one of its kind; `value` null where its kind has none. */
export type NewPart = { readonly name: string | null; readonly value: string | null } & (
  | {
      readonly shape: "line";
      readonly kind: LineKind;
      /** Where the `plus` terminal is: a source's + end, the tail of a current source's arrow. */
      readonly from: Point;
      readonly to: Point;
      readonly control?: Across | null;
      readonly state?: "open" | "closed";
    }
  | {
      readonly shape: "block";
      readonly kind: BlockKind;
      readonly at: Point;
      readonly turn: Turn;
      readonly flip: boolean;
    }
);

/**
 * Everything that people do to a board. Ids are made by the caller and stay with their entry; a command about an entry
 * that is gone does nothing, since somebody else may have deleted it a moment ago.
 */
export type Command =
  | { readonly do: "placePart"; readonly id: EntryId; readonly part: NewPart }
  | { readonly do: "placeWire"; readonly id: EntryId; readonly points: readonly Point[]; readonly name?: string | null }
  | { readonly do: "placeReference"; readonly id: EntryId; readonly at: Point }
  | { readonly do: "nameNode"; readonly id: EntryId; readonly at: Point; readonly name: string }
  | { readonly do: "setValue"; readonly id: EntryId; readonly value: string }
  | { readonly do: "rename"; readonly id: EntryId; readonly name: string }
  /** Swaps the ends of a part on a line. */
  | { readonly do: "reverse"; readonly id: EntryId }
  /** Puts a part on a line, a block, a wire, or a reference symbol or node name into another place. */
  | { readonly do: "putLine"; readonly id: EntryId; readonly from: Point; readonly to: Point }
  | { readonly do: "putBlock"; readonly id: EntryId; readonly at: Point; readonly turn: Turn; readonly flip: boolean }
  | { readonly do: "putWire"; readonly id: EntryId; readonly points: readonly Point[] }
  | { readonly do: "putMark"; readonly id: EntryId; readonly at: Point }
  | { readonly do: "setSwitch"; readonly id: EntryId; readonly state: "open" | "closed" }
  | { readonly do: "setControl"; readonly id: EntryId; readonly control: Across }
  | { readonly do: "move"; readonly ids: readonly EntryId[]; readonly by: Point }
  /** Takes the wanted quantities of a deleted part with it. */
  | { readonly do: "delete"; readonly ids: readonly EntryId[] }
  | { readonly do: "setWanted"; readonly id: EntryId; readonly name: string | null; readonly mark: WantedMark }
  | { readonly do: "clearWanted"; readonly id: EntryId }
  | { readonly do: "addGroup"; readonly id: EntryId; readonly sources: readonly EntryId[] }
  | { readonly do: "removeGroup"; readonly id: EntryId }
  | { readonly do: "setPage"; readonly title: string; readonly statement: string }
  /** Puts every entry of a whole board under its own id, such as one read from a file. */
  | { readonly do: "fill"; readonly board: Board }
  | InkCommand
  /** Several commands as one step of undo. */
  | { readonly do: "all"; readonly commands: readonly Command[] };

/** Who made a change: this page's own person, or somebody through the server. */
export type Origin = { readonly source: "local" } | { readonly source: "remote"; readonly peer: string };
