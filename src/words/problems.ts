import {
  type BoardCircuit,
  type BoardProblem,
  boardProblemText,
  type EntryId,
  type Ink,
  NO_INK,
} from "../../shared/board";
import type { Severity } from "../../shared/circuit";
import { type Answers, solverFailureText } from "../../shared/messages";

/** A problem as the page shows it: beside its entries and in the list. */
export type ShownProblem = {
  readonly key: string;
  readonly severity: Severity;
  readonly text: string;
  readonly entries: readonly EntryId[];
};

/**
 * What cannot be read on the drawing, then what the solver found in the circuit, then what cannot be read of the ink,
 * then a failure of the solver.
 */
export function shownProblems(
  circuit: BoardCircuit,
  answers: Answers | null,
  ink: Ink = NO_INK,
): readonly ShownProblem[] {
  const onBoard = circuit.problems.map((problem) => boardProblem(problem, problem.entry ? [problem.entry] : []));
  // A mark that cannot be read lies nowhere.
  const inInk = ink.problems.map((problem) => boardProblem(problem, []));
  const inCircuit = (answers?.report?.problems ?? []).map((problem): ShownProblem => {
    const entries = problem.parts.flatMap((name) => circuit.entryOf.get(name) ?? []);
    return { key: `circuit ${problem.code} ${problem.text}`, severity: problem.severity, text: problem.text, entries };
  });
  const failure = answers?.failure ? [failureProblem(solverFailureText(answers.failure))] : [];
  return withoutRepeats([...onBoard, ...inCircuit, ...inInk, ...failure]);
}

function boardProblem(problem: BoardProblem, entries: readonly EntryId[]): ShownProblem {
  const text = boardProblemText(problem);
  return { key: `board ${problem.entry} ${text}`, severity: "fault", text, entries };
}

function failureProblem(text: string): ShownProblem {
  return { key: "solver", severity: "fault", text, entries: [] };
}

function withoutRepeats(problems: readonly ShownProblem[]): readonly ShownProblem[] {
  return [...new Map(problems.map((problem) => [problem.key, problem])).values()];
}
