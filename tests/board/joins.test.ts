import { describe, expect, it } from "vitest";
import { joinPoints, type Point } from "../../shared/board";
import { at } from "./builders";

const line = (...points: readonly (readonly [number, number])[]): readonly Point[] => points.map((p) => at(...p));

function areJoined(wires: readonly (readonly Point[])[], a: Point, b: Point): boolean {
  const { groupAt } = joinPoints(wires, [a, b]);
  return groupAt(a) === groupAt(b);
}

describe("joined", () => {
  it("are the ends of one wire, around its bends", () =>
    expect(areJoined([line([0, 0], [4, 0], [4, 3])], at(0, 0), at(4, 3))).toBe(true));

  it("is a terminal that sits in the middle of a wire", () =>
    expect(areJoined([line([0, 0], [8, 0])], at(0, 0), at(3, 0))).toBe(true));

  it("is a wire that ends in the middle of another", () =>
    expect(areJoined([line([0, 0], [8, 0]), line([4, 0], [4, 5])], at(8, 0), at(4, 5))).toBe(true));

  it("are two wires that end at one point", () =>
    expect(areJoined([line([0, 0], [4, 0]), line([4, 0], [4, 4])], at(0, 0), at(4, 4))).toBe(true));

  it("are wires that lie on one another with an end inside", () =>
    expect(areJoined([line([0, 0], [6, 0]), line([4, 0], [9, 0])], at(0, 0), at(9, 0))).toBe(true));
});

describe("apart", () => {
  it("stay two wires that cross", () =>
    expect(areJoined([line([0, 2], [4, 2]), line([2, 0], [2, 4])], at(0, 2), at(2, 4))).toBe(false));

  it("stay two wires that bend at the same point", () =>
    expect(areJoined([line([0, 2], [2, 2], [2, 0]), line([4, 2], [2, 2], [2, 4])], at(0, 2), at(4, 2))).toBe(false));

  it("stays a wire whose bend lies on another", () =>
    expect(areJoined([line([0, 0], [8, 0]), line([2, 4], [4, 0], [6, 4])], at(0, 0), at(2, 4))).toBe(false));

  it("stay two points in the open", () => expect(areJoined([], at(0, 0), at(1, 0))).toBe(false));
});

it("finds the group of a point that a wire only passes, and none in the open", () => {
  const { groupAt } = joinPoints([line([0, 0], [8, 0])], []);
  expect(groupAt(at(5, 0))).toBe(groupAt(at(0, 0)));
  expect(groupAt(at(5, 1))).toBeNull();
});
