import type { Circuit, CurrentControl, NodeId, Part, PartId, VoltageControl, Wanted } from "../circuit";
import { nodeId, partId } from "../circuit/part";
import { unreachable } from "../quantity";
import type { Across, Board, BoardPart, BoardWanted, BoardWire, DependentPart, EntryId } from "./board";
import { groupsOfCircuit } from "./groups";
import { isOnWire } from "./joins";
import { type BoardNodes, findNodes } from "./nodes";
import { type Point, samePoint } from "./point";
import type { BoardProblem } from "./problem";
import { readPartValue } from "./readPartValue";
import { terminalPoints } from "./terminals";
import { partOfWanted } from "./wanted";

/** A board read as a circuit. */
export type BoardCircuit = {
  readonly circuit: Circuit;
  /** Of the board and of this reading. A part named in one of them is left out of the circuit, the rest is given. */
  readonly problems: readonly BoardProblem[];
  /** The node at a grid point, also where a wire only passes; null in the open. */
  readonly nodeAt: (point: Point) => NodeId | null;
  /** Entry of each part of the circuit, by the part's name. */
  readonly entryOf: ReadonlyMap<string, EntryId>;
  /** Entry of each of the circuit's wanted quantities, in their order. */
  readonly wantedEntries: readonly EntryId[];
  /** Sets of sources that somebody wants to see acting together, by the parts' names. */
  readonly groups: readonly (readonly PartId[])[];
};

/**
 * The circuit that a board draws, with the board's own order and names of parts. A drawn wire joins its ends into one
 * node, unless somebody wants its current or a source follows it: then it is a part, from its first point to its last.
 */
export function circuitOf(board: Board): BoardCircuit {
  const problems: BoardProblem[] = [...board.problems];
  const branchWires = wiresThatAreParts(board, problems);
  const nodes = findNodes(board, branchWires);
  problems.push(...nodes.problems);
  const branches: ReadonlyMap<EntryId, BoardPart | BoardWire> = new Map(
    [...board.parts, ...board.wires].map((entry) => [entry.id, entry]),
  );
  const reading = { nodes, branches, problems };
  const parts = [
    ...board.parts.flatMap((part) => circuitPart(part, reading) ?? []),
    ...branchWires.map((wire) => wirePart(wire, reading)),
  ];
  const given = new Set<string>(parts.map((part) => part.id));
  // What a left-out part carries has no answer, and the part's own problem already says why.
  const isAnswerable = (wanted: Wanted) => !("through" in wanted || "of" in wanted) || given.has(partAsked(wanted));
  const wanted = board.wanted.flatMap((entry) => {
    const asked = circuitWanted(entry, reading);
    return asked && isAnswerable(asked) ? [{ entry: entry.id, asked }] : [];
  });
  return {
    circuit: { parts, reference: nodes.reference, wanted: wanted.map(({ asked }) => asked) },
    problems,
    nodeAt: nodes.nodeAt,
    entryOf: new Map([...branches.values()].map((entry) => [entry.name, entry.id])),
    wantedEntries: wanted.map(({ entry }) => entry),
    groups: groupsOfCircuit(board, given),
  };
}

function partAsked(wanted: Extract<Wanted, { readonly through: PartId } | { readonly of: PartId }>): PartId {
  return "through" in wanted ? wanted.through : wanted.of;
}

type ReadingOfBoard = {
  readonly nodes: BoardNodes;
  readonly branches: ReadonlyMap<EntryId, BoardPart | BoardWire>;
  readonly problems: BoardProblem[];
};

function wiresThatAreParts(board: Board, problems: BoardProblem[]): readonly BoardWire[] {
  const followed = board.parts.map((part) =>
    "control" in part && part.control?.by === "part" ? part.control.part : null,
  );
  const asked = new Set([...board.wanted.map(partOfWanted), ...followed]);
  const candidates = board.wires.filter((wire) => asked.has(wire.id));
  const others = (wire: BoardWire) => [
    ...board.parts.flatMap(terminalPoints),
    ...board.wires.flatMap((other) => (other === wire ? [] : [other.points[0], other.points.at(-1) as Point])),
  ];
  return candidates.filter((wire) => {
    const ends = [wire.points[0], wire.points.at(-1) as Point];
    const isInside = (p: Point) => isOnWire(p, wire.points) && !ends.some((end) => samePoint(end, p));
    if (!others(wire).some(isInside)) return true;
    problems.push({ code: "joinInsideWire", entry: wire.id, name: wire.name });
    return false;
  });
}

function wirePart(wire: BoardWire, { nodes }: ReadingOfBoard): Part {
  const [plus, minus] = [wire.points[0], wire.points.at(-1) as Point].map((end) => terminalNode(end, nodes));
  return { kind: "wire", id: partId(wire.name), plus: plus as NodeId, minus: minus as NodeId };
}

/** The node at a terminal. Every terminal is a join point, so it has one. */
function terminalNode(point: Point, nodes: BoardNodes): NodeId {
  return nodes.nodeAt(point) ?? nodeId("");
}

