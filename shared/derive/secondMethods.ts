import type { Circuit, Part, PartId } from "../circuit";
import { type Solution, type SolvedSet, solveCircuit } from "../solve";
import { branchIndex, type Linear, nodeIndex } from "../solve/superposition";
import { actingOn, branchOf } from "./acting";
import { type Derived, derivedOf, guarded, joinedDerived, soleLine } from "./derived";
import { equivalentLines } from "./equivalent";
import { known, over, plus, times } from "./expression";
import { expectedOf } from "./lastHop";
import { type Budget, OMITTED } from "./limit";
import type { Derivation, Fault } from "./line";
import type { NoMeshes } from "./meshEquations";
import type { Name } from "./names";
import { Notebook } from "./notebook";
import type { Numerals } from "./numerals";
import { impedanceOf } from "./quantities";
import { byBestRoute, byMeshes, byNodes, type Task } from "./route";
import { onSets } from "./sets";
import type { Setting, Subject } from "./subject";

/** Another complete way to a total. Where it does not apply, `reason` says why and there are no lines. */
export type SecondMethod = {
  readonly method: "nodal analysis" | "mesh analysis" | "Thévenin equivalent";
  readonly reason: string | null;
  readonly derivation: Derivation | null;
  /** Whether it comes to the same as the sum of the addends; null where it does not apply. */
  readonly agrees: boolean | null;
};

const FAILED = "It could not be written out.";
const TOO_LARGE = "The circuit is too large for this to be written out.";

function spendOrSay(budget: Budget, derive: () => Derived | string): Derived | string {
  let reason: string | null = null;
  const derived = budget.spend(() =>
    guarded("second method", () => {
      const found = derive();
      if (typeof found !== "string") return found;
      reason = found;
      return OMITTED;
    }),
  );
  return reason ?? derived;
}

/** All second methods for one subject, each with all sources on. */
export function secondMethodsFor(
  setting: Setting,
  subject: Subject,
): { readonly methods: readonly SecondMethod[]; readonly faults: readonly Fault[] } {
  const faults: Fault[] = [];
  const method = (name: SecondMethod["method"], derive: () => Derived | string): SecondMethod => {
    const derived = spendOrSay(setting.budget, derive);
    if (typeof derived === "string") return { method: name, reason: derived, derivation: null, agrees: null };
    faults.push(...derived.faults);
    if (derived.derivation.omitted !== null)
      return {
        method: name,
        reason: derived.derivation.omitted === "failed" ? FAILED : TOO_LARGE,
        derivation: null,
        agrees: null,
      };
    return { method: name, reason: null, derivation: derived.derivation, agrees: derived.faults.length === 0 };
  };
  const methods = [
    method("nodal analysis", () => inAllSets(setting, subject, byNodes)),
    method("mesh analysis", () => inAllSets(setting, subject, (task) => meshes(byMeshes(task)))),
    method("Thévenin equivalent", () => byThevenin(setting, subject)),
  ];
  return { methods, faults };
}

function meshes(derived: Derived | NoMeshes): Derived | string {
  switch (derived) {
    case "not planar":
      return "The circuit cannot be drawn without crossings, so it has no meshes.";
    case "op amp":
      return "Mesh analysis is not used here: the current of an op amp's output follows no mesh.";
    case "transformer":
      return "Mesh analysis is not used here: a transformer couples its two sides.";
    case "no meshes":
      return "Some branch lies on no closed path, so the meshes do not say all.";
    case "loop of one":
      return "A voltage with both ends at one node makes a loop by itself, and no mesh gives its current.";
    case "no way":
      return "A voltage that is asked for stands across current sources only, so mesh currents do not give it.";
    default:
      return derived;
  }
}

function inAllSets(
  { digits }: Setting,
  { solution, linear, name }: Subject,
  derive: <T>(task: Task<T>) => Derived | string,
): Derived | string {
  const { circuit } = solution;
  const all = onSets(solution, null, digits, (set, numerals) =>
    derive({ circuit, set, numerals, sources: null, linear, name }),
  );
  const reason = all.find((each) => typeof each === "string");
  return reason ?? joinedDerived(all.filter((each) => typeof each !== "string"));
}

/** The part between whose terminals the rest of the circuit is seen: a resistance, inductance or capacitance. */
function loadOf({ solution, linear }: Subject): Exclude<Part, { kind: "ideal-opamp" | "ideal-transformer" }> | null {
  const isLoad = (part: Part): boolean =>
    part.kind === "resistor" ? part.resistance.n !== 0n : part.kind === "capacitor" || part.kind === "inductor";
  const found = solution.circuit.parts.find((part) => {
    if (!isLoad(part) || !("plus" in part)) return false;
    if (linear.kind === "current") return part.id === linear.through;
    const ends = [part.plus, part.minus];
    return ends.includes(linear.from) && ends.includes(linear.to) && linear.from !== linear.to;
  });
  return found === undefined || found.kind === "ideal-opamp" || found.kind === "ideal-transformer" ? null : found;
}

function isFollowed({ parts }: Circuit, id: PartId): boolean {
  return parts.some((part) => (part.kind === "ccvs" || part.kind === "cccs") && part.control.part === id);
}

