import { describe, expect, it } from "vitest";
import {
  applyCommand,
  type Command,
  type EntryId,
  entryId,
  LOCAL,
  type NewPart,
  placedId,
  placingPart,
  readBoard,
} from "../../shared/board";
import { at, drawn, R, wire } from "./builders";

function wiresAfter(commands: readonly Command[], from: [number, number], to: [number, number]) {
  const doc = drawn(...commands);
  let count = 0;
  const newId = (): EntryId => entryId(`new-${++count}`);
  const part: NewPart = { shape: "line", kind: "resistor", name: null, value: "1k", from: at(...from), to: at(...to) };
  const command = placingPart(readBoard(doc), part, newId);
  applyCommand(doc, command, LOCAL);
  const board = readBoard(doc);
  expect(board.parts.some((each) => each.id === placedId(command))).toBe(true);
  return board.wires.map((each) => each.points).sort((a, b) => a[0].x - b[0].x || a[0].y - b[0].y);
}

describe("a part that is placed along a wire", () => {
  it("cuts the wire at its ends, whichever way it is drawn", () => {
    const pieces = [
      [at(0, 0), at(4, 0)],
      [at(8, 0), at(12, 0)],
    ];
    expect(wiresAfter([wire("w", [0, 0], [12, 0])], [4, 0], [8, 0])).toEqual(pieces);
    expect(wiresAfter([wire("w", [0, 0], [12, 0])], [8, 0], [4, 0])).toEqual(pieces);
  });

  it("leaves the corners of what is left", () =>
    expect(wiresAfter([wire("w", [0, 0], [6, 0], [6, 9])], [6, 2], [6, 6])).toEqual([
      [at(0, 0), at(6, 0), at(6, 2)],
      [at(6, 6), at(6, 9)],
    ]));

  it("takes a piece off the end, or the whole wire", () => {
    expect(wiresAfter([wire("w", [0, 0], [6, 0])], [0, 0], [4, 0])).toEqual([[at(4, 0), at(6, 0)]]);
    expect(wiresAfter([wire("w", [0, 0], [4, 0])], [0, 0], [4, 0])).toEqual([]);
  });

  it("leaves a wire whole where something is joined to it between the part's ends", () =>
    expect(wiresAfter([wire("w", [0, 0], [12, 0]), R("R9", "1k", [6, 0], [6, 4])], [4, 0], [8, 0])).toEqual([
      [at(0, 0), at(12, 0)],
    ]));

  it("leaves a wire whole that it only crosses", () =>
    expect(wiresAfter([wire("w", [0, 0], [12, 0])], [6, -2], [6, 2])).toEqual([[at(0, 0), at(12, 0)]]));
});
