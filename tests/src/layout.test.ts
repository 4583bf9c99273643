import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readBoard } from "../../shared/board";
import { layOutNotes, NOTE_WIDTH, noteHeight } from "../../src/board/noteLayout";
import { overlap } from "../../src/figure/box";
import { SLIP_WIDTH, slipPlace } from "../../src/slip/slipPlace";
import { drawn, id, TWO_SOURCES } from "../board/builders";
import { figureOf } from "./builders";

const figure = figureOf(readBoard(drawn(...TWO_SOURCES)));
const view = { scale: 1, x: 300, y: 200 };
const pane = { width: 1000, height: 620 };
const bodyOf = (name: string) => figure.bodies.get(id(name)) ?? null;

describe("notes", () => {
  const text = "R3 has no value yet. Type one, for instance 3.3k.";
  const placed = layOutNotes(
    ["V1", "R1", "R3"].map((key) => ({ key, text, at: bodyOf(key) })),
    figure,
    view,
    pane,
  );
  const boxes = placed.map(({ left: x, top: y }) => ({ x, y, width: NOTE_WIDTH, height: noteHeight(text) }));

  it("lie within the pane, one beside each symbol", () => {
    expect(placed.map((note) => note.key)).toEqual(["V1", "R1", "R3"]);
    for (const { x, y, width, height } of boxes) {
      expect(x >= 0 && y >= 0 && x + width <= pane.width && y + height <= pane.height).toBe(true);
    }
  });

  it("cover neither each other nor a symbol", () => {
    for (const box of boxes) {
      expect(boxes.filter((other) => other !== box && overlap(box, other) > 0)).toEqual([]);
      const bodies = [...figure.bodies.values()].map((body) => ({ ...body, x: body.x + view.x, y: body.y + view.y }));
      expect(bodies.filter((body) => overlap(box, body) > 0)).toEqual([]);
    }
  });

  it("about nothing on the drawing are left to the list", () =>
    expect(layOutNotes([{ key: "solver", text, at: null }], figure, view, pane)).toEqual([]));
});

describe("the slip", () => {
  it("stays on the pane wherever the symbol is", () =>
    fc.assert(
      fc.property(fc.integer({ min: -200, max: 1200 }), fc.integer({ min: -200, max: 800 }), (x, y) => {
        const { left, top } = slipPlace({ x, y, width: 20, height: 60 }, [], pane);
        expect(Number(left)).toBeGreaterThanOrEqual(0);
        expect(Number(left) + SLIP_WIDTH).toBeLessThanOrEqual(pane.width);
        expect(Number(top)).toBeGreaterThanOrEqual(0);
        expect(Number(top)).toBeLessThan(pane.height);
      }),
    ));

  it("lies along the bottom edge of a narrow pane", () =>
    expect(slipPlace({ x: 0, y: 0, width: 20, height: 60 }, [], { width: 390, height: 450 })).toMatchObject({
      bottom: 10,
    }));
});