function byThevenin(setting: Setting, subject: Subject): Derived | string {
  const { solution, linear } = subject;
  const { circuit } = solution;
  const load = loadOf(subject);
  if (load === null) return "No single resistance stands where the quantity is wanted.";
  if (isFollowed(circuit, load.id))
    return `A dependent source follows the current in ${load.id}, so it cannot be taken out.`;
  const port = { from: load.plus, to: load.minus };
  const parts = circuit.parts.filter(({ id }) => id !== load.id);
  const without = solveCircuit({ ...circuit, parts, reference: solution.reference, wanted: [] }, [port]);
  const isSeen = without.isSolved && seesPort(without, port);
  if (!isSeen) return `Without ${load.id} the voltage between its terminals is not determined.`;
  const voltage: Name = { text: "Vth", latex: "V_{\\mathrm{th}}" };
  const isPhasor = solution.sinusoids.length > 0;
  const letter = isPhasor ? "Z" : "R";
  const impedance: Name = { text: `${letter}th`, latex: `${letter}_{\\mathrm{th}}` };
  const removed = { ...setting, solution: without };
  const open: Linear = { kind: "voltage", ...port };
  const voltages = onSets(without, null, setting.digits, (set, numerals) =>
    byBestRoute({ circuit: without.circuit, set, numerals, sources: null, linear: open, name: voltage }),
  );
  const impedances = equivalentLines(removed, port, impedance);
  const finals = onSets(solution, null, setting.digits, (set, numerals) =>
    closing(subject, set, numerals, load.id, { voltage, impedance, without, port: open, linear }),
  );
  const isKnown = finals.length === voltages.length && finals.every((each) => each !== null);
  if (!isKnown) return `At one of the frequencies ${load.id} is a short or an open, so there is nothing to take out.`;
  const first = takenOut(load, voltage);
  return joinedDerived([
    first,
    ...finals.flatMap((last, i) => [voltages[i], impedances[i], last].flatMap((each) => each ?? [])),
  ]);
}

function takenOut(
  load: { readonly id: PartId; readonly plus: string; readonly minus: string },
  voltage: Name,
): Derived {
  return soleLine({
    rule: { kind: "take-out" },
    sentence: `Take ${load.id} out: ${voltage.text} is the voltage that is then from ${load.plus} to ${load.minus}.`,
    parts: [load.id],
    nodes: [load.plus, load.minus],
  });
}

function seesPort(without: Solution, port: { readonly from: string; readonly to: string }): boolean {
  return onSets(without, null, 4, ({ structure, network }) => {
    const [from, to] = [network.nodes.indexOf(port.from as never), network.nodes.indexOf(port.to as never)];
    return from >= 0 && to >= 0 && structure.sectionOf[from] === structure.sectionOf[to];
  }).every(Boolean);
}

type Seen = {
  readonly voltage: Name;
  readonly impedance: Name;
  readonly without: Solution;
  readonly port: Extract<Linear, { kind: "voltage" }>;
  readonly linear: Linear;
};

/** The load put back: current by Ohm's law, voltage by division. */
function closing<T>(
  { solution, name }: Subject,
  set: SolvedSet<T>,
  numerals: Numerals<T>,
  load: PartId,
  { voltage, impedance, without, port, linear }: Seen,
): Derived | null {
  const acting = actingOn(solution.circuit, set, null, numerals);
  const i = branchIndex(set.network, load, "primary");
  if (acting.laws[i]?.kind !== "admittance") return null;
  const seen = seenIn(without, set, port);
  if (seen === null) return null;
  const { arithmetic } = set;
  const own = impedanceOf(acting, i);
  const [vth, zth] = [known(voltage, seen.voltage, "V"), known(impedance, seen.impedance, "Ω")];
  const { plus: start } = branchOf(acting, i);
  const isForward =
    linear.kind === "current"
      ? linear.direction === "forward"
      : acting.joined(nodeIndex(set.network, linear.from)) === acting.joined(start);
  const sign = isForward ? 1 : -1;
  const total = plus(zth, own);
  if (arithmetic.isZero(arithmetic.add(seen.impedance, acting.laws[i].impedance))) return null;
  const right = linear.kind === "current" ? over(vth, total) : times(vth, over(own, total));
  const notebook = new Notebook(numerals, arithmetic, name.text);
  notebook.state(
    {
      rule: linear.kind === "current" ? { kind: "ohm" } : { kind: "voltage-division" },
      sentence: `Put ${load} back: it stands in series with ${impedance.text} across ${voltage.text}.`,
      parts: [load],
    },
    [
      {
        left: name,
        right: sign === 1 ? right : { kind: "sum", terms: [{ sign: -1, of: right }] },
        unit: linear.kind === "current" ? "A" : "V",
        expected: expectedOf(acting, linear),
      },
    ],
  );
  return derivedOf(notebook);
}

/** Voltage and impedance of the port in the set of the circuit without its load that has the same frequency. */
function seenIn<T>(
  without: Solution,
  set: SolvedSet<T>,
  port: Extract<Linear, { kind: "voltage" }>,
): { readonly voltage: T; readonly impedance: T } | null {
  const sets = [without.dc, ...without.sinusoids];
  const same = sets.find((each) => each !== null && each.stimulus.omega === set.stimulus.omega);
  // A set of the same frequency is one of the same numbers, unless the circuit has crossed the limit of exact solving.
  if (!same || same.arithmetic.isExact !== set.arithmetic.isExact) return null;
  const found = same as unknown as SolvedSet<T>;
  const { add, negate } = found.arithmetic;
  const [from, to] = [nodeIndex(found.network, port.from), nodeIndex(found.network, port.to)];
  const [response] = found.ofPorts;
  if (response === undefined) return null;
  return {
    voltage: add(found.total.nodeVoltage(from), negate(found.total.nodeVoltage(to))),
    impedance: add(response.nodeVoltage(from), negate(response.nodeVoltage(to))),
  };
}
