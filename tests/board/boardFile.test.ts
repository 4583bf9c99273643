import { describe, expect, it } from "vitest";
import { applyCommand, boardFromFile, circuitOf, fileFromBoard, LOCAL, readBoard } from "../../shared/board";
import { type Circuit, type CircuitFile, readCircuitFile, writeCircuitFile } from "../../shared/circuit";
import { EXAMPLES } from "../../shared/examples";
import { at, drawn, I, id, R, reference, TWO_SOURCES, V, wantCurrent, wire } from "./builders";

function read(json: unknown): CircuitFile {
  const reading = readCircuitFile(json);
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.value;
}

/** Parts by id, since the order of parts has no meaning. */
function byId({ parts, reference, wanted }: Circuit) {
  return { parts: [...parts].sort((a, b) => (a.id < b.id ? -1 : 1)), reference, wanted };
}

describe.each(EXAMPLES)("the example $id", ({ json }) => {
  const file = read(json);
  const board = boardFromFile(file);

  it("gives from its drawing the circuit of its nodes", () => {
    if (!board) throw new Error("it has no drawing");
    const doc = drawn({ do: "fill", board });
    const { circuit, problems } = circuitOf(readBoard(doc));
    expect(problems).toEqual([]);
    expect(byId(circuit)).toEqual(byId(file.circuit));
  });

  it("is drawn once however often it is opened", () => {
    if (!board) throw new Error("it has no drawing");
    const doc = drawn({ do: "fill", board });
    const before = readBoard(doc);
    applyCommand(doc, { do: "fill", board }, LOCAL);
    expect(readBoard(doc)).toEqual(before);
  });

  it("comes back from the board as the same circuit, through the file's text", () => {
    if (!board) throw new Error("it has no drawing");
    const written = read(JSON.parse(JSON.stringify(writeCircuitFile(fileFromBoard(board)))));
    expect(byId(written.circuit)).toEqual(byId(file.circuit));
    expect(boardFromFile(written)?.wires.map((drawnWire) => drawnWire.points)).toEqual(
      board.wires.map((drawnWire) => drawnWire.points),
    );
  });
});

it("has no board where a part of the file has no place", () => {
  const elements = [{ id: "R1", kind: "resistor", nodes: ["a", "0"], value: "1k" }];
  expect(boardFromFile(read({ elements, wanted: [] }))).toBeNull();
});

it("keeps a wire whose current is wanted as a part, along its first piece", () => {
  const doc = drawn(
    V("V1", "5 V", [0, 0], [0, 4]),
    R("R1", "1k", [4, 2], [4, 4]),
    wire("w", [0, 0], [4, 0], [4, 2]),
    wire("x", [0, 4], [4, 4]),
    wantCurrent("Iw", "w"),
  );
  const file = fileFromBoard(readBoard(doc));
  expect(file.drawing?.placements.at(-1)).toEqual({ part: "W1", shape: "line", from: [0, 0], to: [4, 0] });
  const again = boardFromFile(read(JSON.parse(JSON.stringify(writeCircuitFile(file)))));
  expect(again && circuitOf(again).circuit.wanted).toMatchObject([{ kind: "current", through: "W1" }]);
});

it("draws a second reference symbol where the file's reference node stands apart", () => {
  const board = readBoard(
    drawn(V("V1", "5 V", [0, 0], [0, 4]), R("R1", "1k", [0, 0], [4, 0]), reference("g1", 0, 4), reference("g2", 4, 0)),
  );
  const again = boardFromFile(read(JSON.parse(JSON.stringify(writeCircuitFile(fileFromBoard(board))))));
  expect(again?.references.map((symbol) => symbol.at)).toEqual([at(0, 4), at(4, 0)]);
});

it("keeps groups of sources through a file's text, by the names of their sources", () => {
  const group = { do: "addGroup", id: id("g"), sources: [id("V1"), id("I1")] } as const;
  const doc = drawn(...TWO_SOURCES, V("V2", "4 V", [16, 0], [16, 4]), group);
  const again = boardFromFile(read(JSON.parse(JSON.stringify(writeCircuitFile(fileFromBoard(readBoard(doc)))))));
  if (!again) throw new Error("the file says where every part stands");
  expect(circuitOf(readBoard(drawn({ do: "fill", board: again }))).groups).toEqual([["I1", "V1"]]);
});

it("leaves out a group that would be all sources, where the other source has no readable value", () => {
  const group = { do: "addGroup", id: id("g"), sources: [id("V1"), id("I1")] } as const;
  const doc = drawn(...TWO_SOURCES, V("V2", "?", [16, 0], [16, 4]), group);
  expect(read(JSON.parse(JSON.stringify(writeCircuitFile(fileFromBoard(readBoard(doc)))))).groups).toEqual([]);
});

it("leaves out a part whose value cannot be read", () => {
  const doc = drawn(...TWO_SOURCES, { do: "setValue", id: id("R3"), value: "?" }, I("I9", "1 A", [20, 0], [20, 4]));
  expect(fileFromBoard(readBoard(doc)).circuit.parts.map((part) => part.id)).toEqual(["I1", "I9", "R1", "V1"]);
});
