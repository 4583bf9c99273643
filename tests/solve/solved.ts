import type { Fraction } from "mathjs";
import { type Circuit, fileProblemText, readCircuitFile } from "../../shared/circuit";
import { type Rational, rationalText, subtract, ZERO } from "../../shared/quantity";
import { combine, type Solution, type SolvedSet, solveCircuit } from "../../shared/solve";
import type { Response } from "../../shared/solve/equations";
import type { CircuitJson } from "../generators/circuits";
import { exact, type RawCircuit } from "../independent/elements";
import type { Answer } from "../independent/tableau";

/** The solver's answers by the names that the tableau uses, so that the two can be laid side by side. */
export type Solved<T> = {
  readonly solution: Solution;
  readonly set: SolvedSet<T>;
  readonly nodes: readonly string[];
  readonly branches: readonly string[];
  readonly sources: readonly string[];
  /** Nodes whose voltages are counted from the reference node and not from a node of their own section. */
  readonly mainNodes: readonly string[];
  /** With these sources on and the other independent ones zeroed. */
  readonly alone: (sources: readonly string[]) => Answer<T>;
  readonly total: Answer<T>;
};

/** The circuit of a file. Throws where it cannot be read, since the files of these tests are ours. */
export function circuitOf(json: RawCircuit | CircuitJson): Circuit {
  const reading = readCircuitFile(json);
  if (!reading.ok) throw new Error(`${reading.problems.map(fileProblemText).join("\n")}\n${JSON.stringify(json)}`);
  return reading.value.circuit;
}

/** The exact DC answers, or null where the circuit's problems leave it without. */
export function solvedExactly(json: RawCircuit | CircuitJson): Solved<Rational> | null {
  const solution = solveCircuit(circuitOf(json));
  if (!solution.isSolved) return null;
  if (solution.dc?.numbers !== "exact") throw new Error("expected an exact DC solution");
  return solvedOf(solution, solution.dc, subtract, ZERO);
}

/** Names one solved set. `less` and `zero` are the numbers' own. */
export function solvedOf<T>(solution: Solution, set: SolvedSet<T>, less: (a: T, b: T) => T, zero: T): Solved<T> {
  const { network, ofSources, values, arithmetic, structure } = set;
  const transformers = new Set(
    solution.circuit.parts.flatMap((part) => (part.kind === "ideal-transformer" ? [part.id] : [])),
  );
  const branches = network.branches.map(({ part, winding }) => (transformers.has(part) ? `${part} ${winding}` : part));
  const nodes: readonly string[] = network.nodes;
  const sources: readonly string[] = network.sources;
  const answer = (response: Response<T>): Answer<T> => {
    const named = (names: readonly string[], read: (index: number) => T, name: string): T => {
      const index = names.indexOf(name);
      if (index < 0) throw new Error(`nothing is called ${name}`);
      return read(index);
    };
    const node = (name: string) => named(nodes, response.nodeVoltage, name);
    // An op amp's inputs are a branch of the tableau alone: no current, and the voltage between its two nodes.
    const inputs = (branch: string) => {
      const part = solution.circuit.parts.find(({ id }) => `${id} in` === branch);
      return part?.kind === "ideal-opamp" ? part : null;
    };
    return {
      node,
      between: (from, to) => less(node(from), node(to)),
      voltage: (branch) => {
        const amplifier = inputs(branch);
        if (amplifier) return less(node(amplifier.inPlus), node(amplifier.inMinus));
        return named(branches, response.branchVoltage, branch);
      },
      current: (branch) => (inputs(branch) ? zero : named(branches, response.branchCurrent, branch)),
    };
  };
  const main = structure.sectionOf[network.reference];
  return {
    solution,
    set,
    nodes,
    branches,
    sources,
    mainNodes: nodes.filter((_, index) => structure.sectionOf[index] === main),
    alone: (acting) => {
      const weights = values.map((value, s) => (acting.includes(sources[s] ?? "") ? value : less(value, value)));
      return answer(combine(arithmetic, ofSources, weights));
    },
    total: answer(set.total),
  };
}

/** A rational of ours among those of mathjs. */
export const toFraction = (value: Rational): Fraction => exact.fraction(rationalText(value));

/** An answer of ours in the numbers of mathjs. */
export function inFractions(answer: Answer<Rational>): Answer<Fraction> {
  return {
    node: (name) => toFraction(answer.node(name)),
    between: (from, to) => toFraction(answer.between(from, to)),
    voltage: (branch) => toFraction(answer.voltage(branch)),
    current: (branch) => toFraction(answer.current(branch)),
  };
}
