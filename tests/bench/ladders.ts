import type { Circuit } from "../../shared/circuit";
import type { Rational } from "../../shared/quantity";
import { type Complex, EXACT_LIMIT, solveCircuit, solveReport } from "../../shared/solve";
import { ladder } from "./circuits";
import { circuitOf } from "./exactSolve";
import { ms, table } from "./table";
import { timeTogether } from "./timing";

const SECTIONS = [25, 50, 100, 150, 200, 300];
const TARGET_MS = 2000;

/** Exact node voltages of longer and longer ladders: how time grows with n. */
export function ladderTimes(): string {
  const rows = SECTIONS.map((sections) => {
    const circuit = circuitOf(ladder(sections));
    const [timing] = timeTogether([{ name: "", run: () => nodeVoltages(circuit) }], 1.5);
    const end = nodeVoltages(circuit).at(-1);
    if (end === undefined || !("d" in end)) throw new Error(`the ladder of ${sections} was not solved exactly`);
    return { sections, median: timing?.median ?? Number.NaN, digits: end.d.toString().length };
  });
  const cells = rows.map(({ sections, median, digits }, index) => {
    const before = rows[index - 1];
    return [`${sections}`, ms(median), `${digits}`, before ? slope([before, rows[index] ?? before]).toFixed(2) : ""];
  });
  const last = rows.at(-1)?.median ?? Number.NaN;
  const exponent = slope(rows);
  return [
    "## Ladders, every node voltage exactly",
    "One voltage source, then n sections of a resistor along and a resistor across, E12 values. The exponent is the slope of log time over log n: from the row above, and fitted to all rows.",
    table(["sections n", "median, ms", "digits of the last denominator", "exponent"], cells),
    `Targets: 300 sections in less than ${TARGET_MS} ms: ${last < TARGET_MS ? "met" : "missed"}. Growth no worse than about n²: exponent ${exponent.toFixed(2)} over all rows, ${exponent < 2.2 ? "met" : "missed"}.`,
  ].join("\n\n");
}

/** Solves and reads every node voltage, since they are worked out when they are read. */
function nodeVoltages(circuit: Circuit): readonly (Rational | Complex)[] {
  const { dc } = solveCircuit(circuit);
  if (dc === null) throw new Error("not solved");
  return dc.network.nodes.map((_, node) => dc.total.nodeVoltage(node));
}

/** Least-squares slope of log time over log n. */
function slope(rows: readonly { readonly sections: number; readonly median: number }[]): number {
  const points = rows.map(({ sections, median }) => [Math.log(sections), Math.log(median)] as const);
  const mean = (pick: 0 | 1) => points.reduce((total, point) => total + point[pick], 0) / points.length;
  const [x, y] = [mean(0), mean(1)];
  const product = points.reduce((total, point) => total + (point[0] - x) * (point[1] - y), 0);
  return product / points.reduce((total, point) => total + (point[0] - x) ** 2, 0);
}

/** Beyond the limit a ladder is solved in doubles, and the report says so. */
export function beyondTheLimit(): string {
  // A ladder of n sections has n + 1 node voltages and the source's current.
  const rows = [EXACT_LIMIT - 2, EXACT_LIMIT - 1].map((sections) => {
    const circuit = circuitOf(ladder(sections));
    const [timing] = timeTogether([{ name: "", run: () => nodeVoltages(circuit) }], 1.5);
    const { arithmetic, problems } = solveReport(circuit);
    const said = problems.find(({ code }) => code === "inDoubles")?.text ?? "nothing";
    return [`${sections}`, `${sections + 2}`, ms(timing?.median ?? Number.NaN), arithmetic, said];
  });
  return [
    `## Beyond ${EXACT_LIMIT} unknowns`,
    table(["sections", "unknowns", "median, ms", "arithmetic", "said of it"], rows),
  ].join("\n\n");
}
