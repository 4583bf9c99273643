import { type Circuit, readCircuitFile } from "../../shared/circuit";
import { add, ONE, type Rational, rationalText, ZERO } from "../../shared/quantity";
import { answerOf, eachAlone, solveCircuit, solveReport } from "../../shared/solve";
import { exactArithmetic, type LinearSystem } from "../../shared/solve/arithmetic";
import { respond, unknownsOf } from "../../shared/solve/equations";
import { eliminateExactly, solveExactly } from "../../shared/solve/exactElimination";
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
  const system = equationsOf(circuit);
  const matrix = Array.from({ length: system.order }, (_, i) => fractionRow(system, i));
  const side = Array.from({ length: system.order }, (_, i) => [fraction(system.rightHandSides[0]?.get(i) ?? ZERO)]);
  const [dense, sparse, column] = [exact.matrix(matrix), exact.sparse(matrix), exact.matrix(side)];
  const timings = timeTogether(
    [
      { name: "addends: circuit to every addend and total of what is wanted", run: () => addendsOf(circuit) },
      { name: "equations: every unknown for every source", run: () => everyUnknown(system) },
      { name: "elimination over the rationals, where residues don't serve", run: () => eliminateExactly(system) },
      { name: "solveReport: the above written out as text", run: () => solveReport(circuit) },
      { name: "mathjs, one rational lusolve, dense", run: () => exact.lusolve(dense, column) },
      { name: "mathjs, one rational lusolve, sparse", run: () => exact.lusolve(sparse as never, column) },
    ],
    6,
  );
  const reference = Math.min(...timings.slice(-2).map(({ median }) => median));
  const ratioOf = (median: number) => (reference / median).toFixed(1);
  const verdicts = timings.slice(0, 2).map(({ name, median }) => {
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

/** All addends and the total of each wanted quantity, from the circuit. */
function addendsOf(circuit: Circuit): unknown {
  const solution = solveCircuit(circuit);
  return circuit.wanted.map((wanted) => answerOf(solution, wanted, eachAlone(circuit)));
}

/** Every unknown for every right-hand side, as reduced fractions. */
function everyUnknown(system: LinearSystem<Rational>): unknown {
  const result = solveExactly(system);
  if (!result.ok) throw new Error("the bench's circuit is not singular");
  return system.rightHandSides.map((_, s) => system.rows.map((_, column) => result.solution(s, [[column, ONE]])));
}

/** The very equations that the solver makes of a circuit. */
function equationsOf(circuit: Circuit): LinearSystem<Rational> {
  if (circuit.reference === null) throw new Error("the circuit has no reference node");
  const network = networkOf(circuit, circuit.reference, DC, exactArithmetic, constantReactance);
  let system: LinearSystem<Rational> | null = null;
  const watching = {
    ...exactArithmetic,
    solve: (made: LinearSystem<Rational>) => {
      system = made;
      return exactArithmetic.solve(made);
    },
  };
  const none = network.sources.map(() => ZERO);
  const eachSource = none.map((_, source) => ({ values: none.with(source, ONE), test: null }));
  const structure = structureOf(network, circuit);
  respond(network, structure, unknownsOf(network, structure), watching, eachSource);
  if (system === null) throw new Error("the solver made no equations");
  return system;
}

const fraction = (value: Rational) => exact.fraction(rationalText(value));

function fractionRow(system: LinearSystem<Rational>, row: number) {
  const entries = new Map<number, Rational>();
  for (const [column, value] of system.rows[row] ?? []) entries.set(column, add(entries.get(column) ?? ZERO, value));
  return Array.from({ length: system.order }, (_, column) => fraction(entries.get(column) ?? ZERO));
}
