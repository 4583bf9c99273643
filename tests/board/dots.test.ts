import { expect, it } from "vitest";
import { type Command, joinDots, readBoard } from "../../shared/board";
import { at, drawn, R, reference, TWO_SOURCES, wire } from "./builders";

const dots = (...commands: readonly Command[]) => joinDots(readBoard(drawn(...commands)));

it("stand where three arms meet, and not at corners", () =>
  expect(dots(...TWO_SOURCES)).toEqual([at(8, 4), at(8, 0), at(6, 4)]));

it("do not stand where two wires cross", () =>
  expect(dots(wire("a", [0, 2], [4, 2]), wire("b", [2, 0], [2, 4]))).toEqual([]));

it("do not stand where a wire goes on in line with a part", () =>
  expect(dots(R("R1", "1", [0, 0], [4, 0]), wire("a", [4, 0], [8, 0]))).toEqual([]));

it("stand where a reference symbol hangs from the middle of a wire, not from its end", () => {
  expect(dots(wire("a", [0, 0], [8, 0]), reference("g", 4, 0))).toEqual([at(4, 0)]);
  expect(dots(wire("a", [0, 0], [8, 0]), reference("g", 8, 0))).toEqual([]);
});
