import type { AddendReport, PartReport, ProblemReport, Report, Shown, WantedReport } from "./report";

/** A report as a person reads it on a terminal: each wanted quantity as a sum, then voltages, currents, powers, problems. */
export function reportText(report: Report): string {
  const sections = [
    ...report.wanted.map((wanted) => wantedText(wanted, report.sources.length)),
    table(
      ["node", "voltage"],
      report.nodes.map(({ node, voltage }) => [nodeText(node, report.reference), shownText(voltage, "V")]),
    ),
    table(["part", "from → to", "voltage", "current", "power"], report.parts.map(partRow)),
    balanceText(report),
    residualText(report),
    problemsText(report.problems),
  ];
  return `${sections.filter((section) => section !== "").join("\n\n")}\n`;
}

/** The heading, the table of addends, the total with the groups, and the second method of one wanted quantity. */
function wantedText(wanted: WantedReport, sourceCount: number): string {
  const lines = [`${wanted.name}: ${wanted.description}`];
  if (wanted.total === null) return `${lines[0]}\n  no answer; see the problems below`;
  const alone = wanted.addends.filter(({ sources }) => sources.length === 1);
  const together = wanted.addends.filter(({ sources }) => sources.length > 1);
  const row = ({ sources, value, coefficient }: AddendReport) => [
    sources.length === 1 ? `${sources[0]} alone` : `${sources.join(", ")} together`,
    coefficient === null ? "" : coefficient.text,
    shownText(value, wanted.unit),
  ];
  // Groups beside the sources alone are no addends of the same sum, so they stand below its total.
  const isBeside = alone.length === sourceCount;
  const rows = (isBeside ? alone : wanted.addends).map(row);
  if (rows.length > 0) {
    lines.push(
      table(
        ["acting", "coefficient × source", "addend"],
        [...rows, ["total", "", shownText(wanted.total, wanted.unit)], ...(isBeside ? together.map(row) : [])],
        1,
      ),
    );
  } else if (wanted.components.length === 0) lines.push(`  total ${shownText(wanted.total, wanted.unit)}`);
  for (const { name, unit, value } of wanted.components) lines.push(`  ${name} ${shownText(value, unit)}`);
  lines.push(`  ${secondText(wanted)}`);
  if (wanted.note !== null) lines.push(`  ${wanted.note}`);
  return lines.join("\n");
}

function secondText({ secondMethod, unit }: WantedReport): string {
  if (secondMethod === null) return "second method: none applies to this circuit";
  const { method, value, agrees } = secondMethod;
  return `second method, ${method}: ${shownText(value, unit)}, ${agrees ? "agrees" : "DOES NOT AGREE: a fault of this program"}`;
}

function nodeText(node: string, reference: string | null): string {
  return node === reference ? `${node} (reference)` : node;
}

/** Longer fractions tell a reader nothing; `--json` has them. */
const LONGEST_FRACTION = 24;

/** `= 1.2 mA`, and the fraction too where the decimal is rounded: `≈ 333.3 mA (1/3 A)`. */
function shownText(shown: Shown | null, unit: string): string {
  if (shown === null) return "not determined";
  const isShort = shown.exact !== null && shown.exact.length <= LONGEST_FRACTION;
  const fraction = shown.mark === "≈" && isShort ? ` (${shown.exact?.replace("-", "−")} ${unit})` : "";
  return `${shown.mark} ${shown.text}${fraction}`;
}

function partRow({ branch, plus, minus, voltage, current, power }: PartReport): string[] {
  return [
    branch,
    `${plus} → ${minus}`,
    shownText(voltage, "V"),
    shownText(current, "A"),
    power === null ? "" : shownText(power, "W"),
  ];
}

function balanceText({ powerBalance }: Report): string {
  if (powerBalance === null) return "";
  const { supplied, absorbed, difference } = powerBalance;
  return `power supplied ${shownText(supplied, "W")}, absorbed ${shownText(absorbed, "W")}, difference ${shownText(difference, "W")}`;
}

/** Exact numbers leave no residual, so it is stated for doubles alone. */
function residualText({ arithmetic, residual, nodes }: Report): string {
  if (arithmetic === "exact" || nodes.length === 0) return "";
  return `solved in doubles, with a relative residual of ${residual === 0 ? "0" : residual.toExponential(1).replace("-", "−")}`;
}

function problemsText(problems: readonly ProblemReport[]): string {
  return problems.map(({ severity, text }) => `${severity === "fault" ? "Problem" : "Note"}: ${text}`).join("\n");
}

/** Columns padded to their widest cell; nothing where there are no rows. */
function table(head: readonly string[], rows: readonly (readonly string[])[], indent = 0): string {
  if (rows.length === 0) return "";
  const all = [head, ...rows];
  const widths = head.map((_, column) => Math.max(...all.map((row) => [...(row[column] ?? "")].length)));
  const margin = "  ".repeat(indent);
  return all
    .map(
      (row) =>
        margin +
        row
          .map((cell, column) => cell + " ".repeat((widths[column] ?? 0) - [...cell].length))
          .join("  ")
          .trimEnd(),
    )
    .join("\n");
}
