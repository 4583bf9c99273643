import type * as z from "zod";
import { drawingSchema, GRID_LIMIT, lineSchema, poseSchema } from "./fileDrawingSchema";
import { type ElementEntry, elementSchema } from "./fileElementSchema";
import { groupSchema } from "./fileGroupSchema";
import { suggestion } from "./fileNames";
import type { FilePath, FileProblem, FileSubject } from "./fileProblem";
import { circuitFileSchema, FILE_FORMAT, FILE_VERSION } from "./fileSchema";
import { wantedSchema } from "./fileWantedSchema";
import type { PartKind } from "./part";

type Issue = z.core.$ZodIssue;
type UnionIssue = Extract<Issue, { code: "invalid_union" }>;

const KIND_FIELDS: ReadonlyMap<string, readonly string[]> = new Map(
  elementSchema.options.map((option) => [option.shape.kind.value, Object.keys(option.shape)]),
);
const WANTED_FIELDS: readonly string[] = [
  ...new Set(wantedSchema.options.flatMap((option) => Object.keys(option.shape))),
];
const CONTROLLED: ReadonlySet<string> = new Set<ElementEntry["kind"]>(["vcvs", "vccs", "ccvs", "cccs"]);

const BODIES: ReadonlySet<string> = new Set<ElementEntry["kind"]>(["ideal-opamp", "ideal-transformer"]);

/** What the schema found wrong with a JSON value, as problems of the file: one for each place and fault. */
export function shapeProblems(issues: readonly Issue[], json: unknown): FileProblem[] {
  const problems: FileProblem[] = [];
  for (const issue of issues) for (const problem of problemsOf(issue, json, problems.length)) problems.push(problem);
  return withoutRepeats(problems);
}

/** `before` counts the problems found already; late ones get no suggestions. */
function problemsOf(issue: Issue, json: unknown, before: number): FileProblem[] {
  const path = issue.path as FilePath;
  const control = controlProblem(path, json);
  if (control) return [control];
  switch (issue.code) {
    case "unrecognized_keys":
      return issue.keys.map((key, i) => unknownField(path, key, json, before + i));
    case "invalid_type":
      return [wrongType(path, [issue.expected], json)];
    case "invalid_union":
      return [unionProblem(path, issue, json, before)];
    case "invalid_value":
      return [invalidValue(path, issue.values.filter(isWord), json, before)];
    case "too_big":
    case "too_small":
      return [sizeProblem(path, Number(issue.code === "too_big" ? issue.maximum : issue.minimum), issue.code, json)];
    case "invalid_format":
      return [{ path, code: "badName", fault: nameFault(String(valueAt(json, path))) }];
    case "not_multiple_of":
    case "invalid_key":
    case "invalid_element":
    case "custom":
      throw new TypeError(`the schema of circuit files has no rule that gives ${issue.code}`);
  }
}

/** One sentence for whatever is wrong inside a control, since the control that the kind needs says it all. */
function controlProblem(path: FilePath, json: unknown): FileProblem | null {
  const at = path.indexOf("control");
  if (at !== 2 || path[0] !== "elements") return null;
  const subject = subjectAt(path.slice(0, at), json);
  const control = valueAt(json, path.slice(0, at + 1));
  const isName =
    (path[3] === "voltage" && path.length > 4) || (path[3] === "current" && typeof valueAt(json, path) === "string");
  if (control === undefined || path[3] === "direction" || isName) return null;
  return { path: path.slice(0, at + 1), code: "controlForm", subject: subject as PartKind };
}

function unknownField(owner: FilePath, key: string, json: unknown, before: number): FileProblem {
  const path = [...owner, key];
  const subject = subjectAt(owner, json);
  if (key === "gain_unit" && CONTROLLED.has(subject)) {
    return { path, code: "gainUnit", subject: subject as PartKind, found: foundText(valueAt(json, path)) };
  }
  if (subject === "wanted" && WANTED_FIELDS.includes(key)) return notUsedHere(path, json);
  return { path, code: "unknownField", subject, nearest: suggestion(key, fieldsAt(subject), before) };
}

function unionProblem(path: FilePath, issue: UnionIssue, json: unknown, before: number): FileProblem {
  if (issue.discriminator !== undefined) {
    const allowed = path.at(-1) === "kind" ? [...KIND_FIELDS.keys()] : wantedSchema.options.flatMap(quantitiesOf);
    return typeof valueAt(json, path) === "string"
      ? notOneOf(path, allowed, json, before)
      : wrongType(path, ["string"], json);
  }
  // The one plain union of the schema is that of quantities: text or a number.
  return wrongType(path, ["string", "number"], json);
}

function quantitiesOf(option: (typeof wantedSchema.options)[number]): readonly string[] {
  const quantity = option.shape.quantity;
  return "options" in quantity ? quantity.options : [quantity.value];
}

function invalidValue(
  path: FilePath,
  allowed: readonly (string | number)[],
  json: unknown,
  before: number,
): FileProblem {
  const value = valueAt(json, path);
  const field = path.at(-1);
  if (value === undefined) return { path, code: "missingField", subject: subjectAt(path.slice(0, -1), json) };
  if (field === "gain_unit") {
    return { path, code: "gainUnit", subject: subjectAt(path.slice(0, -1), json) as PartKind, found: foundText(value) };
  }
  if (path.length === 1 && field === "format" && typeof value === "string") {
    return { path, code: "otherFormat", found: foundText(value), format: FILE_FORMAT };
  }
  if (path.length === 1 && field === "version" && Number.isInteger(value) && Number(value) > FILE_VERSION) {
    return { path, code: "newerVersion", found: Number(value), reads: FILE_VERSION };
  }
  return notOneOf(path, allowed, json, before);
}

