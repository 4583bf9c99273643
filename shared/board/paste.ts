import type { Across, Board, BoardPart, BoardWanted, BoardWire, EntryId, WantedMark } from "./board";
import type { Clip } from "./clip";
import type { Command } from "./command";
import { asNewPart } from "./entryFields";
import { namePrefix, nextFreeName } from "./names";
import { addPoints, isOnGrid, type Point } from "./point";

/** What pasting does, and the entries that it places. */
export type Pasting = { readonly command: Command; readonly ids: readonly EntryId[] };

/**
 * Places a copy of a clip, shifted, as one step of undo. Names that the board has already give way to the next free
 * ones; a control that is not in the clip is kept where the board has its part; quantities whose name is wanted
 * already are left out. Null where the copy would leave the grid.
 */
export function pasting(board: Board, clip: Clip, by: Point, newId: () => EntryId): Pasting | null {
  const sources = [...clip.parts, ...clip.wires, ...clip.references, ...clip.nodeNames];
  const ids = new Map(sources.map((entry) => [entry.id, newId()]));
  const copy: Copy = {
    id: (id) => ids.get(id) ?? id,
    has: (id) => ids.has(id) || [...board.parts, ...board.wires].some((entry) => entry.id === id),
    to: (point) => addPoints(point, by),
  };
  const points = [
    ...clip.parts.flatMap((part) => (part.shape === "line" ? [part.from, part.to] : [part.at])),
    ...clip.wires.flatMap((wire) => wire.points),
    ...[...clip.references, ...clip.nodeNames].map((mark) => mark.at),
  ];
  if (!points.map(copy.to).every(isOnGrid)) return null;
  const names = freshNames(board, clip);
  const nodeNames = new Set(board.nodeNames.map((mark) => mark.name));
  const asked = new Set(board.wanted.map((wanted) => wanted.name));
  const commands: readonly Command[] = [
    ...clip.parts.map((part) => placePart(part, names, copy)),
    ...clip.wires.map((wire) => placeWire(wire, names, copy)),
    ...clip.references.map(({ id, at }) => ({ do: "placeReference" as const, id: copy.id(id), at: copy.to(at) })),
    ...clip.nodeNames
      .filter(({ name }) => !nodeNames.has(name))
      .map(({ id, at, name }) => ({ do: "nameNode" as const, id: copy.id(id), at: copy.to(at), name })),
    ...clip.wanted
      .filter(({ name }) => name === null || !asked.has(name))
      .flatMap((wanted) => setWanted(wanted, copy, newId())),
    ...clip.groups.map(({ sources }) => ({ do: "addGroup" as const, id: newId(), sources: sources.map(copy.id) })),
  ];
  return { command: { do: "all", commands }, ids: [...ids.values()] };
}

type Copy = {
  readonly id: (id: EntryId) => EntryId;
  /** Whether a part or wire is there for the copy to lean on. */
  readonly has: (id: EntryId) => boolean;
  readonly to: (point: Point) => Point;
};

/** A name for each part and wire of the clip that the board does not have. */
function freshNames(board: Board, clip: Clip): ReadonlyMap<EntryId, string> {
  const taken = new Set([...board.parts, ...board.wires].map((entry) => entry.name));
  const kinds = [...clip.parts, ...clip.wires.map((wire) => ({ ...wire, kind: "wire" as const }))];
  const free = kinds.map(({ id, name, kind }) => {
    const fresh = name !== "" && !taken.has(name) ? name : nextFreeName(namePrefix(kind), taken);
    taken.add(fresh);
    return [id, fresh] as const;
  });
  return new Map(free);
}

function placePart(part: BoardPart, names: ReadonlyMap<EntryId, string>, copy: Copy): Command {
  const place =
    part.shape === "line"
      ? { ...part, from: copy.to(part.from), to: copy.to(part.to) }
      : { ...part, at: copy.to(part.at) };
  const name = names.get(part.id) ?? part.name;
  const moved = "control" in place ? { ...place, control: place.control && copiedAcross(place.control, copy) } : place;
  return { do: "placePart", id: copy.id(part.id), part: { ...asNewPart(moved), name } };
}

function placeWire(wire: BoardWire, names: ReadonlyMap<EntryId, string>, copy: Copy): Command {
  const name = names.get(wire.id) ?? null;
  return { do: "placeWire", id: copy.id(wire.id), points: wire.points.map(copy.to), name };
}

/** Points of a copy's control go along with it; a part that is neither copied nor on the board is followed no more. */
function copiedAcross(across: Across, copy: Copy): Across | null {
  if (across.by === "points") return { ...across, from: copy.to(across.from), to: copy.to(across.to) };
  return copy.has(across.part) ? { ...across, part: copy.id(across.part) } : null;
}

function setWanted(wanted: BoardWanted, copy: Copy, id: EntryId): readonly Command[] {
  const mark = copiedMark(wanted, copy);
  return mark ? [{ do: "setWanted", id, name: wanted.name, mark }] : [];
}

function copiedMark(wanted: BoardWanted, copy: Copy): WantedMark | null {
  if (wanted.kind === "current") {
    const { kind, part, direction, winding } = wanted;
    return copy.has(part) ? { kind, part: copy.id(part), direction, winding } : null;
  }
  if (wanted.kind === "power") return copy.has(wanted.part) ? { kind: wanted.kind, part: copy.id(wanted.part) } : null;
  const across = copiedAcross(wanted.across, copy);
  return across && { kind: wanted.kind, across };
}
