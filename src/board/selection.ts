import { type Board, type EntryId, inReadingOrder, type Point, terminalPoints } from "../../shared/board";
import { type Box, boxAround, type Figure, type Spot } from "../figure";
import { entryBox } from "./overlay";

/** The entries that are selected. */
export type Selection = ReadonlySet<EntryId>;
export const NO_SELECTION: Selection = new Set();

/** The one entry that is selected, null where there are none or several. */
export function onlyOf(selection: Selection): EntryId | null {
  return selection.size === 1 ? ([...selection][0] ?? null) : null;
}

/** A selection with an entry put in, or taken out where it is in. */
export function toggled(selection: Selection, entry: EntryId): Selection {
  const next = new Set(selection);
  if (!next.delete(entry)) next.add(entry);
  return next;
}

/** Everything on the board that can be selected. */
export function allEntries(board: Board): Selection {
  const entries = [...board.parts, ...board.wires, ...board.references, ...board.nodeNames];
  return new Set(entries.map((entry) => entry.id));
}

/** What of a selection is still on the board. */
export function stillThere(selection: Selection, board: Board): Selection {
  const all = allEntries(board);
  return [...selection].every((entry) => all.has(entry))
    ? selection
    : new Set([...selection].filter((e) => all.has(e)));
}

/** The entries that lie wholly within a box between two spots. */
export function entriesWithin(board: Board, figure: Figure, from: Spot, to: Spot): Selection {
  const frame = boxAround([from, to]);
  const isWithin = (box: Box | null) =>
    box !== null &&
    box.x >= frame.x &&
    box.y >= frame.y &&
    box.x + box.width <= frame.x + frame.width &&
    box.y + box.height <= frame.y + frame.height;
  return new Set([...allEntries(board)].filter((entry) => isWithin(entryBox(entry, board, figure))));
}

/** The part after (or before) the one at a point, in the order in which a page is read; null on a blank board. */
export function nextPart(
  board: Board,
  at: Point | null,
  by: 1 | -1,
): { readonly id: EntryId; readonly at: Point } | null {
  const parts = board.parts
    .map((part) => ({ id: part.id, at: middleOfPoints(part.shape === "line" ? terminalPoints(part) : [part.at]) }))
    .sort((a, b) => inReadingOrder(a.at, b.at));
  const here = at;
  if (!here) return parts.at(by === 1 ? 0 : -1) ?? null;
  const after = parts.filter((part) => by * inReadingOrder(part.at, here) > 0);
  return after.at(by === 1 ? 0 : -1) ?? parts.at(by === 1 ? 0 : -1) ?? null;
}

function middleOfPoints(points: readonly Point[]): Point {
  const sum = points.reduce((a, b) => ({ x: a.x + b.x, y: a.y + b.y }));
  return { x: Math.round(sum.x / points.length), y: Math.round(sum.y / points.length) };
}
