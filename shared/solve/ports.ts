import type { Circuit, PortKind, Wanted } from "../circuit";
import { partId, unreachable } from "../circuit";
import { wantedName } from "../circuit/check";
import { integer, multiply, reciprocal } from "../quantity";
import { type Amount, amountOf, type Constant, numberOf, type PhasorTerm } from "./amount";
import type { Answer } from "./answers";
import { conjugate, magnitude } from "./complex";
import type { Response } from "./equations";
import { type Port, type Solution, type SolvedSet, solveCircuit } from "./solve";
import { type Grouping, type Linear, readLinear, superposed, undeterminedParts } from "./superposition";

type PortWanted = Extract<Wanted, { kind: PortKind }>;
type PortAnswer = Partial<Pick<Answer, "total" | "addends" | "components" | "problems">>;

/** What is asked of two nodes as a port. Problems: wantedUndetermined, noEquivalent. */
export function portAnswer(solution: Solution, wanted: PortWanted, grouping: Grouping): PortAnswer {
  const name = wantedName(wanted);
  const linear: Linear = { kind: "voltage", from: wanted.from, to: wanted.to };
  if (undeterminedParts(solution, linear) !== null) {
    return { problems: [{ code: "wantedUndetermined", wanted: name, parts: [] }] };
  }
  const open = superposed(solution, linear, grouping);
  const resistance = { name: resistanceName(solution), unit: "Ω", amount: portResistance(solution, wanted) } as const;
  switch (wanted.kind) {
    case "resistance":
    case "impedance":
      return { total: resistance.amount };
    case "open-circuit-voltage":
      return open;
    case "thevenin":
      return { ...open, components: [{ name: "Vth", unit: "V", amount: open.total }, resistance] };
    case "short-circuit-current":
    case "norton": {
      const short = shortCircuit(solution.circuit, wanted, grouping);
      if (short === null) return { problems: [{ code: "noEquivalent", wanted: name, reason: "ideal voltage source" }] };
      if (wanted.kind === "short-circuit-current") return short;
      return {
        ...short,
        components: [
          { name: "In", unit: "A", amount: short.total },
          { ...resistance, name: "Rn" },
        ],
      };
    }
    case "maximum-power-load":
      return matchedLoad(solution, name, resistance.amount, open.total);
    default:
      return unreachable(wanted.kind);
  }
}

function resistanceName(solution: Solution): string {
  return solution.sinusoids.length > 0 ? "Zth" : "Rth";
}

/** Voltage at the port for 1 A into it, independent sources zeroed: one number a set. */
function portResistance(solution: Solution, { from, to }: PortWanted): Amount {
  const place = solution.ports.findIndex((port) => port.from === from && port.to === to);
  const linear: Linear = { kind: "voltage", from, to };
  return amountOf(solution, <T>(set: SolvedSet<T>) =>
    readLinear(set.network, set.arithmetic, set.ofPorts[place] as Response<T>, linear),
  );
}

/** The circuit with a port's nodes shorted, and the current in that short from one to the other. */
export function shortedCircuit(
  circuit: Circuit,
  { from, to }: Port,
): { readonly shorted: Circuit; readonly current: Extract<Linear, { kind: "current" }> } {
  const id = partId(`short from ${from} to ${to}`);
  const wire = { kind: "wire", id, plus: from, minus: to } as const;
  return {
    shorted: { ...circuit, parts: [...circuit.parts, wire], wanted: [] },
    current: { kind: "current", through: id, winding: "primary", direction: "forward" },
  };
}

/** Total and addends of the current in a short; null where the short cannot be: the port is a voltage source. */
function shortCircuit(circuit: Circuit, port: Port, grouping: Grouping): ReturnType<typeof superposed> | null {
  const { shorted, current } = shortedCircuit(circuit, port);
  const solution = solveCircuit(shorted);
  if (!solution.isSolved || undeterminedParts(solution, current) !== null) return null;
  return superposed(solution, current, grouping);
}

/**
 * The load that takes most power and that power: the port's resistance and Voc²/(4R) for constants, the conjugate
 * impedance and |Voc|²/(4 Re Z), halved for peak phasors, at a single frequency.
 * Source: Alexander and Sadiku, Fundamentals of Electric Circuits, chapters 4 and 11 (from memory).
 */
function matchedLoad(solution: Solution, name: string, resistance: Amount, open: Amount): PortAnswer {
  const impossible: PortAnswer = { problems: [{ code: "noEquivalent", wanted: name, reason: "not positive" }] };
  const parts = [resistance.constant, ...resistance.phasors];
  if (parts.filter((part) => part !== null).length !== 1) return impossible;
  const phasor = resistance.phasors[0];
  if (phasor !== undefined) {
    const impedance = phasor.value;
    if (impedance.re <= 0) return impossible;
    const voltage = magnitude((open.phasors[0] as PhasorTerm).value);
    const mean = voltage ** 2 / (4 * impedance.re) / (solution.measure === "rms" ? 1 : 2);
    const load: Amount = { constant: null, phasors: [{ ...phasor, value: conjugate(impedance) }] };
    return matched("ZL", load, { constant: { numbers: "doubles", value: mean }, phasors: [] });
  }
  const { constant } = resistance;
  if (constant === null || open.constant === null || numberOf(constant) <= 0) return impossible;
  return matched("RL", resistance, { constant: quarterPower(open.constant, constant), phasors: [] });
}

function quarterPower(voltage: Constant, resistance: Constant): Constant {
  if (voltage.numbers === "exact" && resistance.numbers === "exact") {
    const value = multiply(multiply(voltage.value, voltage.value), reciprocal(multiply(integer(4), resistance.value)));
    return { numbers: "exact", value };
  }
  return { numbers: "doubles", value: numberOf(voltage) ** 2 / (4 * numberOf(resistance)) };
}

function matched(name: string, load: Amount, power: Amount): PortAnswer {
  return {
    total: load,
    components: [
      { name, unit: "Ω", amount: load },
      { name: "Pmax", unit: "W", amount: power },
    ],
  };
}
