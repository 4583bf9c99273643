import { describe, expect, it } from "vitest";
import { readBoard } from "../../shared/board";
import type { ZeroingDecision } from "../../shared/check";
import { EXAMPLES } from "../../shared/examples";
import type { Box } from "../../src/figure";
import { overlap } from "../../src/figure/box";
import { isSource } from "../../src/sum";
import { drawn, R, TWO_SOURCES, V, wantCurrent } from "../board/builders";
import { exampleBoard, figureOf, reportOf } from "./builders";

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
  const report = reportOf(board);
  const alone = report.partials.filter((partial) => partial.sources.length === 1);
  const bare = [{}, ...alone.map(({ sources }) => ({ acting: new Set<string>(sources), primes: [1] }))];
  const withValues = [
    { voltages: report.nodes, currents: report.parts },
    ...alone.map(({ sources, nodes, parts }) => ({
      acting: new Set<string>(sources),
      primes: [1],
      voltages: nodes,
      currents: parts,
    })),
  ];

  it.each(["iec", "ieee"] as const)(
    "has no label, arrow or sign on another, on a symbol or on a wire, with values and without, in %s symbols",
    (symbols) => {
      for (const view of [...bare, ...withValues]) {
        const figure = figureOf(board, { ...view, symbols });
        const labels = figure.labels.map((label) => label.box);
        const drawn = figure.covered.filter((box) => !labels.includes(box));
        expect({ view, labels: clashes(labels, labels) }).toEqual({ view, labels: 0 });
        expect({ view, drawn: clashes(labels, drawn) }).toEqual({ view, drawn: 0 });
      }
    },
  );

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

describe("a circuit whose sources are for somebody to decide", () => {
  const board = readBoard(drawn(...TWO_SOURCES));
  const view = { acting: new Set(["V1"]), primes: [1] };
  const decided = (becomes: Record<string, ZeroingDecision>) =>
    figureOf(board, { ...view, becomes: new Map(Object.entries(becomes)) });

  it("says which are to act, and of the others nothing but what was decided", () => {
    const start = textOf(decided({ V1: "kept", I1: "kept" }));
    expect(start.some((text) => text.startsWith("V1 acts"))).toBe(true);
    expect(start.some((text) => text.includes("zeroed"))).toBe(false);
    expect(textOf(decided({ V1: "kept", I1: "short" }))).toContain("I1 | a short");
    expect(textOf(decided({ V1: "open", I1: "kept" }))).toContain("V1 | an open");
  });

  it("has a source in its own symbol until something else is decided, also a wrong thing", () => {
    const whole = figureOf(board, { primes: [1] }).strokes;
    expect(decided({}).strokes.filter(({ dash }) => dash.length > 0)).toEqual(
      whole.filter(({ dash }) => dash.length > 0),
    );
    const short = decided({ I1: "short" }).strokes;
    expect(short.some(({ dash }) => dash.length > 0)).toBe(true);
    expect(short).not.toEqual(decided({ I1: "open" }).strokes);
  });

  it("can have a dependent source zeroed as well", () => {
    const probe = exampleBoard("moisture-probe");
    const dependent = probe.parts.find((part) => "control" in part);
    if (!dependent) throw new Error("the example has no dependent source");
    const figure = figureOf(probe, { acting: new Set(), becomes: new Map([[dependent.name, "open" as const]]) });
    expect(textOf(figure).map((text) => text.replace(/ \| | {2}/, ", "))).toContain(`${dependent.name}, an open`);
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
  expect(textOf(figure)).toEqual(expect.arrayContaining(["F1 | 4·IR1", "IR1"]));
});

describe("symbols", () => {
  const board = readBoard(drawn(...TWO_SOURCES));
  const paths = (symbols: "iec" | "ieee") => figureOf(board, { symbols }).strokes.map((stroke) => stroke.path);

  it("after IEC 60617 draw a resistor as a closed rectangle, after IEEE 315 as a zigzag of three teeth a side", () => {
    // R1 lies from (0, 0) to (96, 0): its body reaches 27 pixels to either side of x = 48, 9 above and below.
    expect(paths("iec")).toContain("M21 -9L75 -9L75 9L21 9Z");
    expect(paths("ieee")).toContain("M21 0L25.5 -9L34.5 9L43.5 -9L52.5 9L61.5 -9L70.5 9L75 0");
  });
});
