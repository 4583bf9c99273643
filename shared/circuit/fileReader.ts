import type * as z from "zod";
import type { Wanted } from "./circuit";
import type { CircuitFile, Placement, Unanswerable } from "./circuitFile";
import { drawingFrom, placementFrom } from "./fileDrawing";
import { type DrawingEntry, drawingSchema } from "./fileDrawingSchema";
import { type ElementEntry, elementSchema } from "./fileElementSchema";
import { type GroupEntry, groupSchema } from "./fileGroupSchema";
import { groupsFrom } from "./fileGroups";
import { type FileNames, isKnownNode, namesIn } from "./fileNames";
import { partFrom } from "./filePart";
import type { FileProblem } from "./fileProblem";
import { type CircuitFileEntry, circuitFileSchema } from "./fileSchema";
import { shapeProblems, valueAt } from "./fileShape";
import { unanswerableFrom, wantedFrom } from "./fileWanted";
import { type WantedEntry, wantedSchema } from "./fileWantedSchema";
import { findJsonFault } from "./jsonFault";
import { isSourceKind, nodeId, type Part } from "./part";

/** Longest text of a circuit file, in UTF-16 units. */
export const TEXT_LIMIT = 5_000_000;

export type FileReading =
  | { readonly ok: true; readonly value: CircuitFile }
  | { readonly ok: false; readonly problems: readonly [FileProblem, ...FileProblem[]] };

/** Reads the text of a circuit file. Problems as {@link readCircuitFile}, and those of a text that is no JSON. Never throws. */
export function readCircuitText(text: string): FileReading {
  const problem = (found: TextFault): FileReading => ({ ok: false, problems: [{ path: [], ...found }] });
  if (text.length > TEXT_LIMIT) return problem({ code: "textTooLong", limit: TEXT_LIMIT });
  // Some editors put a byte order mark before the text, which JSON does not know.
  const body = text.replace(/^\uFEFF/, "");
  if (body.trim() === "") return problem({ code: "emptyText" });
  let json: unknown;
  try {
    json = JSON.parse(body);
  } catch (error) {
    const fault = findJsonFault(body);
    if (fault === null) throw error;
    return problem({ code: "notJson", fault });
  }
  return readCircuitFile(json);
}

type TextFault =
  Extract<FileProblem, { code: "textTooLong" | "emptyText" | "notJson" }> extends infer P
    ? P extends FileProblem
      ? Omit<P, "path">
      : never
    : never;

/**
 * Reads a circuit file from its JSON value, as `circuit-file.schema.json` describes it.
 *
 * All problems are found, not just the first, in the order of the file; where one part of it has the wrong shape the
 * rest is still checked. Control by a part or node that is not there is kept: it is a problem of the circuit, not of the file.
 * Never throws, whatever JSON value it is given.
 */
export function readCircuitFile(json: unknown): FileReading {
  const parsed = circuitFileSchema.safeParse(json);
  const problems = parsed.success ? [] : shapeProblems(parsed.error.issues, json);
  const ending = problems.find(isEnding);
  if (ending !== undefined) return refused([ending]);
  const contents = parsed.success ? contentsOf(parsed.data) : salvaged(json);
  const file = fileFrom(contents, problems);
  return problems.length === 0 ? { ok: true, value: file } : refused(inFileOrder(problems));
}

/** Whether a problem leaves nothing else to say: a newer version may mean any field differently; a list is too long to go through. */
function isEnding({ code, path }: FileProblem): boolean {
  return code === "newerVersion" || (code === "tooMany" && path.length === 1);
}

/** The entries of a file that have the right shape, with their places in it. */
type Contents = {
  readonly head: Pick<CircuitFileEntry, "title" | "statement" | "reference" | "amplitude_kind">;
  readonly elements: readonly Placed<ElementEntry>[];
  readonly rawElements: readonly unknown[];
  readonly wanted: readonly Placed<WantedEntry>[];
  readonly groups: readonly Placed<GroupEntry>[];
  readonly drawing: DrawingEntry | null;
};
type Placed<T> = readonly [index: number, entry: T];

function contentsOf(entry: CircuitFileEntry): Contents {
  return {
    head: entry,
    elements: [...entry.elements.entries()],
    rawElements: entry.elements,
    wanted: [...(entry.wanted ?? []).entries()],
    groups: [...(entry.groups ?? []).entries()],
    drawing: entry.drawing ?? null,
  };
}

