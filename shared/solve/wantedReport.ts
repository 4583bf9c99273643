import type { Wanted } from "../circuit";
import { unreachable } from "../circuit";
import { listed } from "../circuit/problemText";
import type { UnitSymbol } from "../quantity";
import { writeFraction, writeSourceValue } from "../quantity";
import { type Amount, addConstants, type Constant, NOTHING, powerOf } from "./amount";
import type { Answer } from "./answers";
import { complex } from "./complex";
import type { AddendReport, WantedReport } from "./report";
import { agree, totalByLoops } from "./secondMethod";
import type { Writer } from "./shown";
import { type Solution, sourceValues } from "./solve";
import { type Addend, respondTo } from "./superposition";

/** An answer in figures and words. */
export function wantedReport(solution: Solution, answer: Answer, write: Writer): WantedReport {
  const { wanted, unit, total, components } = answer;
  return {
    name: answer.name,
    kind: wanted.kind,
    description: describeWanted(wanted, solution),
    unit,
    total: total && write(total, unit),
    addends: answer.addends.map((addend) => addendReport(solution, addend, unit, write)),
    secondMethod: total && secondReport(solution, answer, total, write),
    note: total === null ? null : noteOf(solution, wanted, write),
    components: components.map(({ name, unit: each, amount }) => ({ name, unit: each, value: write(amount, each) })),
  };
}

function secondReport(solution: Solution, answer: Answer, total: Amount, write: Writer): WantedReport["secondMethod"] {
  const second = totalByLoops(solution, answer.wanted);
  if (second === null) return null;
  const agrees = agree(solution, total, second, answer.unit);
  // Numbers that agree are one number: what rounding makes of a 0 by another route is not shown beside it.
  return { method: "loop analysis", value: write(agrees ? total : second, answer.unit), agrees };
}

/** What is asked for, in words. */
function describeWanted(wanted: Wanted, solution: Solution): string {
  switch (wanted.kind) {
    case "current": {
      const [from, to] = endsOf(solution, wanted);
      const through = wanted.winding === "secondary" ? `the secondary of ${wanted.through}` : wanted.through;
      return `current through ${through}${from === null ? "" : ` from ${from} to ${to}`}`;
    }
    case "power":
      return `power absorbed by ${wanted.of}`;
    case "voltage":
      return wanted.to === solution.reference
        ? `voltage of node ${wanted.from}`
        : `voltage from ${wanted.from} (+) to ${wanted.to} (−)`;
    case "resistance":
      return `equivalent resistance between ${wanted.from} and ${wanted.to}`;
    case "impedance":
      return `equivalent impedance between ${wanted.from} and ${wanted.to}`;
    case "open-circuit-voltage":
      return `open-circuit voltage from ${wanted.from} (+) to ${wanted.to} (−)`;
    case "short-circuit-current":
      return `short-circuit current from ${wanted.from} to ${wanted.to}`;
    case "thevenin":
      return `Thévenin equivalent at ${wanted.from} (+) and ${wanted.to} (−)`;
    case "norton":
      return `Norton equivalent at ${wanted.from} and ${wanted.to}`;
    case "maximum-power-load":
      return `load at ${wanted.from} and ${wanted.to} that takes most power`;
    default:
      return unreachable(wanted);
  }
}

function endsOf(solution: Solution, wanted: Extract<Wanted, { kind: "current" }>): readonly [string | null, string] {
  const network = (solution.dc ?? solution.sinusoids[0])?.network;
  const branch = network?.branches.find((each) => each.part === wanted.through && each.winding === wanted.winding);
  if (!network || !branch) return [null, ""];
  const ends = [network.nodes[branch.plus] as string, network.nodes[branch.minus] as string] as const;
  return wanted.direction === "forward" ? ends : [ends[1], ends[0]];
}

