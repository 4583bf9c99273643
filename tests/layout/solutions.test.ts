import { describe, expect, it } from "vitest";
import { boardFromFile, circuitOf } from "../../shared/board";
import { readCircuitFile } from "../../shared/circuit";
import { layOutFile } from "../../shared/layout";
import { solveReport } from "../../shared/solve";
import { examples } from "../published/examples";

describe("a published example that is laid out and read back from the board", () => {
  it.each(examples.map((example) => [example.id, example] as const))(
    "%s has the solution of its file",
    (_id, example) => {
      const reading = readCircuitFile(example);
      if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
      const board = boardFromFile(layOutFile(reading.value));
      if (board === null) throw new Error("not drawn");
      const { circuit, problems } = circuitOf(board);
      expect(problems).toEqual([]);
      const [drawn, given] = [solveReport(circuit), solveReport(reading.value.circuit)];
      const totals = (report: typeof drawn) => report.wanted.map(({ total }) => total?.exact ?? total?.text);
      expect(totals(drawn)).toEqual(totals(given));
      const currents = (report: typeof drawn) =>
        new Map(report.parts.map(({ branch, current }) => [branch, current?.exact ?? current?.text]));
      expect(currents(drawn)).toEqual(currents(given));
    },
  );
});
