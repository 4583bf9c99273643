import * as Y from "yjs";
import {
  type Board,
  type BoardPart,
  type BoardReference,
  type BoardWanted,
  type BoardWire,
  type EntryId,
  entryId,
  type NodeName,
} from "./board";
import { type EntryMapKey, entriesOf, type Fields, MAP_NAMES, pageOf } from "./document";
import { readGroup, standingGroups } from "./groups";
import { settleNames } from "./names";
import type { BoardProblem } from "./problem";
import { readPart, readWanted, type UnnamedPart } from "./readEntries";
import { Malformed, malformed, nameField, pointField, polylineField } from "./readFields";
import { partOfWanted } from "./wanted";

/** Entries of one map that are read; a board of some hundred parts is already more than a page can show. */
const ENTRY_LIMIT = 2000;

/**
 * The board that a document holds, in a fixed order (by entry id), whatever the document holds. Never throws: an entry
 * that is malformed, or that leans on one that is gone, is left out and becomes a problem.
 */
export function readBoard(doc: Y.Doc): Board {
  const problems: BoardProblem[] = [];
  const parts = readEntries(doc, "parts", problems, readPart);
  const wires = readEntries(doc, "wires", problems, (fields, id) => ({
    id,
    asked: nameField(fields),
    points: polylineField(fields),
  }));
  const references = readEntries<BoardReference>(doc, "references", problems, (fields, id) => ({
    id,
    at: pointField(fields, "at"),
  }));
  const nodeNames = readEntries<NodeName>(doc, "nodeNames", problems, (fields, id) => ({
    id,
    at: pointField(fields, "at"),
    name: nameField(fields) ?? malformed("name"),
  }));
  const wanted = readEntries(doc, "wanted", problems, readWanted);
  const names = settleNames([...parts, ...wires.map((wire) => ({ ...wire, kind: "wire" as const }))]);
  const branches = new Set([...parts, ...wires].map((entry) => entry.id));
  const settledParts = parts.map((part) => withControl(named(part, names), branches));
  return {
    title: pageText(doc, "title"),
    statement: pageText(doc, "statement"),
    parts: settledParts,
    wires: wires.map((wire) => named(wire, names)) satisfies readonly BoardWire[],
    references,
    nodeNames,
    wanted: wanted.filter((entry) => isAnchored(entry, branches, problems)),
    groups: standingGroups(readEntries(doc, "groups", problems, readGroup), settledParts, problems),
    problems,
  };
}

function readEntries<T>(
  doc: Y.Doc,
  key: EntryMapKey,
  problems: BoardProblem[],
  read: (fields: Fields, id: EntryId) => T,
): readonly T[] {
  const map = MAP_NAMES[key];
  const entries = [...entriesOf(doc, key).entries()].sort(([a], [b]) => (a < b ? -1 : 1));
  if (entries.length > ENTRY_LIMIT) problems.push({ code: "tooManyEntries", map, limit: ENTRY_LIMIT, entry: null });
  return entries.slice(0, ENTRY_LIMIT).flatMap(([key, entry]) => {
    const id = entryId(key);
    try {
      return [read(entry instanceof Y.Map ? entry : malformed("form"), id)];
    } catch (error) {
      if (!(error instanceof Malformed)) throw error;
      problems.push({ code: "malformedEntry", entry: id, map, field: error.field });
      return [];
    }
  });
}

type Asking = { readonly id: EntryId; readonly asked: string | null };

function named<T extends Asking>(entry: T, names: ReadonlyMap<EntryId, string>): Omit<T, "asked"> & { name: string } {
  const { asked, ...rest } = entry;
  return { ...rest, name: names.get(entry.id) ?? asked ?? entry.id };
}

/** A control that names a part which is gone is no control. */
function withControl(part: Omit<UnnamedPart, "asked"> & { name: string }, branches: ReadonlySet<EntryId>): BoardPart {
  const whole = part as BoardPart;
  if (!("control" in whole) || whole.control?.by !== "part" || branches.has(whole.control.part)) return whole;
  return { ...whole, control: null };
}

function isAnchored(wanted: BoardWanted, branches: ReadonlySet<EntryId>, problems: BoardProblem[]): boolean {
  const part = partOfWanted(wanted);
  if (part === null || branches.has(part)) return true;
  problems.push({ code: "danglingWanted", entry: wanted.id, name: wanted.name ?? "A wanted quantity" });
  return false;
}

function pageText(doc: Y.Doc, field: "title" | "statement"): string {
  const text = pageOf(doc).get(field);
  return typeof text === "string" ? text.slice(0, 2000) : "";
}
