import { describe, expect, it } from "vitest";
import { applyCommand, circuitOf, LOCAL, readBoard } from "../../shared/board";
import { circuitWords } from "../../src/words/circuitWords";
import { shownProblems } from "../../src/words/problems";
import { drawn, id, R, TWO_SOURCES, V, wire } from "../board/builders";
import { exampleBoard, reportOf } from "./builders";

const wordsOf = (board: ReturnType<typeof readBoard>) =>
  circuitWords(board, circuitOf(board)).map((part) => `${part.name}: ${part.text}`);

describe("in words", () => {
  it("each part says its value and its nodes", () =>
    expect(wordsOf(readBoard(drawn(...TWO_SOURCES)))).toEqual([
      "I1: current source of 9 mA, driving current from node 0 into node b",
      "R1: resistor of 2 kΩ, between node a and node b",
      "R3: resistor of 6 kΩ, between node b and node 0",
      "V1: voltage source of 12 V, + at node a, − at node 0",
    ]));

  it("a dependent source says what it follows", () =>
    expect(wordsOf(exampleBoard("moisture-probe"))).toContain(
      "F1: dependent current source, driving current from node 0 into node b, gain 4, following the current of R1",
    ));
});

describe("problems", () => {
  it("of the drawing come first, then those of the circuit, each with its symbols", () => {
    // Two unlike voltage sources in parallel, and a resistor without a value.
    const doc = drawn(
      V("V1", "5 V", [0, 0], [0, 4]),
      V("V2", "6 V", [4, 0], [4, 4]),
      wire("t", [0, 0], [8, 0]),
      wire("b", [0, 4], [8, 4]),
      R("R1", "1k", [8, 0], [8, 4]),
    );
    applyCommand(doc, { do: "setValue", id: id("R1"), value: " " }, LOCAL);
    const board = readBoard(doc);
    const report = reportOf(board);
    const answers = { revision: 1, report: { ...report, hidden: [] }, boardProblems: [], failure: null };
    const faults = shownProblems(circuitOf(board), answers).filter((problem) => problem.severity === "fault");
    expect(faults.map((problem) => problem.entries)).toEqual([["R1"], ["V1", "V2"]]);
    expect(faults[0]?.text).toBe("R1 has no value yet. Type one, for instance 3.3k.");
  });

  it("of the solver itself are told too", () => {
    const answers = {
      revision: 1,
      report: null,
      boardProblems: [],
      failure: { code: "overBudget", milliseconds: 2000 },
    } as const;
    expect(shownProblems(circuitOf(readBoard(drawn())), answers)[0]?.text).toContain("more than 2 s");
  });
});
