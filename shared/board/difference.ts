import type { Board, BoardPart, BoardWire, EntryId } from "./board";
import type { Command } from "./command";
import { type Point, samePoint } from "./point";

/**
 * What turns the places and lines of one board into those of another that holds the same parts and marks: one step of
 * undo. Wires that only one of them has are placed or deleted. Values, names and quantities are not looked at.
 */
export function rearranging(before: Board, after: Board): Command {
  const parts = byId(before.parts);
  const wires = byId(before.wires);
  const marks = byId<Mark>([...before.references, ...before.nodeNames]);
  const kept = new Set(after.wires.map((wire) => wire.id));
  const gone = before.wires.filter((wire) => !kept.has(wire.id)).map((wire) => wire.id);
  const commands: readonly Command[] = [
    ...after.parts.flatMap((part) => putPart(parts.get(part.id), part)),
    ...after.wires.flatMap((wire) => putWire(wires.get(wire.id), wire)),
    ...[...after.references, ...after.nodeNames].flatMap((mark) => putMark(marks.get(mark.id), mark)),
    ...(gone.length > 0 ? [{ do: "delete" as const, ids: gone }] : []),
  ];
  return { do: "all", commands };
}

type Mark = { readonly id: EntryId; readonly at: Point };

function byId<T extends { readonly id: EntryId }>(entries: readonly T[]): ReadonlyMap<EntryId, T> {
  return new Map(entries.map((entry) => [entry.id, entry]));
}

function putPart(before: BoardPart | undefined, { id, ...after }: BoardPart): readonly Command[] {
  if (!before) return [];
  if (after.shape === "line") {
    const { from, to } = after;
    const isSame = before.shape === "line" && samePoint(before.from, from) && samePoint(before.to, to);
    return isSame ? [] : [{ do: "putLine", id, from, to }];
  }
  const { at, turn, flip } = after;
  if (before.shape === "block" && samePoint(before.at, at) && before.turn === turn && before.flip === flip) return [];
  return [{ do: "putBlock", id, at, turn, flip }];
}

function putWire(before: BoardWire | undefined, { id, points }: BoardWire): readonly Command[] {
  if (!before) return [{ do: "placeWire", id, points }];
  const isSame =
    before.points.length === points.length && before.points.every((p, i) => samePoint(p, points[i] as Point));
  return isSame ? [] : [{ do: "putWire", id, points }];
}

function putMark(before: Mark | undefined, { id, at }: Mark): readonly Command[] {
  return before && !samePoint(before.at, at) ? [{ do: "putMark", id, at }] : [];
}
