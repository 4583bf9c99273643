import { readCircuitText } from "../../shared/circuit";
import { solveCircuit, solveReport } from "../../shared/solve";
import { boardProblem } from "./circuits";
import { circuitOf } from "./exactSolve";
import { ms, table } from "./table";
import { timeTogether } from "./timing";

const TARGET_MS = 1;

/** From the text of a file to all addends and powers, for a problem of the size that is worked on a board. */
export function boardProblemTimes(): string {
  const json = boardProblem();
  const text = JSON.stringify(json);
  const circuit = circuitOf(json);
  const whole = () => {
    const reading = readCircuitText(text);
    if (!reading.ok) throw new Error("the file cannot be read");
    return solveReport(reading.value.circuit);
  };
  const timings = timeTogether(
    [
      { name: "from text to report: read, check, solve, addends, powers, second method, texts", run: whole },
      { name: "of that, reading the file", run: () => readCircuitText(text) },
      { name: "of that, solveCircuit", run: () => solveCircuit(circuit) },
      { name: "of that, solveReport (solveCircuit included)", run: () => solveReport(circuit) },
    ],
    4,
  );
  const median = timings[0]?.median ?? Number.NaN;
  return [
    `## A board's problem: ${circuit.parts.length} parts, 3 sources`,
    table(
      ["what", "median, ms", "quartiles, ms"],
      timings.map((timing) => [timing.name, ms(timing.median), `${ms(timing.low)} to ${ms(timing.high)}`]),
    ),
    `Target: the whole in less than ${TARGET_MS} ms (median). ${median < TARGET_MS ? "Met" : "Missed"}.`,
  ].join("\n\n");
}
