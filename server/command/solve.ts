import { readFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { fileProblemText, readCircuitText } from "../../shared/circuit";
import { workingsOf, workingText } from "../../shared/derive";
import { eachAlone, reportText, solveReport } from "../../shared/solve";

const USAGE = `Usage: npm run solve -- FILE.json [--working] [--json] [--digits N]
Solves the circuit of a file ("-" for standard input), one source at a time.
  --working   the lines that lead to each answer as well
  --json      the whole solution as JSON
  --digits N  significant figures shown, 1 to 15 (4 where nothing is said)
Exit code: 0 solved, 1 problems, 2 unreadable.`;

const SOLVED = 0;
const PROBLEMS = 1;
const UNREADABLE = 2;

type Request = {
  readonly path: string;
  readonly isJson: boolean;
  readonly hasWorking: boolean;
  readonly digits: number;
};

/** Runs the command; texts go to the two writers, the exit code comes back. */
export function runSolve(
  args: readonly string[],
  out: (text: string) => void,
  complain: (text: string) => void,
): number {
  const request = readArguments(args);
  if (request === "help") {
    out(`${USAGE}\n`);
    return SOLVED;
  }
  if (typeof request === "string") {
    complain(`${request}\n\n${USAGE}\n`);
    return UNREADABLE;
  }
  const text = readInput(request.path);
  if (typeof text !== "string") {
    complain(`${nameOf(request.path)}: ${text.reason}\n`);
    return UNREADABLE;
  }
  const reading = readCircuitText(text);
  if (!reading.ok) {
    complain(
      `${reading.problems.map((problem) => `${nameOf(request.path)}: ${fileProblemText(problem)}`).join("\n")}\n`,
    );
    return UNREADABLE;
  }
  const { circuit, unanswerable, groups } = reading.value;
  const report = solveReport(circuit, {
    digits: request.digits,
    unanswerable,
    groups: [...eachAlone(circuit), ...groups],
  });
  const workings = request.hasWorking ? workingsOf(circuit, { digits: request.digits }) : [];
  const whole = request.hasWorking ? { ...report, workings } : report;
  out(
    request.isJson
      ? `${JSON.stringify(whole, null, 2)}\n`
      : [reportText(report), ...workings.map(workingText)].join("\n"),
  );
  return report.problems.some((problem) => problem.severity === "fault") ? PROBLEMS : SOLVED;
}

function readArguments(args: readonly string[]): Request | "help" | string {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        json: { type: "boolean" },
        working: { type: "boolean" },
        digits: { type: "string" },
        help: { type: "boolean", short: "h" },
      },
    });
    if (values.help) return "help";
    const digits = Number(values.digits ?? "4");
    if (!Number.isInteger(digits) || digits < 1 || digits > 15) {
      return `--digits takes a whole number from 1 to 15, not "${values.digits}".`;
    }
    const [path, ...others] = positionals;
    if (path === undefined) return "Name the file of a circuit.";
    if (others.length > 0) return `One file at a time, please: "${others[0]}" is one too many.`;
    return { path, isJson: values.json ?? false, hasWorking: values.working ?? false, digits };
  } catch (error) {
    // parseArgs throws for unknown options, with a sentence that names them.
    return error instanceof Error ? error.message : String(error);
  }
}

function readInput(path: string): string | { readonly reason: string } {
  try {
    const bytes = readFileSync(path === "-" ? 0 : path);
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch (error) {
    if (error instanceof TypeError) return { reason: "the file is not UTF-8 text." };
    const code = error instanceof Error && "code" in error ? String(error.code) : String(error);
    const known: Record<string, string> = {
      ENOENT: "there is no such file.",
      EISDIR: "this is a folder, not a file.",
      EACCES: "this file may not be read.",
    };
    return { reason: known[code] ?? `the file cannot be read (${code}).` };
  }
}

function nameOf(path: string): string {
  return path === "-" ? "standard input" : path;
}

if (process.argv[1]?.endsWith("command/solve.ts")) {
  process.exitCode = runSolve(
    process.argv.slice(2),
    (text) => process.stdout.write(text),
    (text) => process.stderr.write(text),
  );
}