function addendReport(solution: Solution, addend: Addend, unit: UnitSymbol, write: Writer): AddendReport {
  const value = write(addend.amount, unit);
  const [only] = addend.sources;
  if (addend.coefficient === null || only === undefined) return { sources: addend.sources, value, coefficient: null };
  // An addend that is 0 but for rounding has a coefficient that is, on a scale that nothing else tells.
  const isNothing = value.phasors.length > 0 && value.phasors.every((phasor) => phasor.magnitude === 0);
  const coefficient = isNothing ? withoutSize(addend.coefficient) : addend.coefficient;
  return { sources: addend.sources, value, coefficient: coefficientReport(solution, only, coefficient, unit, write) };
}

function withoutSize(amount: Amount): Amount {
  return { ...amount, phasors: amount.phasors.map((term) => ({ ...term, value: complex(0) })) };
}

function coefficientReport(
  solution: Solution,
  source: Addend["sources"][number],
  amount: Amount,
  unit: UnitSymbol,
  write: Writer,
): AddendReport["coefficient"] {
  const part = solution.circuit.parts.find((each) => each.id === source);
  const given = sourceValues(solution.circuit).get(source);
  if (part === undefined || given === undefined) throw new Error(`coefficientReport: no source ${source}`);
  const sourceUnit = part.kind === "voltage-source" ? "V" : "A";
  const ownUnit: UnitSymbol = unit === sourceUnit ? "1" : unit === "A" ? "S" : "Ω";
  const sourceValue = writeSourceValue(given as never, sourceUnit).text;
  const value = write(amount, ownUnit);
  const { constant } = amount;
  const text = constant?.numbers === "exact" ? writeFraction(constant.value, ownUnit) : value.text;
  const isPolar = text.includes("∠");
  return {
    value,
    unit: ownUnit,
    sourceValue,
    text: `${isPolar ? `(${text})` : text} × ${isPolar ? `(${sourceValue})` : sourceValue}`,
  };
}

/** Why a quantity has no addends, with the numbers that show it. */
function noteOf(solution: Solution, wanted: Wanted, write: Writer): string | null {
  switch (wanted.kind) {
    case "power":
      return powerNote(solution, wanted, write);
    case "resistance":
    case "impedance":
      return "A property of the circuit with its independent sources zeroed, so no source has a part in it.";
    case "maximum-power-load":
      return "The load follows from the Thévenin equivalent; its power is not a sum of addends.";
    case "current":
    case "voltage":
    case "open-circuit-voltage":
    case "short-circuit-current":
    case "thevenin":
    case "norton":
      return null;
    default:
      return unreachable(wanted);
  }
}

function powerNote(solution: Solution, wanted: Extract<Wanted, { kind: "power" }>, write: Writer): string {
  const sources = [...sourceValues(solution.circuit).keys()];
  if (sources.length < 2) return "Power is the product of a voltage and a current, so it is taken from the totals.";
  const alone = sources.map((source) => powerOf(solution, wanted.of, (set) => respondTo(set, [source])));
  const each = sources.map((source, i) => `${write(alone[i] as Amount, "W").text} with ${source} alone`);
  const sum = alone.reduce<Constant>(
    (total, { constant }) => (constant ? addConstants(total, constant) : total),
    NOTHING,
  );
  const together: Amount = { constant: sum, phasors: [] };
  const actual = powerOf(solution, wanted.of, (set) => set.total);
  const comparison = compareText(
    solution,
    sources.length,
    agree(solution, together, actual, "W"),
    write(together, "W").text,
    write(actual, "W").text,
  );
  return `Power has no addends: it is a product of a voltage and a current that are both sums. ${wanted.of} would absorb ${listed(each)}. ${comparison}`;
}

function compareText(solution: Solution, sources: number, isEqual: boolean, together: string, actual: string): string {
  const frequencies = solution.sinusoids.length + (solution.dc === null ? 0 : 1);
  if (frequencies === sources) {
    return `Each source has a frequency of its own here, and only then do mean powers add: ${together}. At any one instant they do not.`;
  }
  if (isEqual)
    return `That these add up to the ${actual} of all sources together is a coincidence of this circuit, not a rule.`;
  return `These add up to ${together}, but with all sources on it absorbs ${actual}.`;
}
