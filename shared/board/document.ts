import * as Y from "yjs";
import type { EntryMap } from "./problem";

/**
 * The keys of the shared document. Six maps from entry id to a nested Y.Map with one key a field that two people may
 * edit at once, so that a move and a new value made at the same time both survive; and one map of texts about the
 * whole board. Points are texts (`"3,-4"`), values are texts as typed, so nothing is rounded on the way.
 *
 *   parts      kind, name, value, from, to, reversed (line parts), at, turn, flip (blocks), state (switches),
 *              controlPart, controlDirection, controlFrom, controlTo (dependent sources)
 *   wires      points (`"0,0 4,0 4,3"`), name
 *   references at
 *   nodeNames  at, name
 *   wanted     kind, name, part, direction, winding, from, to
 *   groups     sources (entries of parts, `"a b"`)
 *   page       title, statement
 *
 * Ink is a map beside these, since nothing of it is part of the circuit and none of their commands is about it:
 *   ink        kind, colour, card (entries of sources), spots, moved (as in inkSpot.ts), text (notes)
 */
export type EntryMapKey = "parts" | "wires" | "references" | "nodeNames" | "wanted" | "groups";

export const ENTRY_MAPS: readonly EntryMapKey[] = ["parts", "wires", "references", "nodeNames", "wanted", "groups"];

/** What an entry of each map is called. */
export const MAP_NAMES: Readonly<Record<EntryMapKey, EntryMap>> = {
  parts: "part",
  wires: "wire",
  references: "reference",
  nodeNames: "node name",
  wanted: "wanted quantity",
  groups: "group of sources",
};

export type FieldValue = string | number | boolean;
export type Fields = Y.Map<unknown>;
/** The fields of an entry as they are read, from the document or from a clipboard. */
export type ReadFields = { readonly get: (field: string) => unknown };

export function entriesOf(doc: Y.Doc, key: EntryMapKey): Y.Map<unknown> {
  return doc.getMap(key);
}

export function pageOf(doc: Y.Doc): Y.Map<unknown> {
  return doc.getMap("page");
}

export function inkOf(doc: Y.Doc): Y.Map<unknown> {
  return doc.getMap("ink");
}

/** The nested map of an entry, null where there is none or somebody wrote something else in its place. */
export function fieldsOf(doc: Y.Doc, key: EntryMapKey, id: string): Fields | null {
  const entry = entriesOf(doc, key).get(id);
  return entry instanceof Y.Map ? entry : null;
}

/** Puts an entry with these fields; fields that are null are left out. */
export function putEntry(
  doc: Y.Doc,
  key: EntryMapKey,
  id: string,
  fields: Readonly<Record<string, FieldValue | null>>,
): void {
  const given = Object.entries(fields).filter((pair) => pair[1] !== null);
  entriesOf(doc, key).set(id, new Y.Map(given));
}
