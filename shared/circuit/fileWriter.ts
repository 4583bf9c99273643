import { type Frequency, type Sinusoid, type SourceValue, unreachable, writeExact } from "../quantity";
import type { Wanted } from "./circuit";
import type { CircuitFile, Drawing, Placement } from "./circuitFile";
import type { ElementEntry } from "./fileElementSchema";
import { standingGroups } from "./fileGroups";
import { type CircuitFileEntry, FILE_FORMAT, FILE_VERSION } from "./fileSchema";
import type { WantedEntry } from "./fileWantedSchema";
import { type CurrentControl, type NodeId, type Part, type PartId, terminalsOf, type VoltageControl } from "./part";

/**
 * The JSON value of a circuit file. `readCircuitFile` reads the same file back from it, with every value exact, from
 * 10⁻³⁰ to 10³⁰; sinusoids are written by `amplitude`, `phase` and `omega` or `frequency`, as cosines. What points at
 * nothing, a reference node or a wanted quantity without the parts or the two nodes it names, is left out, and so is a
 * group that does not stand.
 */
export function writeCircuitFile(file: CircuitFile): CircuitFileEntry {
  const { title, statement, circuit, drawing } = file;
  const placements = new Map((drawing?.placements ?? []).map((placement) => [placement.part, placement]));
  const parts = new Map(circuit.parts.map((part) => [part.id, part]));
  const groups = standingGroups(file.groups, circuit);
  const nodes = new Set(circuit.parts.flatMap((part) => terminalsOf(part).map((terminal) => terminal.node)));
  return {
    format: FILE_FORMAT,
    version: FILE_VERSION,
    ...(title === null ? {} : { title }),
    ...(statement === null ? {} : { statement }),
    elements: circuit.parts.map((part) => elementOf(part, placements.get(part.id))),
    reference: circuit.reference !== null && nodes.has(circuit.reference) ? circuit.reference : null,
    wanted: wantedList(file, parts, nodes),
    ...(groups.length === 0 ? {} : { groups: groups.map((sources) => ({ sources: [...sources] })) }),
    ...(drawing === null ? {} : { drawing: drawingOf(drawing) }),
  };
}

function wantedList(
  { circuit, unanswerable }: CircuitFile,
  parts: ReadonlyMap<PartId, Part>,
  nodes: ReadonlySet<NodeId>,
): WantedEntry[] {
  const entries = circuit.wanted
    .filter((wanted) => pointsAtSomething(wanted, parts, nodes))
    .map((wanted) => wantedOf(wanted, parts));
  // Ascending places, so that each insertion leaves the later places as the file had them.
  for (const { index, asked } of unanswerable) entries.splice(index, 0, asked);
  return entries;
}

function pointsAtSomething(wanted: Wanted, parts: ReadonlyMap<PartId, Part>, nodes: ReadonlySet<NodeId>): boolean {
  if (wanted.kind === "current") return parts.has(wanted.through);
  if (wanted.kind === "power") return parts.has(wanted.of);
  return nodes.has(wanted.from) && nodes.has(wanted.to) && wanted.from !== wanted.to;
}

function drawingOf({ wires, reference }: Drawing) {
  return { wires: wires.map((wire) => wire.map(([x, y]): [number, number] => [x, y])), reference: copied(reference) };
}

function copied(point: readonly [number, number] | null): [number, number] | null {
  return point === null ? null : [point[0], point[1]];
}

function elementOf(part: Part, placement: Placement | undefined): ElementEntry {
  switch (part.kind) {
    case "resistor":
      return { ...lineElement(part, placement), kind: part.kind, value: writeExact(part.resistance, "Ω") };
    case "capacitor":
      return { ...lineElement(part, placement), kind: part.kind, value: writeExact(part.capacitance, "F") };
    case "inductor":
      return { ...lineElement(part, placement), kind: part.kind, value: writeExact(part.inductance, "H") };
    case "voltage-source":
      return { ...lineElement(part, placement), kind: part.kind, ...sourceValueOf(part.voltage, "V") };
    case "current-source":
      return { ...lineElement(part, placement), kind: part.kind, ...sourceValueOf(part.current, "A") };
    case "vcvs":
      return {
        ...lineElement(part, placement),
        kind: part.kind,
        ...voltageControlled(part.control),
        gain: writeExact(part.gain, "1"),
      };
    case "vccs":
      return {
        ...lineElement(part, placement),
        kind: part.kind,
        ...voltageControlled(part.control),
        gain: writeExact(part.gain, "S"),
      };
    case "ccvs":
      return {
        ...lineElement(part, placement),
        kind: part.kind,
        ...currentControlled(part.control),
        gain: writeExact(part.gain, "Ω"),
      };
    case "cccs":
      return {
        ...lineElement(part, placement),
        kind: part.kind,
        ...currentControlled(part.control),
        gain: writeExact(part.gain, "1"),
      };
    case "ideal-opamp":
      return { kind: part.kind, id: part.id, nodes: [part.inPlus, part.inMinus, part.out], ...pose(placement) };
    case "ideal-transformer":
      return {
        kind: part.kind,
        id: part.id,
        nodes: [part.primary.plus, part.primary.minus, part.secondary.plus, part.secondary.minus],
        ratio: writeExact(part.ratio, "1"),
        ...pose(placement),
      };
    case "switch":
      return { ...lineElement(part, placement), kind: part.kind, state: part.state };
    case "wire":
      return { ...lineElement(part, placement), kind: part.kind };
    default:
      return unreachable(part);
  }
}

