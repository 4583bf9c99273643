import type { PartId, Wanted } from "../circuit";
import { unreachable } from "../circuit";
import { wantedName } from "../circuit/check";
import { type Grouping, type Solution, solveCircuit } from "../solve";
import { shortedCircuit } from "../solve/ports";
import type { Linear } from "../solve/superposition";
import type { Budget } from "./limit";
import { addendName, currentName, type Name, quantityName, voltageName } from "./names";

/** Everything that the workings of one circuit share. */
export type Setting = {
  readonly solution: Solution;
  readonly grouping: Grouping;
  readonly digits: number;
  readonly budget: Budget;
};

/** A voltage or current whose addends are worked one by one, and the circuit that it is found in. */
export type Subject = { readonly solution: Solution; readonly linear: Linear; readonly name: Name };

/** An addend carries a prime each; where there is only one, it is the quantity itself. */
export function nameOfAddend({ grouping }: Setting, name: Name, index: number): Name {
  return grouping.length === 1 ? name : addendName(name, index);
}

/** What has to be found, addend by addend, before the wanted quantity can be written. */
export function subjectsOf(solution: Solution, wanted: Wanted): readonly Subject[] {
  const name = quantityName(wantedName(wanted));
  switch (wanted.kind) {
    case "current":
    case "voltage":
      return [{ solution, linear: wanted, name }];
    case "open-circuit-voltage":
      return [{ solution, linear: { ...wanted, kind: "voltage" }, name }];
    case "thevenin":
    case "maximum-power-load":
      return [{ solution, linear: { ...wanted, kind: "voltage" }, name: { text: "Vth", latex: "V_{\\mathrm{th}}" } }];
    case "short-circuit-current":
    case "norton": {
      const { shorted, current } = shortedCircuit(solution.circuit, wanted);
      const own = wanted.kind === "norton" ? { text: "In", latex: "I_{\\mathrm{n}}" } : name;
      return [{ solution: solveCircuit(shorted), linear: current, name: own }];
    }
    case "power":
      return powerSubjects(solution, wanted.of);
    case "resistance":
    case "impedance":
      return [];
    default:
      return unreachable(wanted);
  }
}

/** What a power is the product of: the current of a resistance, what a source leaves open, both of anything else. */
function powerSubjects(solution: Solution, id: PartId): readonly Subject[] {
  const part = solution.circuit.parts.find((each) => each.id === id);
  if (part === undefined || part.kind === "ideal-transformer") return [];
  const through: Subject = {
    solution,
    linear: { kind: "current", through: id, winding: "primary", direction: "forward" },
    name: currentName(id),
  };
  const reference = solution.reference;
  const from = part.kind === "ideal-opamp" ? part.out : part.plus;
  const to = part.kind === "ideal-opamp" ? (reference ?? part.out) : part.minus;
  const across: Subject = {
    solution,
    linear: { kind: "voltage", from, to },
    name: voltageName(from, to === reference ? null : to),
  };
  switch (part.kind) {
    case "resistor":
      return part.resistance.n === 0n ? [] : [through];
    case "voltage-source":
      return [through];
    case "current-source":
      return [across];
    case "capacitor":
    case "inductor":
    case "switch":
    case "wire":
      return [];
    case "vcvs":
    case "vccs":
    case "ccvs":
    case "cccs":
    case "ideal-opamp":
      return [across, through];
    default:
      return unreachable(part);
  }
}
