import { type BoardCircuit, boardProblemText, type EntryId } from "../../shared/board";
import type { Severity } from "../../shared/circuit";
import { type Answers, solverFailureText } from "../../shared/messages";

/** A problem as the page shows it: beside its entries and in the list. */
export type ShownProblem = {
  readonly key: string;
  readonly severity: Severity;
  readonly text: string;
  readonly entries: readonly EntryId[];
};

/** What cannot be read on the drawing, then what the solver found in the circuit, then a failure of the solver. */
export function shownProblems(circuit: BoardCircuit, answers: Answers | null): readonly ShownProblem[] {
  const onBoard = circuit.problems.map((problem): ShownProblem => {
    const text = boardProblemText(problem);
    return {
      key: `board ${problem.entry} ${text}`,
      severity: "fault",
      text,
      entries: problem.entry ? [problem.entry] : [],
    };
  });
  const inCircuit = (answers?.report?.problems ?? []).map((problem): ShownProblem => {
    const entries = problem.parts.flatMap((name) => circuit.entryOf.get(name) ?? []);
    return { key: `circuit ${problem.code} ${problem.text}`, severity: problem.severity, text: problem.text, entries };
  });
  const failure = answers?.failure ? [failureProblem(solverFailureText(answers.failure))] : [];
  return withoutRepeats([...onBoard, ...inCircuit, ...failure]);
}

function failureProblem(text: string): ShownProblem {
  return { key: "solver", severity: "fault", text, entries: [] };
}

function withoutRepeats(problems: readonly ShownProblem[]): readonly ShownProblem[] {
  return [...new Map(problems.map((problem) => [problem.key, problem])).values()];
}