function isWord(value: unknown): value is string | number {
  return typeof value === "string" || typeof value === "number";
}

function notOneOf(path: FilePath, allowed: readonly (string | number)[], json: unknown, before: number): FileProblem {
  const value = valueAt(json, path);
  const words = allowed.filter((word) => typeof word === "string");
  const nearest = typeof value === "string" ? suggestion(value, words, before) : null;
  return { path, code: "notOneOf", found: foundText(value), allowed, nearest };
}

function wrongType(path: FilePath, expected: readonly string[], json: unknown): FileProblem {
  const value = valueAt(json, path);
  if (value === undefined && path.length > 0) {
    return { path, code: "missingField", subject: subjectAt(path.slice(0, -1), json) };
  }
  // The one place where null is all that a schema takes is a field that another wanted quantity uses.
  if (path[0] === "wanted" && expected.includes("null")) return notUsedHere(path, json);
  return { path, code: "wrongType", expected: expected.map(typeText).join(" or "), found: foundText(value) };
}

function notUsedHere(path: FilePath, json: unknown): FileProblem {
  return { path, code: "notUsedHere", quantity: String(valueAt(json, [...path.slice(0, -1), "quantity"])) };
}

function sizeProblem(path: FilePath, bound: number, code: "too_big" | "too_small", json: unknown): FileProblem {
  const value = valueAt(json, path);
  if (typeof value === "string") return { path, code: "tooLong", limit: bound };
  if (typeof value === "number") return { path, code: "offGrid", limit: GRID_LIMIT, found: foundText(value) };
  const length = Array.isArray(value) ? value.length : 0;
  if (path.at(-1) === "nodes") {
    return { path, code: "nodeCount", subject: subjectAt(path.slice(0, -1), json), wanted: bound, found: length };
  }
  if (isPointPath(path)) return { path, code: "pointLength", found: length };
  return code === "too_big" ? { path, code: "tooMany", limit: bound } : { path, code: "tooFew", least: bound };
}

function isPointPath(path: FilePath): boolean {
  return path.includes("drawn") || (path[0] === "drawing" && (path[1] === "reference" || path.length === 4));
}

function nameFault(name: string): "empty" | "spaces" | "control" {
  if (name.trim() === "") return "empty";
  return /\p{Cc}/u.test(name) ? "control" : "spaces";
}

function fieldsAt(subject: FileSubject): readonly string[] {
  if (subject === "circuit file") return Object.keys(circuitFileSchema.shape);
  if (subject === "wanted") return WANTED_FIELDS;
  if (subject === "group") return Object.keys(groupSchema.shape);
  if (subject === "drawing") return Object.keys(drawingSchema.shape);
  if (subject === "line") return Object.keys(lineSchema.shape);
  if (subject === "pose") return Object.keys(poseSchema.shape);
  return KIND_FIELDS.get(subject) ?? [];
}

/** What the object at `path` is about; a part is told by its kind. */
export function subjectAt(path: FilePath, json: unknown): FileSubject {
  if (path.length === 0) return "circuit file";
  if (path.length === 1 && path[0] === "drawing") return "drawing";
  if (path.at(-1) === "drawn") return BODIES.has(subjectAt(path.slice(0, -1), json)) ? "pose" : "line";
  if (path[0] === "wanted") return "wanted";
  if (path[0] === "groups") return "group";
  const kind = valueAt(json, [...path, "kind"]);
  return typeof kind === "string" && KIND_FIELDS.has(kind) ? (kind as PartKind) : "element";
}

/** The value at a path; undefined where there is none. Inherited properties do not count. */
export function valueAt(json: unknown, path: FilePath): unknown {
  let value = json;
  for (const key of path) {
    if (typeof value !== "object" || value === null || !Object.hasOwn(value, key)) return undefined;
    value = (value as Readonly<Record<string | number, unknown>>)[key];
  }
  return value;
}

function typeText(expected: string): string {
  if (expected === "string") return "text";
  if (expected === "int") return "a whole number";
  if (expected === "number") return "a number";
  if (expected === "array" || expected === "tuple") return "a list";
  if (expected === "boolean") return "true or false";
  if (expected === "null") return "null";
  return "an object";
}

/** A value in words, shortened: `the number 3`, `"5 mA"`, `a list`. */
export function foundText(value: unknown): string {
  if (typeof value === "string") return `"${value.length > 40 ? `${value.slice(0, 39)}…` : value}"`;
  if (typeof value === "number") return `the number ${value}`;
  if (typeof value === "boolean" || value === null) return `${value}`;
  return Array.isArray(value) ? "a list" : "an object";
}

function withoutRepeats(problems: readonly FileProblem[]): FileProblem[] {
  const seen = new Set<string>();
  return problems.filter((problem) => {
    const key = JSON.stringify([problem.code, problem.path]);
    return seen.has(key) ? false : seen.add(key);
  });
}
