import { givensOf, type JudgingRules, judge, readEntry, rightValue, USUAL_RULES } from "../../shared/check";
import { mistakeBooks } from "../../shared/check/mistakes";
import { eachAlone, solveReport, unitOf } from "../../shared/solve";
import { boardProblem } from "./circuits";
import { circuitOf } from "./exactSolve";
import { ms, table } from "./table";
import { timeTogether } from "./timing";

/** Median within which a line of a circuit of 12 parts is to be judged, its diagnosis included, in ms. */
const TARGET_MS = 20;

/** Lines entered for the total of a board's problem: right, wrong by one mistake, and wrong in no way that is known. */
export function checkTimes(): string {
  const circuit = circuitOf(boardProblem());
  const [wanted] = circuit.wanted;
  if (wanted === undefined) throw new Error("the board's problem asks for nothing");
  const [report] = solveReport(circuit).wanted;
  if (!report?.total) throw new Error("the board's problem has no answer");
  const unit = unitOf(wanted);
  const place = { givens: givensOf(circuit, "peak"), measure: "peak", name: report.name } as const;
  const right = rightValue(report.total, unit);
  const problem = { circuit, wanted, grouping: eachAlone(circuit) };
  const rules: JudgingRules = USUAL_RULES;
  const line = (text: string, books: ReturnType<typeof mistakeBooks>): number => {
    if (judge(text, place, right, rules).outcome === "right") return 0;
    const reading = readEntry(text, { ...place, unit });
    if (!reading.ok) throw new Error(`${text} can't be read`);
    return books.of(null)?.explain(reading.entry.number, rules.figures, "peak").length ?? 0;
  };
  const forgotten = `${report.total.exact} A - (${report.addends[1]?.value.exact}) A`;
  const lines = [
    { name: "right", text: `${report.total.exact} A`, explanations: [0, 0] },
    { name: "wrong by one mistake", text: forgotten, explanations: [1, 9] },
    { name: "wrong in no known way, pairs included", text: "0.123456 A", explanations: [0, 0] },
  ];
  const kept = mistakeBooks(problem);
  for (const {
    name,
    text,
    explanations: [least = 0, most = 0],
  } of lines) {
    const found = line(text, kept);
    if (found < least || found > most) throw new Error(`${name}: ${found} explanations of ${text}`);
  }
  const timings = timeTogether(
    lines.flatMap(({ name, text }) => [
      { name: `${name}; the board is known`, run: () => line(text, kept) },
      { name: `${name}; a new board`, run: () => line(text, mistakeBooks(problem)) },
    ]),
    6,
  );
  const slowest = Math.max(...timings.map(({ median }) => median));
  return [
    `## One line judged, on a circuit of ${circuit.parts.length} parts and 3 sources`,
    "Read, judged and explained. On a new board the values that all mistakes lead to are worked out first, in the total and, for pairs of mistakes, in each of its three addends.",
    table(
      ["line", "median, ms", "quartiles, ms"],
      timings.map(({ name, median, low, high }) => [name, ms(median), `${ms(low)} to ${ms(high)}`]),
    ),
    `Target: under ${TARGET_MS} ms each; ${slowest < TARGET_MS ? "met" : "missed"}.`,
  ].join("\n\n");
}
