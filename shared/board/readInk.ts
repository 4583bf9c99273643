import * as Y from "yjs";
import { type EntryId, entryId } from "./board";
import { type Fields, inkOf } from "./document";
import { INK_COLOURS, type Ink, type InkMark, isNoteText } from "./ink";
import { type InkSpot, isOnBoard, readSpots, shiftSpot } from "./inkSpot";
import type { BoardProblem } from "./problem";
import { choiceField, Malformed, malformed } from "./readFields";

/** Most marks of one board, and most spots of all its strokes; what comes after them is left out. */
const MARK_LIMIT = 3000;
const SPOT_LIMIT = 200_000;
/** Sources that one card may add up. */
const CARD_LIMIT = 50;

/** One entry as it was read: a mark, or the problem that it is. */
type Reading = InkMark | BoardProblem;

/** The ink that a document holds, whatever the document holds. Never throws: what cannot be read becomes a problem. */
export function readInk(doc: Y.Doc): Ink {
  const readings = new Map([...inkOf(doc).entries()].map(([key, entry]) => [key, readEntry(key, entry)]));
  return assemble(readings);
}

/**
 * Calls back with the ink after every transaction that changed it; returns its own undo. Marks that have not changed
 * stay the same objects, so that a drawing of them can be kept.
 */
export function observeInk(doc: Y.Doc, listener: (ink: Ink) => void): () => void {
  const entries = inkOf(doc);
  const readings = new Map([...entries.entries()].map(([key, entry]) => [key, readEntry(key, entry)]));
  const onChange = (events: readonly Y.YEvent<Y.AbstractType<unknown>>[]) => {
    for (const key of events.flatMap((event) => changedKeys(event, entries))) {
      if (entries.has(key)) readings.set(key, readEntry(key, entries.get(key)));
      else readings.delete(key);
    }
    listener(assemble(readings));
  };
  entries.observeDeep(onChange);
  return () => entries.unobserveDeep(onChange);
}

/** The entries that an event is about: those it sets or takes away, or the one inside which something changed. */
function changedKeys(event: Y.YEvent<Y.AbstractType<unknown>>, entries: Y.Map<unknown>): readonly string[] {
  return event.target === entries ? [...event.changes.keys.keys()] : [String(event.path[0])];
}

function assemble(readings: ReadonlyMap<string, Reading>): Ink {
  const inOrder = [...readings].sort(([a], [b]) => (a < b ? -1 : 1));
  const marks: InkMark[] = [];
  const problems: BoardProblem[] = [];
  let spots = 0;
  for (const [, reading] of inOrder) {
    if ("code" in reading) problems.push(reading);
    else if (marks.length === MARK_LIMIT || spots > SPOT_LIMIT) return { marks, problems: [...problems, TOO_MUCH] };
    else marks.push(reading);
    if ("spots" in reading) spots += reading.spots.length;
  }
  return { marks, problems };
}

const TOO_MUCH: BoardProblem = { code: "tooMuchInk", entry: null };

function readEntry(key: string, entry: unknown): Reading {
  const id = entryId(key);
  try {
    return readMark(entry instanceof Y.Map ? entry : malformed("form"), id);
  } catch (error) {
    if (!(error instanceof Malformed)) throw error;
    return { code: "malformedEntry", entry: id, map: "mark", field: error.field };
  }
}

function readMark(fields: Fields, id: EntryId): InkMark {
  const kind = choiceField<InkMark["kind"] | "">(fields, "kind", ["pen", "highlighter", "arrow", "note"], "");
  const base = { id, colour: choiceField(fields, "colour", INK_COLOURS, "ink"), card: cardField(fields) };
  switch (kind) {
    case "":
      return malformed("kind");
    case "pen":
    case "highlighter":
      return { ...base, kind, spots: spotsField(fields, 1) };
    case "arrow": {
      const [from, to, ...rest] = spotsField(fields, 2);
      if (!from || !to || rest.length > 0 || (from.x === to.x && from.y === to.y)) return malformed("spots");
      return { ...base, kind, from, to };
    }
    case "note": {
      const [at, ...rest] = spotsField(fields, 1);
      const text = fields.get("text");
      if (!at || rest.length > 0) return malformed("spots");
      return { ...base, kind, at, text: isNoteText(text) ? text : malformed("text") };
    }
  }
}

/** The spots of a mark, moved by as much as the mark has been moved since it was made. */
function spotsField(fields: Fields, least: number): readonly InkSpot[] {
  const spots = readSpots(fields.get("spots"));
  if (!spots || spots.length < least) return malformed("spots");
  const moved = fields.get("moved");
  if (moved === undefined) return spots;
  const [by, ...rest] = readSpots(moved) ?? [];
  if (!by || rest.length > 0) return malformed("moved");
  return spots.every((spot) => isOnBoard({ x: spot.x + by.x, y: spot.y + by.y }))
    ? spots.map((spot) => shiftSpot(spot, by))
    : malformed("moved");
}

function cardField(fields: Fields): readonly EntryId[] {
  const text = fields.get("card") ?? "";
  if (typeof text !== "string" || text.length > 64 * CARD_LIMIT) return malformed("card");
  const ids = text === "" ? [] : text.split(" ");
  return ids.length <= CARD_LIMIT && !ids.includes("") ? ids.map(entryId) : malformed("card");
}