/** The part as the circuit has it, null where its value or control is missing or cannot be read. */
function circuitPart(part: BoardPart, reading: ReadingOfBoard): Part | null {
  const id = partId(part.name);
  const at = terminalPoints(part).map((point) => terminalNode(point, reading.nodes)) as NodeId[];
  const [first, second, third, fourth] = at as [NodeId, NodeId, NodeId, NodeId];
  const ends = { id, plus: first, minus: second };
  switch (part.kind) {
    case "resistor":
      return withValue(readPartValue(part), reading, (resistance) => ({ kind: part.kind, ...ends, resistance }));
    case "capacitor":
      return withValue(readPartValue(part), reading, (capacitance) => ({ kind: part.kind, ...ends, capacitance }));
    case "inductor":
      return withValue(readPartValue(part), reading, (inductance) => ({ kind: part.kind, ...ends, inductance }));
    case "voltage-source":
      return withValue(readPartValue(part), reading, (voltage) => ({ kind: part.kind, ...ends, voltage }));
    case "current-source":
      return withValue(readPartValue(part), reading, (current) => ({ kind: part.kind, ...ends, current }));
    case "vcvs":
    case "vccs":
    case "ccvs":
    case "cccs":
      return dependentSource(part, ends, reading);
    case "ideal-opamp":
      return { kind: part.kind, id, inPlus: first, inMinus: second, out: third };
    case "ideal-transformer":
      return withValue(readPartValue(part), reading, (ratio) => ({
        kind: part.kind,
        id,
        primary: { plus: first, minus: second },
        secondary: { plus: third, minus: fourth },
        ratio,
      }));
    case "switch":
      return { kind: part.kind, ...ends, state: part.state };
    default:
      return unreachable(part);
  }
}

function withValue<V>(
  value: { readonly ok: true; readonly value: V } | { readonly ok: false; readonly problem: BoardProblem },
  { problems }: ReadingOfBoard,
  make: (value: V) => Part,
): Part | null {
  if (value.ok) return make(value.value);
  problems.push(value.problem);
  return null;
}

type Ends = { readonly id: PartId; readonly plus: NodeId; readonly minus: NodeId };

function dependentSource(part: DependentPart, ends: Ends, reading: ReadingOfBoard): Part | null {
  switch (part.kind) {
    case "vcvs": {
      const control = controlVoltage(part, reading);
      return (
        control && withValue(readPartValue(part), reading, (gain) => ({ kind: part.kind, ...ends, control, gain }))
      );
    }
    case "vccs": {
      const control = controlVoltage(part, reading);
      return (
        control && withValue(readPartValue(part), reading, (gain) => ({ kind: part.kind, ...ends, control, gain }))
      );
    }
    case "ccvs": {
      const control = controlCurrent(part, reading);
      return (
        control && withValue(readPartValue(part), reading, (gain) => ({ kind: part.kind, ...ends, control, gain }))
      );
    }
    case "cccs": {
      const control = controlCurrent(part, reading);
      return (
        control && withValue(readPartValue(part), reading, (gain) => ({ kind: part.kind, ...ends, control, gain }))
      );
    }
    default:
      return unreachable(part);
  }
}

function controlVoltage(part: DependentPart, reading: ReadingOfBoard): VoltageControl | null {
  const control = part.control && voltageAcross(part.control, reading);
  return control ?? withoutControl(part, "voltage", reading);
}

function controlCurrent(part: DependentPart, reading: ReadingOfBoard): CurrentControl | null {
  const control = part.control && currentThrough(part.control, reading);
  return control ?? withoutControl(part, "current", reading);
}

function withoutControl(part: DependentPart, follows: string, { problems }: ReadingOfBoard): null {
  problems.push({ code: "missingControl", entry: part.id, name: part.name, follows });
  return null;
}

/** The two nodes between the places, null where one of them is off the circuit or the part has no two ends. */
function voltageAcross(across: Across, { nodes, branches }: ReadingOfBoard): VoltageControl | null {
  const [from, to] = across.by === "points" ? [across.from, across.to] : endsOfBranch(branches.get(across.part));
  const [plus, minus] = [from && nodes.nodeAt(from), to && nodes.nodeAt(to)];
  if (!plus || !minus) return null;
  const isBackward = across.by === "part" && across.direction === "backward";
  return isBackward ? { plus: minus, minus: plus } : { plus, minus };
}

function endsOfBranch(branch: BoardPart | BoardWire | undefined): readonly (Point | undefined)[] {
  if (!branch) return [];
  if ("points" in branch) return [branch.points[0], branch.points.at(-1)];
  return branch.shape === "line" ? [branch.from, branch.to] : [];
}

function currentThrough(across: Across, { branches }: ReadingOfBoard): CurrentControl | null {
  const branch = across.by === "part" ? branches.get(across.part) : undefined;
  if (across.by !== "part" || !branch) return null;
  return { part: partId(branch.name), direction: across.direction };
}

function circuitWanted(entry: BoardWanted, reading: ReadingOfBoard): Wanted | null {
  const { name } = entry;
  if (entry.kind === "current" || entry.kind === "power") {
    const part = partId(reading.branches.get(entry.part)?.name ?? "");
    if (entry.kind === "power") return { name, kind: "power", of: part };
    return { name, kind: "current", through: part, winding: entry.winding, direction: entry.direction };
  }
  const between = voltageAcross(entry.across, reading);
  if (between) return { name, kind: entry.kind, from: between.plus, to: between.minus };
  reading.problems.push({ code: "wantedOffCircuit", entry: entry.id, name: name ?? "A wanted quantity" });
  return null;
}
