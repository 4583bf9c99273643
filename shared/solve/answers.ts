import type { Circuit, Problem, Wanted } from "../circuit";
import { unreachable } from "../circuit";
import { wantedName } from "../circuit/check";
import type { UnitSymbol } from "../quantity";
import { type Amount, powerOf } from "./amount";
import { portAnswer } from "./ports";
import type { Solution } from "./solve";
import { type Addend, type Grouping, superposed, undeterminedParts } from "./superposition";

export type Answer = {
  readonly wanted: Wanted;
  readonly name: string;
  readonly unit: UnitSymbol;
  readonly total: Amount | null;
  readonly addends: readonly Addend[];
  /** Named numbers that make up an equivalent or a matched load. */
  readonly components: readonly { readonly name: string; readonly unit: UnitSymbol; readonly amount: Amount }[];
  readonly problems: readonly Problem[];
};

/** Every independent source alone. */
export function eachAlone(circuit: Circuit): Grouping {
  return circuit.parts.flatMap((part) =>
    part.kind === "voltage-source" || part.kind === "current-source" ? [[part.id]] : [],
  );
}

/**
 * The answer to one wanted quantity of a solved circuit. Without a solution there is no total and there are no addends.
 * Problems: wantedUndetermined, noEquivalent.
 */
export function answerOf(solution: Solution, wanted: Wanted, grouping: Grouping): Answer {
  const name = wantedName(wanted);
  const none = { wanted, name, unit: unitOf(wanted), total: null, addends: [], components: [], problems: [] };
  if (!solution.isSolved || !isKnown(solution, wanted)) return none;
  switch (wanted.kind) {
    case "current":
    case "voltage": {
      const undetermined = undeterminedParts(solution, wanted);
      if (undetermined !== null) {
        return { ...none, problems: [{ code: "wantedUndetermined", wanted: name, parts: undetermined }] };
      }
      return { ...none, ...superposed(solution, wanted, grouping) };
    }
    case "power":
      return { ...none, total: powerOf(solution, wanted.of, (set) => set.total) };
    default:
      return { ...none, ...portAnswer(solution, wanted, grouping) };
  }
}

/** The SI unit that a wanted quantity is counted in. */
export function unitOf(wanted: Wanted): UnitSymbol {
  switch (wanted.kind) {
    case "current":
    case "short-circuit-current":
    case "norton":
      return "A";
    case "voltage":
    case "open-circuit-voltage":
    case "thevenin":
      return "V";
    case "power":
      return "W";
    case "resistance":
    case "impedance":
    case "maximum-power-load":
      return "Ω";
    default:
      return unreachable(wanted);
  }
}

/** Parts and nodes that aren't there were reported by the circuit check. */
function isKnown({ circuit, dc, sinusoids }: Solution, wanted: Wanted): boolean {
  if (wanted.kind === "current") return circuit.parts.some((part) => part.id === wanted.through);
  if (wanted.kind === "power") return circuit.parts.some((part) => part.id === wanted.of);
  const nodes = (dc ?? sinusoids[0])?.network.nodes ?? [];
  return nodes.includes(wanted.from) && nodes.includes(wanted.to);
}
