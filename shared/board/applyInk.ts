import * as Y from "yjs";
import { unreachable } from "../quantity";
import type { EntryId } from "./board";
import { type FieldValue, inkOf } from "./document";
import { type InkCommand, type InkMark, isNoteText, NOTE_LIMIT } from "./ink";
import { type InkSpot, readSpots, STROKE_LIMIT, shiftSpot, spotsText } from "./inkSpot";

/** Does a command to ink, inside a transaction of the caller's. */
export function performInk(doc: Y.Doc, command: InkCommand): void {
  switch (command.do) {
    case "placeStroke":
      put(doc, command, command.kind, command.spots);
      break;
    case "placeArrow":
      put(doc, command, "arrow", [command.from, command.to]);
      break;
    case "placeNote":
      put(doc, command, "note", [command.at], { text: noteText(command.text) });
      break;
    case "editNote":
      fieldsOf(doc, command.id)?.set("text", noteText(command.text));
      break;
    case "moveInk":
      for (const id of command.ids) move(doc, id, command.by);
      break;
    case "eraseInk":
      for (const id of command.ids) inkOf(doc).delete(id);
      break;
    default:
      unreachable(command);
  }
}

function put(
  doc: Y.Doc,
  { id, colour, card }: Pick<InkMark, "id" | "colour" | "card">,
  kind: InkMark["kind"],
  spots: readonly InkSpot[],
  more: Readonly<Record<string, FieldValue>> = {},
): void {
  if (spots.length === 0 || spots.length > STROKE_LIMIT) {
    throw new RangeError(`got a stroke of ${spots.length} spots, expected 1 to ${STROKE_LIMIT}`);
  }
  const seenOn = card.length > 0 ? { card: card.join(" ") } : {};
  const fields = { kind, colour, spots: spotsText(spots), ...seenOn, ...more };
  inkOf(doc).set(id, new Y.Map<unknown>(Object.entries(fields)));
}

function noteText(text: string): string {
  if (isNoteText(text)) return text;
  throw new RangeError(`got a note that is blank or has more than ${NOTE_LIMIT} characters`);
}

// What a mark was moved by is a field of its own: moving a long stroke is a short update, and keeps an edit of a note
// that somebody makes at the same time.
function move(doc: Y.Doc, id: EntryId, by: InkSpot): void {
  const fields = fieldsOf(doc, id);
  const before = readSpots(fields?.get("moved"))?.[0] ?? { x: 0, y: 0 };
  fields?.set("moved", spotsText([shiftSpot(before, by)]));
}

function fieldsOf(doc: Y.Doc, id: EntryId): Y.Map<unknown> | null {
  const entry = inkOf(doc).get(id);
  return entry instanceof Y.Map ? entry : null;
}
