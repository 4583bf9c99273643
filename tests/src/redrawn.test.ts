import { describe, expect, it } from "vitest";
import { boardFromFile, circuitOf } from "../../shared/board";
import { readCircuitFile } from "../../shared/circuit";
import { EXAMPLES } from "../../shared/examples";
import { layOut } from "../../shared/layout";
import { eachAlone, type Shown, solveReport } from "../../shared/solve";
import { addendCircuit, redrawnFigure } from "../../src/page/redrawn";

function fileOf(id: string) {
  const reading = readCircuitFile(EXAMPLES.find((example) => example.id === id)?.json);
  if (!reading.ok) throw new Error(`${id} cannot be read`);
  return reading.value;
}

const EACH = EXAMPLES.flatMap(({ id }) =>
  eachAlone(fileOf(id).circuit).map(([source]) => [id, source as string] as const),
);

/** Magnitudes of a voltage, to nine figures: one number, or one a frequency. */
function sizesOf(voltage: Shown | null): readonly string[] {
  const sizes = voltage?.decimal != null ? [Math.abs(voltage.decimal)] : voltage?.phasors.map((each) => each.magnitude);
  return (sizes ?? []).filter((size) => size !== 0).map((size) => size.toPrecision(9));
}

describe("an addend's circuit redrawn", () => {
  it.each(EACH)("of %s with %s alone has the node voltages of that source in the whole circuit", (id, source) => {
    const { circuit } = fileOf(id);
    const left = addendCircuit(circuit, new Set([source]));
    const drawing = layOut(left);
    const board = boardFromFile({ title: null, statement: null, circuit: left, drawing, unanswerable: [], groups: [] });
    if (board === null) throw new Error("not drawn");
    const alone = solveReport(circuitOf(board).circuit).nodes;
    const whole = solveReport(circuit).partials.find(({ sources }) => sources.join() === source)?.nodes ?? [];
    const both = alone.flatMap(({ node, voltage }) => {
      const there = whole.find((each) => each.node === node);
      return there ? [[sizesOf(voltage), sizesOf(there.voltage)] as const] : [];
    });
    expect(both.length).toBeGreaterThan(1);
    for (const [here, there] of both) expect(here).toEqual(there);
  });

  it.each(EACH)("of %s with %s alone is drawn with every label", (id, source) => {
    const file = fileOf(id);
    const board = boardFromFile(file);
    if (board === null) throw new Error("not drawn");
    const circuit = circuitOf(board);
    const redrawn = redrawnFigure(board, circuit, {
      acting: new Set([source]),
      accents: new Map([[source, 0]]),
      primes: [1],
      focus: circuit.wantedEntries[0] ?? null,
      wantedNames: circuit.circuit.wanted.map(({ name }) => name ?? ""),
      voltages: null,
      currents: null,
    });
    const text = redrawn?.figure.labels.flatMap((label) => label.lines.flat().map((run) => run.text)).join(" ") ?? "";
    const zeroed = file.circuit.parts.filter(({ kind }) => kind === "voltage-source" || kind === "current-source");
    const kept = file.circuit.parts.filter((part) => part.id === source || !zeroed.includes(part));
    for (const { id: name, kind } of kept) if (kind !== "wire" && kind !== "switch") expect(text).toContain(name);
    for (const { id: name } of zeroed) if (name !== source) expect(text.split(" ")).not.toContain(name);
  });

  it("is nothing where no part is left", () => {
    const file = fileOf("three-sources");
    const board = boardFromFile({ ...file, circuit: { ...file.circuit, parts: [], wanted: [] } });
    if (board === null) throw new Error("not drawn");
    const view = {
      acting: new Set(["V1"]),
      accents: new Map(),
      primes: [1],
      focus: null,
      wantedNames: [],
      voltages: null,
      currents: null,
    };
    expect(redrawnFigure(board, circuitOf(board), view)).toBeNull();
  });
});
