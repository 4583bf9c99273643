import type { Circuit, Problem } from "../circuit";
import { isIndependentSource } from "../circuit";
import { problemText, severityOf } from "../circuit/problemText";
import { writeSourceValue } from "../quantity";
import { type Answer, answerOf, eachAlone } from "./answers";
import { beyondExtraLowVoltage } from "./caution";
import type { ProblemReport, Report } from "./report";
import { powerBalance, sheetOf } from "./sheets";
import { writerFor } from "./shown";
import { type Solution, solveCircuit } from "./solve";
import type { Grouping } from "./superposition";
import { wantedReport } from "./wantedReport";

export type ReportOptions = {
  /** Sets of sources to take as addends; each source alone where nothing is said. */
  readonly groups?: Grouping;
  /** Significant figures of what is shown; 4 where nothing is said. */
  readonly digits?: number;
  /** Wanted quantities of a file that no steady state answers; each is reported as a problem. */
  readonly unanswerable?: readonly { readonly name: string }[];
};

/**
 * Solves a circuit and writes down all of it as plain JSON: every wanted quantity with its addends, its total and the
 * second method's, node voltages, branch currents and powers of the total and of every addend, and the problems.
 * Never throws for anything that a person can draw.
 */
export function solveReport(circuit: Circuit, options: ReportOptions = {}): Report {
  const solution = solveCircuit(circuit);
  const write = writerFor(solution, options.digits ?? 4);
  const groups = options.groups ?? eachAlone(circuit);
  const answers = circuit.wanted.map((wanted) => answerOf(solution, wanted, groups));
  const problems = [
    ...solution.problems,
    ...answers.flatMap((answer) => answer.problems),
    ...(options.unanswerable ?? []).map(({ name }): Problem => ({ code: "steadyStateOnly", wanted: name })),
    ...beyondExtraLowVoltage(solution),
  ];
  const total = sheetOf(solution, null, write);
  return {
    format: "addend-solution",
    version: 1,
    reference: solution.reference,
    arithmetic: arithmeticOf(solution),
    residual: Math.max(solution.dc?.residual ?? 0, ...solution.sinusoids.map((set) => set.residual)),
    sources: circuit.parts.filter(isIndependentSource).map((part) => ({
      id: part.id,
      kind: part.kind,
      value:
        part.kind === "voltage-source"
          ? writeSourceValue(part.voltage, "V").text
          : writeSourceValue(part.current, "A").text,
    })),
    wanted: answers.map((answer: Answer) => wantedReport(solution, answer, write)),
    nodes: total.nodes,
    parts: total.parts,
    partials: solution.isSolved ? groups.map((sources) => ({ sources, ...sheetOf(solution, sources, write) })) : [],
    powerBalance: powerBalance(solution, write),
    problems: problems.map(problemReport),
  };
}

function arithmeticOf({ dc, sinusoids }: Solution): Report["arithmetic"] {
  if (dc?.numbers === "doubles" || (dc === null && sinusoids.length > 0)) return "doubles";
  return sinusoids.length > 0 ? "exact and doubles" : "exact";
}

/** A problem in words, with the parts and nodes that it names. */
export function problemReport(problem: Problem): ProblemReport {
  const parts: string[] = [];
  const nodes: string[] = [];
  if ("part" in problem) parts.push(problem.part);
  if ("parts" in problem) parts.push(...problem.parts);
  if ("node" in problem) nodes.push(problem.node);
  if ("nodes" in problem) nodes.push(...problem.nodes);
  if ("chosen" in problem && problem.code === "noReference") nodes.push(problem.chosen);
  return { code: problem.code, severity: severityOf(problem), parts, nodes, text: problemText(problem) };
}
