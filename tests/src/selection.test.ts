import { describe, expect, it } from "vitest";
import { readBoard } from "../../shared/board";
import { entriesWithin, nextPart, onlyOf, stillThere, toggled } from "../../src/board/selection";
import { readSettings } from "../../src/settings";
import { nextWantedName, turnedAcross } from "../../src/slip/wantedChoices";
import { at, drawn, id, TWO_SOURCES, wantCurrent } from "../board/builders";
import { figureOf } from "./builders";

const board = readBoard(drawn(...TWO_SOURCES));
const figure = figureOf(board);

describe("a selection", () => {
  it("takes an entry in and, asked again, out", () => {
    const one = toggled(new Set(), id("R1"));
    expect(onlyOf(one)).toBe("R1");
    expect(toggled(one, id("R1")).size).toBe(0);
    expect(onlyOf(toggled(one, id("R3")))).toBeNull();
  });

  it("by a box has what lies in it whole, wires included", () => {
    // R1 lies along y = 0 from x = 0 to 96, V1 upright below its left end, the wire "top" to its right.
    expect(entriesWithin(board, figure, { x: 10, y: -20 }, { x: 90, y: 20 })).toEqual(new Set(["R1"]));
    expect(entriesWithin(board, figure, { x: -40, y: -30 }, { x: 400, y: 30 })).toEqual(new Set(["R1", "top"]));
  });

  it("loses what somebody else has deleted", () => {
    const both = new Set([id("R1"), id("gone")]);
    expect(stillThere(both, board)).toEqual(new Set(["R1"]));
    const whole = new Set([id("R1")]);
    expect(stillThere(whole, board)).toBe(whole);
  });
});

it("parts follow each other as a page is read, and after the last comes the first", () => {
  // Middles: R1 (2, 0); then V1 (0, 2), I1 (8, 2), R3 (12, 2).
  const order = ["R1", "V1", "I1", "R3", "R1"];
  let here = nextPart(board, null, 1);
  for (const name of order) {
    expect(here?.id).toBe(name);
    here = nextPart(board, here?.at ?? null, 1);
  }
  expect(nextPart(board, at(2, 0), -1)?.id).toBe("R3");
});

it("a wanted quantity takes the next free name of its kind", () => {
  const asked = readBoard(drawn(...TWO_SOURCES, wantCurrent("Ix", "R3"), wantCurrent("Iy", "R1")));
  expect(nextWantedName(asked, "current")).toBe("Iz");
  expect(nextWantedName(asked, "thevenin")).toBe("Th");
});

it("two places turned round twice are as they were", () => {
  const points = { by: "points", from: at(0, 0), to: at(4, 0) } as const;
  expect(turnedAcross(points)).toEqual({ by: "points", from: at(4, 0), to: at(0, 0) });
  expect(turnedAcross(turnedAcross(points))).toEqual(points);
});

describe("the settings of a browser", () => {
  it("are as they were stored", () =>
    expect(readSettings('{"paper":"dark","symbols":"ieee","annotations":"without","equations":"numbers"}')).toEqual({
      paper: "dark",
      symbols: "ieee",
      annotations: "without",
      equations: "numbers",
    }));

  it("that were stored before there was a choice of annotations have them in saved drawings", () =>
    expect(readSettings('{"paper":"dark","symbols":"iec"}')).toMatchObject({ paper: "dark", annotations: "with" }));

  it.each([null, "", "{", "7", '{"paper":"purple","symbols":3,"annotations":true,"equations":[]}'])(
    "are the default where %s is stored",
    (text) =>
      expect(readSettings(text)).toEqual({ paper: "light", symbols: "iec", annotations: "with", equations: "symbols" }),
  );
});