type TwoTerminalPart = Exclude<Part, { kind: "ideal-opamp" | "ideal-transformer" }>;

function lineElement(part: TwoTerminalPart, placement: Placement | undefined) {
  const nodes: [string, string] = [part.plus, part.minus];
  if (placement?.shape !== "line") return { id: part.id, nodes };
  const { from, to } = placement;
  return { id: part.id, nodes, drawn: { from: [from[0], from[1]], to: [to[0], to[1]] } satisfies LineDrawn };
}

type LineDrawn = { from: [number, number]; to: [number, number] };

function pose(placement: Placement | undefined) {
  if (placement?.shape !== "body") return {};
  const { at, turn, flip } = placement;
  return { drawn: { at: [at[0], at[1]] satisfies [number, number], turn, flip } };
}

function sourceValueOf<U extends "V" | "A">(value: SourceValue<U>, unit: U) {
  return value.kind === "dc" ? { value: writeExact(value.value, unit) } : sinusoidOf(value, unit);
}

function sinusoidOf<U extends "V" | "A">({ amplitude, phase, frequency, measure }: Sinusoid<U>, unit: U) {
  return { amplitude: writeExact(amplitude, unit), phase: writeExact(phase, "°"), ...frequencyOf(frequency), measure };
}

function frequencyOf(frequency: Frequency) {
  const text = writeExact(frequency.value, frequency.unit);
  return frequency.unit === "Hz" ? { frequency: text } : { omega: text };
}

function voltageControlled({ plus, minus }: VoltageControl): { control: { voltage: [string, string] } } {
  return { control: { voltage: [plus, minus] } };
}

function currentControlled({ part, direction }: CurrentControl) {
  return { control: { current: part, ...(direction === "forward" ? {} : { direction }) } };
}

function wantedOf(wanted: Wanted, parts: ReadonlyMap<PartId, Part>): WantedEntry {
  const name = wanted.name === null ? {} : { name: wanted.name };
  switch (wanted.kind) {
    case "current":
      return { ...name, quantity: wanted.kind, through: wanted.through, ...wayOf(wanted, parts.get(wanted.through)) };
    case "voltage":
      return { ...name, quantity: wanted.kind, from: wanted.from, to: wanted.to };
    case "power":
      return { ...name, quantity: wanted.kind, through: wanted.of };
    default:
      return { ...name, quantity: wanted.kind, from: wanted.from, to: wanted.to };
  }
}

/** By the nodes where they tell the way, since that is how people say it; by `direction` where both ends are one node. */
function wayOf({ winding, direction }: Extract<Wanted, { kind: "current" }>, part: Part | undefined) {
  if (part === undefined) throw new RangeError("a current is written through a part that is there");
  const [enters, leaves] = endsOf(part, winding);
  const [from, to] = direction === "forward" ? [enters, leaves] : [leaves, enters];
  const way = enters === leaves ? { direction } : { from, to };
  return part.kind === "ideal-transformer" ? { ...way, winding } : way;
}

/** The names a file gives to the ends of a part where its current, counted forward, enters and leaves. */
function endsOf(part: Part, winding: "primary" | "secondary"): readonly [string, string] {
  if (part.kind === "ideal-opamp") return [part.out, part.id];
  const nodes = terminalsOf(part).map((terminal) => terminal.node);
  const [enters, leaves] = winding === "primary" ? nodes : nodes.slice(2);
  if (enters === undefined || leaves === undefined) throw new RangeError(`${part.id} has no ${winding} winding`);
  return [enters, leaves];
}
