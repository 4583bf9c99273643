import { workingsOf } from "../../shared/derive";
import { boardProblem } from "./circuits";
import { circuitOf } from "./exactSolve";
import { ms, table } from "./table";
import { timeTogether } from "./timing";

/** Median within which all workings of a circuit of 12 parts and 3 sources are to be made, in ms. */
const TARGET_MS = 10;

/** The lines of every addend, of the total and of its second methods, from the circuit, solving included. */
export function workingTimes(): string {
  const circuit = circuitOf(boardProblem());
  const [timing] = timeTogether([{ name: "all workings", run: () => workingsOf(circuit) }], 3);
  if (timing === undefined) throw new Error("one task has one timing");
  const { median, low, high } = timing;
  return [
    `## All workings of a circuit of ${circuit.parts.length} parts and 3 sources`,
    "Not series-parallel, so each addend is by node equations; the three second methods are in it.",
    table(["what", "median, ms", "quartiles, ms"], [["all workings", ms(median), `${ms(low)} to ${ms(high)}`]]),
    `Target: under ${TARGET_MS} ms; ${median < TARGET_MS ? "met" : "missed"}.`,
  ].join("\n\n");
}
