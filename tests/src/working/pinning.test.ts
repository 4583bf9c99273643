import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isNoteText } from "../../../shared/board";
import { type Box, GRID } from "../../../src/figure";
import { overlap } from "../../../src/figure/box";
import { mathRuns } from "../../../src/ink/mathRuns";
import { noteText, placeForNote } from "../../../src/working/pinning";
import { derivationsOf, EXAMPLE_IDS, equation, line, math } from "./workings";

describe("a pinned line", () => {
  it("is its mathematics between dollar signs, a row an equation", () =>
    expect(noteText(line({ equations: [equation(), equation({ symbols: null, numbers: null })] }), "symbols")).toBe(
      "$\\displaystyle I_{y}' {}= \\frac{V_1}{R_1} {}= \\frac{12\\,\\mathrm{V}}{4\\,\\Omega} {}= 3\\,\\mathrm{A}$\n$\\displaystyle I_{y}' {}= 3\\,\\mathrm{A}$",
    ));

  it("leaves the formula to the page where numbers come first", () =>
    expect(noteText(line(), "numbers")).toBe(
      "$\\displaystyle I_{y}' {}= \\frac{12\\,\\mathrm{V}}{4\\,\\Omega} {}= 3\\,\\mathrm{A}$",
    ));

  it("goes on beneath where a chain is longer than a note is wide", () =>
    expect(
      noteText(line({ equations: [equation({ symbols: math("V1/(R1 + R2 + R3)", "\\frac{V}{R}") })] }), "symbols"),
    ).toBe(
      "$\\begin{aligned} I_{y}' & {}= \\frac{V}{R} \\\\ & {}= \\frac{12\\,\\mathrm{V}}{4\\,\\Omega} \\\\ & {}= 3\\,\\mathrm{A} \\end{aligned}$",
    ));

  it("is what it comes to where it is too long for a note", () =>
    expect(noteText(line({ equations: [equation({ numbers: math("x", "x".repeat(600)) })] }), "symbols")).toBe(
      "$\\displaystyle I_{y}' {}= 3\\,\\mathrm{A}$",
    ));

  it("without mathematics is its sentence, in which a dollar sign stands for itself", () => {
    const text = noteText(line({ equations: [], sentence: "R$1 carries no current." }), "symbols");
    expect(text).toBe("R\\$1 carries no current.");
    expect(mathRuns(text ?? "")).toEqual([{ kind: "words", text: "R$1 carries no current." }]);
  });

  it("is nothing where no note holds it", () =>
    expect(noteText(line({ equations: [], sentence: "x".repeat(600) }), "symbols")).toBeNull());

  it.each(EXAMPLE_IDS)("of %s fits a note and reads back as its mathematics", (id) => {
    for (const each of derivationsOf(id).flatMap(({ lines }) => lines)) {
      const text = noteText(each, "symbols");
      expect(isNoteText(text)).toBe(true);
      const hasResult = each.equations.some(({ result }) => result !== null);
      if (hasResult) expect(mathRuns(text ?? "").some(({ kind }) => kind === "math")).toBe(true);
    }
  });
});

const boxOf = fc.record({
  x: fc.integer({ min: -400, max: 700 }),
  y: fc.integer({ min: -300, max: 500 }),
  width: fc.integer({ min: 2, max: 260 }),
  height: fc.integer({ min: 2, max: 260 }),
});

describe("the place of a pinned line", () => {
  const drawing: Box = { x: 0, y: 0, width: 480, height: 300 };
  const seen: Box = { x: -200, y: -200, width: 1000, height: 700 };
  const size = { width: 180, height: 40 };

  it("covers nothing, whatever lies on the board", () =>
    fc.assert(
      fc.property(fc.array(boxOf, { maxLength: 25 }), boxOf, (covered, about) => {
        const at = placeForNote(size, about, drawing, covered, seen);
        const box = { x: at.x * GRID, y: at.y * GRID, ...size };
        for (const each of covered) expect(overlap(box, each)).toBe(0);
      }),
    ));

  it("is on the screen, close to what the line speaks of, where there is room", () => {
    const part: Box = { x: 200, y: 100, width: 60, height: 30 };
    const at = placeForNote(size, part, drawing, [part], seen);
    expect(Math.hypot(at.x * GRID + 90 - 230, at.y * GRID + 20 - 115)).toBeLessThan(60);
  });

  it("is on the screen where what the line speaks of is off it", () => {
    const small: Box = { x: 300, y: 0, width: 300, height: 200 };
    const at = placeForNote(size, { x: -100, y: 250, width: 20, height: 20 }, drawing, [], small);
    expect(at.x * GRID).toBeGreaterThanOrEqual(300);
    expect(at.y * GRID + size.height).toBeLessThanOrEqual(200);
  });
});
