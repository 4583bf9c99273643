import type { Board, BoardPart, BoardWire, EntryId } from "./board";
import { entryId } from "./board";
import type { ReadFields } from "./document";
import { asNewPart, type EntryFields, partFields, wantedFields } from "./entryFields";
import { groupFields, readGroup } from "./groups";
import { type Point, pointText } from "./point";
import type { EntryMap } from "./problem";
import { readPart, readWanted } from "./readEntries";
import { Malformed, malformed, nameField, pointField, polylineField } from "./readFields";
import { partOfWanted } from "./wanted";

/** Some entries of a board, with places, values and names: what a clipboard carries. */
export type Clip = Pick<Board, "parts" | "wires" | "references" | "nodeNames" | "wanted" | "groups">;

/** Why a text is no clip. `notOurs`: it is something else altogether. */
export type ClipProblem =
  | { readonly code: "notOurs" }
  | { readonly code: "newerVersion"; readonly version: unknown }
  | { readonly code: "malformed"; readonly map: EntryMap; readonly number: number; readonly field: string }
  | { readonly code: "tooMany"; readonly limit: number };

const FORMAT = "addend-clip";
const VERSION = 1;
const ENTRY_LIMIT = 2000;

/** Takes the chosen entries out of a board, with the quantities and the groups of sources that are of them alone. */
export function clipOf(board: Board, ids: ReadonlySet<EntryId>): Clip {
  const chosen = <T extends { readonly id: EntryId }>(entries: readonly T[]) => entries.filter(({ id }) => ids.has(id));
  return {
    parts: chosen(board.parts),
    wires: chosen(board.wires),
    references: chosen(board.references),
    nodeNames: chosen(board.nodeNames),
    wanted: board.wanted.filter((wanted) => {
      const part = partOfWanted(wanted);
      return part !== null && ids.has(part);
    }),
    groups: board.groups.filter(({ sources }) => sources.every((source) => ids.has(source))),
  };
}

/**
 * A clip as text: JSON with the fields of each entry as the shared document keeps them, such as
 * `{"format":"addend-clip","version":1,"parts":[{"id":"…","kind":"resistor","name":"R1","value":"1k","from":"0,0","to":"4,0"}],…}`.
 */
export function writeClip(clip: Clip): string {
  const entry = (id: EntryId, fields: EntryFields) => ({ id, ...withoutNulls(fields) });
  return JSON.stringify({
    format: FORMAT,
    version: VERSION,
    parts: clip.parts.map((part) => entry(part.id, partFields(asNewPart(part), part.name))),
    wires: clip.wires.map(({ id, name, points }) => entry(id, { points: points.map(pointText).join(" "), name })),
    references: clip.references.map(({ id, at }) => entry(id, { at: pointText(at) })),
    nodeNames: clip.nodeNames.map(({ id, at, name }) => entry(id, { at: pointText(at), name })),
    wanted: clip.wanted.map((wanted) => entry(wanted.id, { name: wanted.name, ...wantedFields(wanted) })),
    groups: clip.groups.map(({ id, sources }) => entry(id, groupFields(sources))),
  });
}

function withoutNulls(fields: EntryFields): EntryFields {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== null));
}

type ClipReading = { readonly ok: true; readonly clip: Clip } | { readonly ok: false; readonly problem: ClipProblem };

/** Reads what {@link writeClip} writes. Any text may come, since anything may be on a clipboard. */
export function readClip(text: string): ClipReading {
  const json = parsed(text);
  if (!isObject(json) || json.format !== FORMAT) return { ok: false, problem: { code: "notOurs" } };
  if (json.version !== VERSION) return { ok: false, problem: { code: "newerVersion", version: json.version } };
  try {
    return { ok: true, clip: readEntries(json) };
  } catch (error) {
    if (error instanceof BadClip) return { ok: false, problem: error.problem };
    throw error;
  }
}

/** Leaves the reading of a clip at its first fault; never leaves this file. */
class BadClip extends Error {
  constructor(readonly problem: ClipProblem) {
    super(problem.code);
  }
}

function readEntries(json: Readonly<Record<string, unknown>>): Clip {
  const parts = entriesIn(json.parts, "part", (fields, id): BoardPart => {
    const { asked, ...part } = readPart(fields, id);
    return { ...part, name: asked ?? malformed("name") } as BoardPart; // the union's members, each with its name
  });
  const wires = entriesIn(
    json.wires,
    "wire",
    (fields, id): BoardWire => ({
      id,
      name: nameField(fields) ?? "",
      points: polylineField(fields),
    }),
  );
  const references = entriesIn(json.references, "reference", (fields, id) => ({ id, at: pointField(fields, "at") }));
  const nodeNames = entriesIn(json.nodeNames, "node name", (fields, id) => ({
    id,
    at: pointField(fields, "at"),
    name: nameField(fields) ?? malformed("name"),
  }));
  const wanted = entriesIn(json.wanted, "wanted quantity", readWanted);
  const groups = entriesIn(json.groups, "group of sources", readGroup);
  return { parts, wires, references, nodeNames, wanted, groups };
}

function entriesIn<T>(list: unknown, map: EntryMap, read: (fields: ReadFields, id: EntryId) => T): readonly T[] {
  const entries = list === undefined ? [] : list;
  if (!Array.isArray(entries)) throw new BadClip({ code: "malformed", map, number: 1, field: "form" });
  if (entries.length > ENTRY_LIMIT) throw new BadClip({ code: "tooMany", limit: ENTRY_LIMIT });
  return entries.map((entry: unknown, i) => {
    try {
      const fields = new Map(Object.entries(isObject(entry) ? entry : malformed("form")));
      const id = fields.get("id");
      return read(fields, typeof id === "string" && id !== "" ? entryId(id) : malformed("id"));
    } catch (error) {
      if (!(error instanceof Malformed)) throw error;
      throw new BadClip({ code: "malformed", map, number: i + 1, field: error.field });
    }
  });
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** One or two plain sentences. */
export function clipProblemText(problem: ClipProblem): string {
  switch (problem.code) {
    case "notOurs":
      return "The clipboard holds no part of a circuit. Copy some on a board first.";
    case "newerVersion":
      return `What is on the clipboard was written in version ${String(problem.version)} of its form, which this page cannot read.`;
    case "malformed":
      return `What is on the clipboard has been changed: its ${problem.map} number ${problem.number} cannot be read (its ${problem.field}). Nothing was pasted.`;
    case "tooMany":
      return `What is on the clipboard has more than ${problem.limit} entries of a kind. Nothing was pasted.`;
  }
}

/** The least x and y of a clip's points, null where it holds none. */
export function cornerOf(clip: Clip): Point | null {
  const points = [
    ...clip.parts.flatMap((part) => (part.shape === "line" ? [part.from, part.to] : [part.at])),
    ...clip.wires.flatMap((wire) => wire.points),
    ...clip.references.map((mark) => mark.at),
    ...clip.nodeNames.map((mark) => mark.at),
  ];
  if (points.length === 0) return null;
  return { x: Math.min(...points.map((p) => p.x)), y: Math.min(...points.map((p) => p.y)) };
}
