import type { Direction } from "../circuit";
import { type Across, type EntryId, entryId, type Turn } from "./board";
import type { ReadFields } from "./document";
import { isName } from "./names";
import { isStraight, type Point, readPoint, samePoint, segmentsOf } from "./point";

/** Longest text that is taken for a value or a name. */
const TEXT_LIMIT = 200;
const WIRE_POINTS_LIMIT = 1000;

/** Thrown inside this folder to say which field of an entry could not be read; never leaves {@link readBoard}. */
export class Malformed extends Error {
  constructor(readonly field: string) {
    super(`malformed field ${field}`);
  }
}

export function pointField(fields: ReadFields, field: string): Point {
  return readPoint(fields.get(field)) ?? malformed(field);
}

/** A text, empty where the field is absent. */
export function textField(fields: ReadFields, field: string): string {
  const text = fields.get(field) ?? "";
  return typeof text === "string" && text.length <= TEXT_LIMIT ? text : malformed(field);
}

/** A name, or null where the field is absent or blank. */
export function nameField(fields: ReadFields): string | null {
  const name = fields.get("name") ?? "";
  return isName(name) ? name : name === "" ? null : malformed("name");
}

export function choiceField<T extends string>(fields: ReadFields, field: string, choices: readonly T[], missing: T): T {
  const text = fields.get(field) ?? missing;
  return choices.find((choice) => choice === text) ?? malformed(field);
}

export function directionField(fields: ReadFields, field: string): Direction {
  return choiceField(fields, field, ["forward", "backward"], "forward");
}

export function flagField(fields: ReadFields, field: string): boolean {
  const flag = fields.get(field) ?? false;
  return typeof flag === "boolean" ? flag : malformed(field);
}

const TURNS: readonly Turn[] = [0, 90, 180, 270];
export function turnField(fields: ReadFields): Turn {
  const turn = fields.get("turn") ?? 0;
  return TURNS.find((choice) => choice === turn) ?? malformed("turn");
}

export function entryField(fields: ReadFields, field: string): EntryId {
  const id = fields.get(field);
  return typeof id === "string" && id !== "" ? entryId(id) : malformed(field);
}

/** The two places an across-quantity lies between, null where neither a part nor points are given. */
export function acrossFields(fields: ReadFields, keys: AcrossKeys): Across | null {
  if (fields.get(keys.part) !== undefined) {
    return { by: "part", part: entryField(fields, keys.part), direction: directionField(fields, keys.direction) };
  }
  if (fields.get(keys.from) === undefined && fields.get(keys.to) === undefined) return null;
  return { by: "points", from: pointField(fields, keys.from), to: pointField(fields, keys.to) };
}

export type AcrossKeys = {
  readonly part: string;
  readonly direction: string;
  readonly from: string;
  readonly to: string;
};
export const WANTED_KEYS: AcrossKeys = { part: "part", direction: "direction", from: "from", to: "to" };
export const CONTROL_KEYS: AcrossKeys = {
  part: "controlPart",
  direction: "controlDirection",
  from: "controlFrom",
  to: "controlTo",
};

/** The `plus` and `minus` ends of a part on a line. */
export function endFields(fields: ReadFields): { readonly from: Point; readonly to: Point } {
  const [from, to] = [pointField(fields, "from"), pointField(fields, "to")];
  if (!isStraight(from, to)) return malformed("from, to");
  return flagField(fields, "reversed") ? { from: to, to: from } : { from, to };
}

/** A polyline of at least two points, each piece horizontal or vertical. */
export function polylineField(fields: ReadFields): readonly [Point, Point, ...Point[]] {
  const text = fields.get("points");
  const words = typeof text === "string" ? text.split(" ", WIRE_POINTS_LIMIT + 1) : [];
  const points = words.map((word) => readPoint(word) ?? malformed("points"));
  const [first, second, ...rest] = points;
  if (!first || !second || words.length > WIRE_POINTS_LIMIT) return malformed("points");
  if (segmentsOf(points).some(([a, b]) => samePoint(a, b) || !isStraight(a, b))) return malformed("points");
  return [first, second, ...rest];
}

export function malformed(field: string): never {
  throw new Malformed(field);
}
