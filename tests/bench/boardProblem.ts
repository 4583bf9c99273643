import { type Circuit, readCircuitText } from "../../shared/circuit";
import type { Rational } from "../../shared/quantity";
import {
  answerOf,
  combine,
  eachAlone,
  powerOf,
  type Response,
  type SolvedSet,
  solveCircuit,
  solveReport,
} from "../../shared/solve";
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
  const read = () => {
    const reading = readCircuitText(text);
    if (!reading.ok) throw new Error("the file cannot be read");
    return reading.value.circuit;
  };
  const timings = timeTogether(
    [
      { name: "read, check, solve, all addends and powers, as numbers", run: () => addendsAndPowers(read()) },
      { name: "of that, reading the file", run: read },
      { name: "of that, checking and solving", run: () => solveCircuit(circuit) },
      { name: "read and report: the above, second method and every text", run: () => solveReport(read()) },
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
    `Target: the first line in less than ${TARGET_MS} ms (median). ${median < TARGET_MS ? "Met" : "Missed"}.`,
  ].join("\n\n");
}

/** Every voltage and current with each source alone, the wanted quantity's addends, and the power of every part. */
function addendsAndPowers(circuit: Circuit): unknown {
  const solution = solveCircuit(circuit);
  const { dc } = solution;
  if (dc?.numbers !== "exact") throw new Error("the board's problem is constant and small");
  return [
    dc.ofSources.map((response, s) => everyNumber(dc, combine(dc.arithmetic, [response], dc.values.slice(s, s + 1)))),
    circuit.wanted.map((wanted) => answerOf(solution, wanted, eachAlone(circuit))),
    circuit.parts.map(({ id }) => powerOf(solution, id, (set) => set.total)),
  ];
}

/** Reads every node voltage, branch voltage and branch current: they are worked out when they are read. */
function everyNumber({ network }: SolvedSet<Rational>, response: Response<Rational>): readonly Rational[] {
  return [
    ...network.nodes.map((_, node) => response.nodeVoltage(node)),
    ...network.branches.map((_, branch) => response.branchVoltage(branch)),
    ...network.branches.map((_, branch) => response.branchCurrent(branch)),
  ];
}
