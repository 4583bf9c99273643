import { describe, expect, it } from "vitest";
import { readBoard } from "../../shared/board";
import { bodyAt, entryAt } from "../../src/board/hit";
import { drawn, TWO_SOURCES } from "../board/builders";
import { figureOf } from "./builders";

// Grid points are 24 pixels apart: R3's middle is at (12, 2), that is (288, 48).
const board = readBoard(drawn(...TWO_SOURCES));
const figure = figureOf(board);
const hit = (x: number, y: number, reach = 8) => entryAt(board, figure, { x, y }, reach);

describe("under the pointer is", () => {
  it("a symbol's body before anything else", () => expect(hit(290, 50)).toBe("R3"));
  it("a lead of its part", () => expect(hit(291, 8)).toBe("R3"));
  it("a wire within reach, and not beyond", () => {
    expect(hit(240, 6)).toBe("top");
    expect(hit(240, 20)).toBeNull();
  });
  it("the reference symbol below its node", () => expect(hit(144, 116)).toBe("ground"));
});

it("a body is not hit at its part's terminals", () => expect(bodyAt(figure, { x: 288, y: 0 }, 8)).toBeNull());
