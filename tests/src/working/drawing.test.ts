import { describe, expect, it } from "vitest";
import { circuitOf, fileFromBoard } from "../../../shared/board";
import { sourceAccents } from "../../../src/sum";
import { litMarks, withLitMarks } from "../../../src/working/litMarks";
import { litStore } from "../../../src/working/litStore";
import { sketchedCircuit, sketchFigure } from "../../../src/working/sketchFigure";
import { exampleBoard, figureOf } from "../builders";
import { derivationsOf, EXAMPLE_IDS, workedExample } from "./workings";

function drawnExample(id: string) {
  const board = exampleBoard(id);
  return { ...circuitOf(board), board, figure: figureOf(board) };
}

describe.each(EXAMPLE_IDS)("the small circuits of %s", (id) => {
  const { board, circuit } = workedExample(id);
  const view = {
    circuit: circuit.circuit,
    like: fileFromBoard(board).drawing,
    accents: sourceAccents(board),
    symbols: "iec" as const,
  };
  const sketches = derivationsOf(id).flatMap((derivation) => derivation.sketches);

  it("are drawn with the name and the value of everything in them", () => {
    expect(sketches.length).toBeGreaterThan(0);
    for (const sketch of sketches) {
      const figure = sketchFigure(sketch, view);
      const text = figure?.labels.flatMap((label) => label.lines.flat().map((run) => run.text)).join(" ") ?? "";
      for (const { id: name, kind, value } of sketch.elements) {
        if (kind === "wire" || kind === "switch") continue;
        expect(text).toContain(name);
        if (value !== null && !/^(vc|cc)/.test(kind))
          expect(text.replace(/ +/g, " ")).toContain(value.replace(/ +/g, " "));
      }
    }
  });

  it("join the same parts to the same nodes as the sketch", () => {
    for (const sketch of sketches) {
      const { parts } = sketchedCircuit(sketch, circuit.circuit);
      for (const { id: name, nodes } of sketch.elements) {
        const part = parts.find((each) => each.id === name);
        if (part && "plus" in part) expect([part.plus, part.minus]).toEqual(nodes);
      }
    }
  });
});

describe.each(EXAMPLE_IDS)("the lines of %s", (id) => {
  it("light a part or a node of the board wherever they speak of one", () => {
    const drawn = drawnExample(id);
    for (const { parts, nodes } of derivationsOf(id).flatMap(({ lines }) => lines)) {
      // The test source of an equivalent is in the lines alone.
      for (const part of parts.filter((name) => !name.startsWith("It")))
        expect(litMarks({ parts: [part], nodes: [] }, drawn, "ink").above, part).toHaveLength(1);
      for (const node of nodes)
        expect(litMarks({ parts: [], nodes: [node] }, drawn, "ink").above.length, node).toBeGreaterThan(0);
    }
  });
});

it("draws a source that a line has made as a source, with its value", () => {
  const { circuit } = workedExample("three-sources").circuit;
  const made = (kind: string, value: string) => ({ id: "It", kind, nodes: ["a", "0"], value, of: ["V1", "R1"] });
  const view = { circuit, like: null, accents: new Map(), symbols: "iec" as const };
  for (const [kind, value] of [
    ["current-source", "300 mA"],
    ["voltage-source", "12 V"],
  ] as const) {
    const sketch = {
      elements: [
        made(kind, value),
        { id: "R12", kind: "resistor", nodes: ["a", "0"], value: "40 Ω", of: ["R1", "R2"] },
      ],
    };
    expect(sketchedCircuit(sketch, circuit).parts.map((part) => part.kind)).toEqual([kind, "resistor"]);
    expect(JSON.stringify(sketchFigure(sketch, view)?.labels)).toContain(value);
  }
});

describe("what is lit on a drawing", () => {
  const drawn = drawnExample("three-sources");

  it("has a patch beneath the figure and corners above it, in the card's tone", () => {
    const marks = litMarks({ parts: ["R3"], nodes: [] }, drawn, 2);
    expect(marks.beneath).toMatchObject([{ tone: "chosen", fill: "tone" }]);
    expect(marks.above).toMatchObject([{ tone: 2, fill: "none" }]);
    const { strokes } = withLitMarks(drawn.figure, marks);
    expect(strokes[0]).toBe(marks.beneath[0]);
    expect(strokes.at(-1)).toBe(marks.above[0]);
  });

  it("has bands along the wires of a node and rings at its joins", () => {
    const { beneath, above } = litMarks({ parts: [], nodes: ["0"] }, drawn, "ink");
    expect(beneath.length).toBeGreaterThan(0);
    expect(above.length).toBeGreaterThan(1);
  });

  it("is nothing for names that the board does not have", () =>
    expect(litMarks({ parts: ["R99", "Re1"], nodes: ["zz"] }, drawn, "ink")).toEqual({ beneath: [], above: [] }));

  it("is told to who listens when it changes, and only then", () => {
    const store = litStore();
    let told = 0;
    const stop = store.subscribe(() => {
      told += 1;
    });
    const lit = { parts: ["R1"], nodes: [] };
    store.set(lit);
    store.set(lit);
    expect([store.get(), told]).toEqual([lit, 1]);
    store.set(null);
    stop();
    store.set(lit);
    expect(told).toBe(2);
  });
});
