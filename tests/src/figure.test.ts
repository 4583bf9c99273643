import { describe, expect, it } from "vitest";
import { readBoard } from "../../shared/board";
import { EXAMPLES } from "../../shared/examples";
import type { Box } from "../../src/figure";
import { overlap } from "../../src/figure/box";
import { isSource } from "../../src/sum";
import { drawn, R, TWO_SOURCES, V, wantCurrent } from "../board/builders";
import { exampleBoard, figureOf } from "./builders";

const textOf = (figure: ReturnType<typeof figureOf>) =>
  figure.labels.map((label) => label.lines.map((runs) => runs.map((run) => run.text).join("")).join(" | "));

/** Pairs of boxes that share any area. */
function clashes(boxes: readonly Box[], others: readonly Box[]): number {
  return boxes.reduce(
    (count, box) => count + others.filter((other) => other !== box && overlap(box, other) > 0).length,
    0,
  );
}

describe.each(EXAMPLES)("the drawing of $id", ({ id }) => {
  const board = exampleBoard(id);
  const alone = board.parts.filter(isSource).map((source) => ({ acting: new Set([source.name]), primes: [1] }));

  it("has no label on a symbol or on another label, in the whole circuit and in each addend's", () => {
    for (const view of [{}, ...alone]) {
      const figure = figureOf(board, view);
      const labels = figure.labels.map((label) => label.box);
      expect({ view, labels: clashes(labels, labels) }).toEqual({ view, labels: 0 });
      expect({ view, bodies: clashes(labels, [...figure.bodies.values()]) }).toEqual({ view, bodies: 0 });
    }
  });

  it("is the same however often it is drawn", () => expect(figureOf(board)).toEqual(figureOf(board)));
});

describe("a source that is zeroed", () => {
  const board = readBoard(drawn(...TWO_SOURCES));

  it("is named as the short or the open that it becomes", () => {
    expect(textOf(figureOf(board, { acting: new Set(["I1"]) }))).toContain("V1 zeroed | a short");
    expect(textOf(figureOf(board, { acting: new Set(["V1"]) }))).toContain("I1 zeroed | an open");
  });

  it("keeps its accent and is traced with dashes", () => {
    const figure = figureOf(board, { acting: new Set(["I1"]) });
    const accent = board.parts.filter(isSource).findIndex((source) => source.name === "V1");
    expect(figure.strokes.some((stroke) => stroke.tone === accent && stroke.dash.length > 0)).toBe(true);
  });
});

it("writes values as the SI Brochure has them", () => {
  const texts = textOf(figureOf(readBoard(drawn(V("V1", "-12V", [0, 0], [0, 4]), R("R1", "4k7", [0, 0], [4, 0])))));
  // Name and value stand in one line or in two, as there is room.
  expect(texts.map((text) => text.replace(/ \| | {2}/, ", "))).toEqual(["V1, −12 V", "R1, 4.7 kΩ"].toSorted());
});

it("names a wanted quantity with the primes of its addend", () => {
  const board = readBoard(drawn(...TWO_SOURCES, wantCurrent("Ix", "R3")));
  expect(textOf(figureOf(board))).toContain("Ix");
  expect(textOf(figureOf(board, { primes: [2] }))).toContain("Ix″");
});

it("writes what a dependent source follows, and marks it on the drawing", () => {
  const figure = figureOf(exampleBoard("moisture-probe"));
  expect(textOf(figure)).toEqual(expect.arrayContaining(["F1 | 4 × I(R1)", "I(R1)"]));
});
