import type * as Y from "yjs";
import { unreachable } from "../quantity";
import { performInk } from "./applyInk";
import type { Board, EntryId } from "./board";
import type { Command, NewPart, Origin } from "./command";
import { ENTRY_MAPS, entriesOf, type FieldValue, fieldsOf, pageOf, putEntry } from "./document";
import { acrossFieldsOf, asNewPart, partFields, wantedFields } from "./entryFields";
import { groupFields } from "./groups";
import { namePrefix, nextFreeName } from "./names";
import { addPoints, type Point, pointText, readPoint } from "./point";
import { readBoard } from "./read";
import { CONTROL_KEYS } from "./readFields";

/** Does a command in exactly one transaction that carries `origin`. */
export function applyCommand(doc: Y.Doc, command: Command, origin: Origin): void {
  doc.transact(() => perform(doc, command), origin);
}

function perform(doc: Y.Doc, command: Command): void {
  switch (command.do) {
    case "placePart":
      putEntry(doc, "parts", command.id, partFields(command.part, command.part.name ?? freeName(doc, command.part)));
      break;
    case "placeWire":
      putEntry(doc, "wires", command.id, {
        points: command.points.map(pointText).join(" "),
        name: command.name ?? null,
      });
      break;
    case "placeReference":
      putEntry(doc, "references", command.id, { at: pointText(command.at) });
      break;
    case "nameNode":
      putEntry(doc, "nodeNames", command.id, { at: pointText(command.at), name: command.name });
      break;
    case "setValue":
      setField(doc, command.id, "value", command.value);
      break;
    case "rename":
      setField(doc, command.id, "name", command.name);
      break;
    case "reverse":
      reverse(doc, command.id);
      break;
    case "putLine":
      putLine(doc, command.id, command.from, command.to);
      break;
    case "putBlock":
      setFields(doc, command.id, { at: pointText(command.at), turn: command.turn, flip: command.flip });
      break;
    case "putWire":
      setField(doc, command.id, "points", command.points.map(pointText).join(" "));
      break;
    case "putMark":
      setField(doc, command.id, "at", pointText(command.at));
      break;
    case "setSwitch":
      setField(doc, command.id, "state", command.state);
      break;
    case "setControl":
      setFields(doc, command.id, acrossFieldsOf(command.control, CONTROL_KEYS));
      break;
    case "move":
      for (const id of command.ids) move(doc, id, command.by);
      break;
    case "delete":
      deleteEntries(doc, command.ids);
      break;
    case "setWanted":
      putEntry(doc, "wanted", command.id, { name: command.name, ...wantedFields(command.mark) });
      break;
    case "clearWanted":
      entriesOf(doc, "wanted").delete(command.id);
      break;
    case "addGroup":
      putEntry(doc, "groups", command.id, groupFields(command.sources));
      break;
    case "removeGroup":
      entriesOf(doc, "groups").delete(command.id);
      break;
    case "setPage":
      setPage(doc, command.title, command.statement);
      break;
    case "fill":
      fill(doc, command.board);
      break;
    case "placeStroke":
    case "placeArrow":
    case "placeNote":
    case "editNote":
    case "moveInk":
    case "eraseInk":
      performInk(doc, command);
      break;
    case "all":
      for (const each of command.commands) perform(doc, each);
      break;
    default:
      unreachable(command);
  }
}

function fill(doc: Y.Doc, board: Board): void {
  for (const part of board.parts) {
    putEntry(doc, "parts", part.id, partFields(asNewPart(part), part.name));
  }
  const others: readonly Command[] = [
    ...board.wires.map((wire) => ({ do: "placeWire" as const, ...wire })),
    ...board.references.map((symbol) => ({ do: "placeReference" as const, ...symbol })),
    ...board.nodeNames.map((label) => ({ do: "nameNode" as const, ...label })),
    ...board.wanted.map((entry) => ({ do: "setWanted" as const, id: entry.id, name: entry.name, mark: entry })),
    ...board.groups.map((group) => ({ do: "addGroup" as const, ...group })),
    { do: "setPage", title: board.title, statement: board.statement },
  ];
  for (const command of others) perform(doc, command);
}

/** Free as far as this document knows; `settleNames` has the last word once others' parts arrive. */
function freeName(doc: Y.Doc, part: NewPart): string {
  const board = readBoard(doc);
  return nextFreeName(namePrefix(part.kind), new Set([...board.parts, ...board.wires].map((entry) => entry.name)));
}

function setPage(doc: Y.Doc, title: string, statement: string): void {
  pageOf(doc).set("title", title);
  pageOf(doc).set("statement", statement);
}

function setField(doc: Y.Doc, id: EntryId, field: string, value: FieldValue): void {
  setFields(doc, id, { [field]: value });
}

/** Sets fields of the entry wherever it is; null takes a field away. */
function setFields(doc: Y.Doc, id: EntryId, values: Readonly<Record<string, FieldValue | null>>): void {
  for (const key of ENTRY_MAPS) {
    const fields = fieldsOf(doc, key, id);
    if (!fields) continue;
    for (const [field, value] of Object.entries(values)) {
      if (value === null) fields.delete(field);
      else fields.set(field, value);
    }
  }
}

// A field of its own, and not a swap of `from` and `to`, so that turning a part round while somebody moves it keeps both.
function reverse(doc: Y.Doc, id: EntryId): void {
  const fields = fieldsOf(doc, "parts", id);
  fields?.set("reversed", fields.get("reversed") !== true);
}

// The ends as they are stored, so that a part which is turned round stays so, whoever turns it round meanwhile.
function putLine(doc: Y.Doc, id: EntryId, from: Point, to: Point): void {
  const [start, end] = fieldsOf(doc, "parts", id)?.get("reversed") === true ? [to, from] : [from, to];
  setFields(doc, id, { from: pointText(start), to: pointText(end) });
}

function move(doc: Y.Doc, id: EntryId, by: Point): void {
  for (const key of ENTRY_MAPS) {
    const fields = fieldsOf(doc, key, id);
    for (const field of ["from", "to", "at", "points"]) {
      const text = fields?.get(field);
      if (typeof text === "string") fields?.set(field, movedText(text, by));
    }
  }
}

/** Moves every point of a text of points; what is no point stays as it is. */
function movedText(text: string, by: Point): string {
  const words = text.split(" ").map((word) => {
    const point = readPoint(word);
    return point ? pointText(addPoints(point, by)) : word;
  });
  return words.join(" ");
}

function deleteEntries(doc: Y.Doc, ids: readonly EntryId[]): void {
  for (const id of ids) for (const key of ENTRY_MAPS) entriesOf(doc, key).delete(id);
  const gone = new Set<unknown>(ids);
  for (const [id] of entriesOf(doc, "wanted").entries()) {
    if (gone.has(fieldsOf(doc, "wanted", id)?.get("part"))) entriesOf(doc, "wanted").delete(id);
  }
}
