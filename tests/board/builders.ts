import * as Y from "yjs";
import {
  applyCommand,
  type Command,
  type EntryId,
  entryId,
  LOCAL,
  type Point,
  type ValuedKind,
} from "../../shared/board";

export const id = (text: string): EntryId => entryId(text);
export const at = (x: number, y: number): Point => ({ x, y });

/** A part on a line, `plus` at the first point; its id is its name. */
export function part(
  kind: ValuedKind,
  name: string,
  value: string,
  from: readonly [number, number],
  to: readonly [number, number],
): Command {
  return {
    do: "placePart",
    id: id(name),
    part: { shape: "line", kind, name, value, from: at(...from), to: at(...to) },
  };
}

export const R = (name: string, value: string, from: readonly [number, number], to: readonly [number, number]) =>
  part("resistor", name, value, from, to);
export const V = (name: string, value: string, plus: readonly [number, number], minus: readonly [number, number]) =>
  part("voltage-source", name, value, plus, minus);
export const I = (name: string, value: string, tail: readonly [number, number], head: readonly [number, number]) =>
  part("current-source", name, value, tail, head);

export function wire(name: string, ...points: readonly (readonly [number, number])[]): Command {
  return { do: "placeWire", id: id(name), points: points.map((point) => at(...point)) };
}

export function reference(name: string, x: number, y: number): Command {
  return { do: "placeReference", id: id(name), at: at(x, y) };
}

export function wantCurrent(name: string, through: string, direction: "forward" | "backward" = "forward"): Command {
  const mark = { kind: "current", part: id(through), direction, winding: "primary" } as const;
  return { do: "setWanted", id: id(`wanted-${name}`), name, mark };
}

/** A document on which these commands were done. */
export function drawn(...commands: readonly Command[]): Y.Doc {
  const doc = new Y.Doc();
  for (const command of commands) applyCommand(doc, command, LOCAL);
  return doc;
}

/** Carries every change of each document to all others. */
export function exchange(...docs: readonly Y.Doc[]): void {
  for (const from of docs) {
    for (const to of docs) if (from !== to) Y.applyUpdate(to, Y.encodeStateAsUpdate(from, Y.encodeStateVector(to)));
  }
}

/**
 * V1 (12 V) through R1 (2 kΩ) and I1 (9 mA, upward) both feed R3 (6 kΩ); all stand on one bottom wire.
 *
 *   (0,0)──R1──(4,0)──wire──(8,0)──wire──(12,0)
 *    V1                      I1            R3
 *   (0,4)────────────wire────────────────(12,4)
 */
export const TWO_SOURCES: readonly Command[] = [
  V("V1", "12 V", [0, 0], [0, 4]),
  R("R1", "2k", [0, 0], [4, 0]),
  I("I1", "9 mA", [8, 4], [8, 0]),
  R("R3", "6k", [12, 0], [12, 4]),
  wire("top", [4, 0], [12, 0]),
  wire("bottom", [0, 4], [12, 4]),
  reference("ground", 6, 4),
];