function salvaged(json: unknown): Contents {
  const rawElements = listAt(json, "elements");
  const drawing = drawingSchema.safeParse(valueAt(json, ["drawing"]));
  const reference = valueAt(json, ["reference"]);
  return {
    head: { reference: typeof reference === "string" ? reference : null },
    elements: readable(rawElements, elementSchema),
    rawElements,
    wanted: readable(listAt(json, "wanted"), wantedSchema),
    groups: readable(listAt(json, "groups"), groupSchema),
    drawing: drawing.success ? drawing.data : null,
  };
}

/** The entries of a list that have the right shape. */
function readable<T>(list: readonly unknown[], schema: z.ZodType<T>): readonly Placed<T>[] {
  return list.flatMap((raw, index) => {
    const entry = schema.safeParse(raw);
    return entry.success ? [[index, entry.data] as const] : [];
  });
}

function listAt(json: unknown, field: string): readonly unknown[] {
  const value = valueAt(json, [field]);
  return Array.isArray(value) ? value : [];
}

function fileFrom(contents: Contents, problems: FileProblem[]): CircuitFile {
  const { head, elements, rawElements, wanted, groups, drawing } = contents;
  const names = namesIn(
    rawElements,
    elements.map(([, entry]) => entry),
    problems,
  );
  const reference = head.reference ?? null;
  if (reference !== null) isKnownNode(reference, ["reference"], names, problems);
  const { parts, placements } = partsFrom(elements, head.amplitude_kind ?? "peak", problems);
  const asked = wantedOf(wanted, names, reference, problems);
  return {
    title: head.title ?? null,
    statement: head.statement ?? null,
    circuit: { parts, reference: reference === null ? null : nodeId(reference), wanted: asked.wanted },
    drawing: drawingFrom(drawing, placements, problems),
    unanswerable: asked.unanswerable,
    groups: groupsFrom(groups, { names, sourceCount: sourceCountOf(contents), problems }),
  };
}

function sourceCountOf({ elements, rawElements }: Contents): number | null {
  return elements.length < rawElements.length ? null : elements.filter(([, { kind }]) => isSourceKind(kind)).length;
}

function partsFrom(
  elements: readonly Placed<ElementEntry>[],
  measure: "peak" | "rms",
  problems: FileProblem[],
): { readonly parts: readonly Part[]; readonly placements: readonly Placement[] } {
  const parts: Part[] = [];
  const placements: Placement[] = [];
  for (const [index, entry] of elements) {
    const path = ["elements", index];
    parts.push(partFrom(entry, { path, measure, problems }));
    const placement = placementFrom(entry, path, problems);
    if (placement !== null) placements.push(placement);
  }
  return { parts, placements };
}

function wantedOf(
  entries: readonly Placed<WantedEntry>[],
  names: FileNames,
  reference: string | null,
  problems: FileProblem[],
): { readonly wanted: readonly Wanted[]; readonly unanswerable: readonly Unanswerable[] } {
  const wanted: Wanted[] = [];
  const unanswerable: Unanswerable[] = [];
  const taken = new Map<string, number>();
  for (const [index, entry] of entries) {
    const path = ["wanted", index];
    const first = taken.get(entry.name ?? "");
    if (first !== undefined && entry.name) {
      problems.push({ path: [...path, "name"], code: "nameTaken", name: entry.name, by: ["wanted", first] });
    } else if (entry.name) taken.set(entry.name, index);
    const read = wantedFrom(entry, { path, names, reference, problems });
    const outOfReach = unanswerableFrom(entry, index);
    if (outOfReach !== null) unanswerable.push(outOfReach);
    else if (read !== null) wanted.push(read);
  }
  return { wanted, unanswerable };
}

function refused(problems: readonly FileProblem[]): FileReading {
  const [first, ...rest] = problems;
  if (first === undefined) throw new TypeError("a file was refused without a problem");
  return { ok: false, problems: [first, ...rest] };
}

const SECTIONS: readonly (string | number)[] = [
  "format",
  "version",
  "title",
  "statement",
  "elements",
  "reference",
  "wanted",
  "groups",
  "drawing",
];

/** Section by section, and in lists by place; within one entry as found. */
function inFileOrder(problems: readonly FileProblem[]): readonly FileProblem[] {
  const rank = ({ path }: FileProblem) => {
    const section = SECTIONS.indexOf(path[0] ?? "");
    return section === -1 ? SECTIONS.length : section;
  };
  const place = ({ path }: FileProblem) => (typeof path[1] === "number" ? path[1] : 0);
  return problems.toSorted((a, b) => rank(a) - rank(b) || place(a) - place(b));
}
