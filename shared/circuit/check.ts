import type { Rational } from "../quantity";
import { unreachable } from "../quantity";
import type { Circuit, Wanted } from "./circuit";
import { isDependentSource, type NodeId, type Part, type PartId, terminalsOf } from "./part";
import type { Problem } from "./problem";

/**
 * What can be said of a circuit without solving it, and the reference node to solve it with.
 * The reference is the circuit's own, or else node "0" where there is one, or else the node where most terminals meet
 * (the first of them by name), and then it is said. Null where there is no node at all.
 */
export function checkCircuit(circuit: Circuit): {
  readonly reference: NodeId | null;
  readonly problems: readonly Problem[];
} {
  const meeting = terminalsAtNodes(circuit);
  const reference = circuit.reference ?? chooseReference(meeting);
  if (reference === null || circuit.parts.length === 0) return { reference: null, problems: [{ code: "noParts" }] };
  const problems: Problem[] = circuit.reference === null ? [{ code: "noReference", chosen: reference }] : [];
  problems.push(
    ...missingControls(circuit, meeting),
    ...unknownWanted(circuit, meeting),
    ...looseEnds(circuit, meeting, reference),
    ...shortedParts(circuit),
    ...unusualValues(circuit),
  );
  return { reference, problems };
}

type Meeting = ReadonlyMap<NodeId, readonly PartId[]>;

/** The parts at each node, one mention a terminal. */
function terminalsAtNodes(circuit: Circuit): Meeting {
  const meeting = new Map<NodeId, PartId[]>();
  for (const part of circuit.parts) {
    for (const { node } of terminalsOf(part)) {
      const parts = meeting.get(node);
      if (parts) parts.push(part.id);
      else meeting.set(node, [part.id]);
    }
  }
  return meeting;
}

function chooseReference(meeting: Meeting): NodeId | null {
  if (meeting.has("0" as NodeId)) return "0" as NodeId;
  let chosen: NodeId | null = null;
  let most = 0;
  for (const [node, parts] of meeting) {
    if (parts.length > most || (parts.length === most && chosen !== null && node < chosen)) {
      [chosen, most] = [node, parts.length];
    }
  }
  return chosen;
}

function missingControls(circuit: Circuit, meeting: Meeting): Problem[] {
  const ids = new Set(circuit.parts.map((part) => part.id));
  return circuit.parts.filter(isDependentSource).flatMap((part): Problem[] => {
    if (part.kind === "ccvs" || part.kind === "cccs") {
      return ids.has(part.control.part) ? [] : [{ code: "controlMissing", part: part.id, control: part.control.part }];
    }
    const missing = [part.control.plus, part.control.minus].filter(
      (node) => !meeting.has(node) && node !== circuit.reference,
    );
    return missing.map((node) => ({ code: "controlMissing", part: part.id, control: `node ${node}` }));
  });
}

/** How a wanted quantity is called: its own name, or one made of what it is. */
export function wantedName(wanted: Wanted): string {
  if (wanted.name !== null) return wanted.name;
  switch (wanted.kind) {
    case "current":
      return `I(${wanted.through})`;
    case "power":
      return `P(${wanted.of})`;
    case "voltage":
      return `V(${wanted.from}, ${wanted.to})`;
    case "resistance":
      return `R(${wanted.from}, ${wanted.to})`;
    case "impedance":
      return `Z(${wanted.from}, ${wanted.to})`;
    case "open-circuit-voltage":
      return `Voc(${wanted.from}, ${wanted.to})`;
    case "short-circuit-current":
      return `Isc(${wanted.from}, ${wanted.to})`;
    case "thevenin":
      return `Thévenin(${wanted.from}, ${wanted.to})`;
    case "norton":
      return `Norton(${wanted.from}, ${wanted.to})`;
    case "maximum-power-load":
      return `RL(${wanted.from}, ${wanted.to})`;
    default:
      return unreachable(wanted);
  }
}

function unknownWanted(circuit: Circuit, meeting: Meeting): Problem[] {
  const ids = new Set(circuit.parts.map((part) => part.id));
  return circuit.wanted.flatMap((wanted): Problem[] => {
    if (wanted.kind === "current" || wanted.kind === "power") {
      const part = wanted.kind === "current" ? wanted.through : wanted.of;
      return ids.has(part) ? [] : [{ code: "wantedUnknownPart", wanted: wantedName(wanted), part }];
    }
    return [wanted.from, wanted.to]
      .filter((node) => !meeting.has(node) && node !== circuit.reference)
      .map((node) => ({ code: "wantedUnknownNode", wanted: wantedName(wanted), node }));
  });
}

/** Terminals that meet nothing, unless the node is the reference or somebody asks for what is seen there. */
function looseEnds(circuit: Circuit, meeting: Meeting, reference: NodeId): Problem[] {
  const asked = new Set<NodeId>([reference]);
  for (const wanted of circuit.wanted) {
    if (wanted.kind !== "current" && wanted.kind !== "power") asked.add(wanted.from).add(wanted.to);
  }
  for (const part of circuit.parts) {
    if (part.kind === "vcvs" || part.kind === "vccs") asked.add(part.control.plus).add(part.control.minus);
    // An output that nothing is joined to is how op amps are drawn before their load.
    if (part.kind === "ideal-opamp") asked.add(part.out);
  }
  return [...meeting].flatMap(([node, parts]): Problem[] =>
    parts.length === 1 && !asked.has(node) ? [{ code: "danglingTerminal", part: parts[0] as PartId, node }] : [],
  );
}

function shortedParts(circuit: Circuit): Problem[] {
  return circuit.parts.flatMap((part): Problem[] =>
    "plus" in part && part.plus === part.minus ? [{ code: "shortedPart", part: part.id, node: part.plus }] : [],
  );
}

/** The value that a part is described by; null for parts without one. */
function ownValue(part: Part): Rational | null {
  switch (part.kind) {
    case "resistor":
      return part.resistance;
    case "capacitor":
      return part.capacitance;
    case "inductor":
      return part.inductance;
    case "voltage-source":
      return part.voltage.kind === "dc" ? part.voltage.value : part.voltage.amplitude;
    case "current-source":
      return part.current.kind === "dc" ? part.current.value : part.current.amplitude;
    case "ideal-transformer":
      return part.ratio;
    // A gain is as often negative as not.
    case "vcvs":
    case "vccs":
    case "ccvs":
    case "cccs":
    case "ideal-opamp":
    case "switch":
    case "wire":
      return null;
    default:
      return unreachable(part);
  }
}

function unusualValues(circuit: Circuit): Problem[] {
  const having = (test: (part: Part) => boolean): PartId[] => circuit.parts.filter(test).map((part) => part.id);
  const zero = having((part) => part.kind === "resistor" && part.resistance.n === 0n);
  const negative = having((part) => (ownValue(part)?.n ?? 0n) < 0n);
  return [
    ...(zero.length > 0 ? [{ code: "zeroResistance", parts: zero } as const] : []),
    ...(negative.length > 0 ? [{ code: "negativeValue", parts: negative } as const] : []),
  ];
}
