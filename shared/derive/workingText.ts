import type { Derivation, Equation, Line } from "./line";
import type { Working } from "./working";

/** A working as a person reads it on a terminal: the lines of each addend, then those of the total. */
export function workingText(working: Working): string {
  const addends = working.addends.map(({ sources, derivation }) => {
    const acting = sources.length === 1 ? `${sources[0]} alone` : `${sources.join(", ")} together`;
    return `  ${acting}\n${linesText(derivation)}`;
  });
  const total = `  total\n${linesText(working.total)}`;
  const seconds = working.secondMethods.map(({ method, reason, derivation, agrees }) => {
    if (derivation === null) return `  second method, ${method}: ${reason}`;
    const verdict = agrees === true ? "agrees" : "DOES NOT AGREE: a fault of this program";
    return `  second method, ${method}, ${verdict}\n${linesText(derivation)}`;
  });
  const faults = working.faults.map(({ where, line, got, expected }) => {
    return `  withheld, a fault of this program: ${where}: ${line} came to ${got} and not to ${expected}`;
  });
  return `${[`${working.wanted}, line by line`, ...addends, total, ...seconds, ...faults].join("\n")}\n`;
}

function linesText({ lines, omitted }: Derivation): string {
  if (omitted === "failed") return "        no lines";
  return omitted === null ? lines.map(lineText).join("\n") : "        too large to be written out";
}

function lineText({ rule, sentence, equations }: Line, index: number): string {
  const matrix = rule.kind === "solution" && rule.matrix !== null ? [`       ${rule.matrix.text}`] : [];
  const shown = equations.map((equation) => `       ${equationText(equation)}`);
  return [`  ${`${index + 1}.`.padStart(4)} ${sentence}`, ...matrix, ...shown].join("\n");
}

/** Longer fractions tell a reader nothing. */
const LONGEST_FRACTION = 24;

/** `Iy = R · V/(…) = 2 · 4 V/(…) = 8 mA`. */
export function equationText({ left, symbols, numbers, numbersMark, result, unit }: Equation): string {
  if (result === null) {
    const balance = `${left.text} = ${symbols?.text ?? "0"}`;
    return numbers === null ? balance : `${balance}:  ${numbers.text}`;
  }
  const named = symbols === null ? "" : ` = ${symbols.text}`;
  const put = numbers === null ? "" : ` ${numbersMark} ${numbers.text}`;
  const isShort = result.exact !== null && result.exact.length <= LONGEST_FRACTION && result.mark === "≈";
  const fraction = isShort ? ` (${result.exact?.replace("-", "−")} ${unit})` : "";
  return `${left.text}${named}${put} ${result.mark} ${result.text}${fraction}`;
}
