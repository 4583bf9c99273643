import type { BlockKind, EntryId, LineKind, Turn, WantedMark } from "../../shared/board";

/** What the pointer and the keyboard do on the board. */
export type Tool =
  /** Lines from grid point to grid point, which become what is typed. */
  | { readonly do: "stretch" }
  /** Wires, a corner at each click. */
  | { readonly do: "wire" }
  | { readonly do: "select" }
  | { readonly do: "reference" }
  | { readonly do: "name" }
  /** Lines that become a part of this kind. */
  | { readonly do: "line"; readonly kind: LineKind }
  | { readonly do: "block"; readonly kind: BlockKind; readonly turn: Turn; readonly flip: boolean }
  | { readonly do: "pick"; readonly pick: Pick };

/** Something that is being picked on the board: a part, or two points. */
export type Pick =
  /** What a dependent source follows. */
  | { readonly for: "control"; readonly entry: EntryId; readonly follows: "voltage" | "current" }
  /** What is wanted. */
  | { readonly for: "wanted"; readonly kind: WantedMark["kind"] };

export const STRETCH: Tool = { do: "stretch" };
export const WIRE: Tool = { do: "wire" };
export const SELECT: Tool = { do: "select" };
export const REFERENCE: Tool = { do: "reference" };
export const NODE_NAME: Tool = { do: "name" };

/** Whether two points can be picked; a current and a power are those of a part. */
export function takesPoints(pick: Pick): boolean {
  if (pick.for === "control") return pick.follows === "voltage";
  return pick.kind !== "current" && pick.kind !== "power";
}

/** The tool for a block, turned a quarter clockwise or mirrored left to right. */
export function turnedBlock(tool: Extract<Tool, { do: "block" }>, how: "turn" | "mirror"): Tool {
  const turn = (how === "turn" ? tool.turn + 90 : 540 - tool.turn) % 360;
  return { ...tool, turn: turn as Turn, flip: how === "mirror" ? !tool.flip : tool.flip };
}
