import { type Circuit, readCircuitFile } from "../../shared/circuit";
import { type Rational, rationalText, ZERO } from "../../shared/quantity";
import { solveCircuit, solveReport } from "../../shared/solve";
import { exactArithmetic, type LinearSystem } from "../../shared/solve/arithmetic";
import { respond } from "../../shared/solve/equations";
import { eliminateExactly } from "../../shared/solve/exactElimination";
import { constantReactance, DC, networkOf } from "../../shared/solve/network";
import { structureOf } from "../../shared/solve/structure";
import { exact } from "../independent/elements";
import { type BenchCircuit, grid } from "./circuits";
import { ms, table } from "./table";
import { timeTogether } from "./timing";

/** Least factor by which all addends together are to be faster than one rational lusolve. */
const TARGET = 20;

export function circuitOf(json: BenchCircuit): Circuit {
  const reading = readCircuitFile(json);
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.value.circuit;
}

/** All addends of 20 unknowns and 4 sources beside mathjs solving the same matrix for one right-hand side. */
export function exactSolve(): string {
  const circuit = circuitOf(grid());
  const { system, allAddends } = equationsOf(circuit);
  const matrix = Array.from({ length: system.order }, (_, i) => fractionRow(system, i));
  const side = Array.from({ length: system.order }, (_, i) => [fraction(system.rightHandSides[0]?.get(i) ?? ZERO)]);
  const [dense, sparse, column] = [exact.matrix(matrix), exact.sparse(matrix), exact.matrix(side)];
  const timings = timeTogether(
    [
      { name: "elimination: every node voltage and source current", run: () => eliminateExactly(system) },
      { name: "equations and elimination: all branches too", run: allAddends },
      { name: "solveCircuit: checks, structure, all addends, total", run: () => solveCircuit(circuit) },
      { name: "solveReport: the above written out as text", run: () => solveReport(circuit) },
      { name: "mathjs, one rational lusolve, dense", run: () => exact.lusolve(dense, column) },
      { name: "mathjs, one rational lusolve, sparse", run: () => exact.lusolve(sparse as never, column) },
    ],
    6,
  );
  const reference = Math.min(...timings.slice(-2).map(({ median }) => median));
  const ratioOf = (median: number) => (reference / median).toFixed(1);
  const verdicts = timings.slice(0, 3).map(({ name, median }) => {
    const [what] = name.split(":");
    return `${what}, ${reference / median >= TARGET ? "met" : "missed"}`;
  });
  return [
    `## All addends of a circuit of ${system.order} unknowns and ${system.rightHandSides.length} sources, exactly`,
    `A 3 × 6 grid of ${circuit.parts.length} parts. The faster of mathjs's two ways counts; it solves for one right-hand side, ours for four.`,
    table(
      ["what", "median, ms", "quartiles, ms", "lusolve ÷ this"],
      timings.map(({ name, median, low, high }) => [name, ms(median), `${ms(low)} to ${ms(high)}`, ratioOf(median)]),
    ),
    `Target: all addends at least ${TARGET} times faster than one lusolve. ${verdicts.join("; ")}.`,
  ].join("\n\n");
}

/** The very equations that the solver makes of a circuit, and a run of making and solving them. */
function equationsOf(circuit: Circuit): { system: LinearSystem<Rational>; allAddends: () => unknown } {
  if (circuit.reference === null) throw new Error("the circuit has no reference node");
  const network = networkOf(circuit, circuit.reference, DC, exactArithmetic, constantReactance);
  const structure = structureOf(network, circuit);
  let system: LinearSystem<Rational> | null = null;
  const watching = {
    ...exactArithmetic,
    solve: (made: LinearSystem<Rational>) => {
      system = made;
      return exactArithmetic.solve(made);
    },
  };
  respond(network, structure, watching, []);
  if (system === null) throw new Error("the solver made no equations");
  return { system, allAddends: () => respond(network, structure, exactArithmetic, []) };
}

const fraction = (value: Rational) => exact.fraction(rationalText(value));

function fractionRow(system: LinearSystem<Rational>, row: number) {
  return Array.from({ length: system.order }, (_, column) => fraction(system.rows[row]?.get(column) ?? ZERO));
}
