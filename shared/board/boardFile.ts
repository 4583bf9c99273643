import type { Circuit, CircuitFile, Part, Placement, VoltageControl } from "../circuit";
import { terminalsOf } from "../circuit/part";
import { unreachable } from "../quantity";
import {
  type Across,
  type Board,
  type BoardPart,
  type BoardReference,
  type BoardWanted,
  type BoardWire,
  EMPTY_BOARD,
  type EntryId,
  entryId,
  type NodeName,
} from "./board";
import { circuitOf } from "./boardCircuit";
import { findNodes } from "./nodes";
import type { Point } from "./point";
import { terminalPoints } from "./terminals";
import { partValueText } from "./valueText";

/**
 * The board that a file draws, null where it does not say where every part stands. Ids follow the file's order, so the
 * same file gives the same entries: two people who open it at once do not draw it twice. Nodes keep the file's names,
 * by labels where the drawing alone would name them otherwise.
 */
export function boardFromFile(file: CircuitFile): Board | null {
  const { circuit, drawing } = file;
  const placements = new Map(drawing?.placements.map((placement) => [placement.part as string, placement]));
  if (!drawing || !circuit.parts.every((part) => placements.has(part.id))) return null;
  const ids = new Map(circuit.parts.map((part, i) => [part.id as string, fileId("part", i)]));
  const place = (part: Part) => placements.get(part.id) as Placement; // every part has one, as checked above
  const marks = new Marks(circuit, place, ids);
  const board: Board = {
    ...EMPTY_BOARD,
    title: file.title ?? "",
    statement: file.statement ?? "",
    parts: circuit.parts.flatMap((part) => boardPart(part, place(part), marks) ?? []),
    wires: [
      ...circuit.parts.flatMap((part) => wireOfPart(part, place(part), marks) ?? []),
      ...drawing.wires.map((points, i) => drawnWire(points, i)),
    ],
    references: drawing.reference ? [{ id: fileId("reference", 0), at: toPoint(drawing.reference) }] : [],
    wanted: circuit.wanted.flatMap((_, i) => boardWanted(circuit, i, marks) ?? []),
    groups: file.groups.map((sources, i) => ({ id: fileId("group", i), sources: sources.map((id) => marks.id(id)) })),
  };
  return withNodeNames(withReferences(board, circuit, marks), circuit, marks);
}

function fileId(what: string, index: number): EntryId {
  return entryId(`file-${what}-${String(index + 1).padStart(4, "0")}`);
}

const toPoint = ([x, y]: readonly [number, number]): Point => ({ x, y });

/** Where a file's parts and nodes are on the board. */
class Marks {
  /** The terminals of the drawing with the nodes that the file joins them to. */
  readonly terminals: readonly { readonly at: Point; readonly node: string }[];

  constructor(
    private readonly circuit: Circuit,
    place: (part: Part) => Placement,
    private readonly ids: ReadonlyMap<string, EntryId>,
  ) {
    this.terminals = circuit.parts.flatMap((part) => {
      const points = placementTerminals(part, place(part));
      return terminalsOf(part).flatMap(({ node }, i) => (points[i] ? [{ at: points[i], node }] : []));
    });
  }

  id(part: string): EntryId {
    return this.ids.get(part) ?? entryId(part);
  }

  /** Two nodes as a place on the board: the ends of a part that lies between them, else two terminals. */
  across({ plus, minus }: VoltageControl): Across | null {
    for (const part of this.circuit.parts) {
      if (!("plus" in part)) continue;
      if (part.plus === plus && part.minus === minus) return this.acrossPart(part, "forward");
      if (part.plus === minus && part.minus === plus) return this.acrossPart(part, "backward");
    }
    return this.between({ plus, minus });
  }

  /** Two nodes as two terminals of the drawing, null where the drawing shows none of a node. */
  between({ plus, minus }: VoltageControl): Across | null {
    const [from, to] = [plus, minus].map((node) => this.terminals.find((terminal) => terminal.node === node)?.at);
    return from && to ? { by: "points", from, to } : null;
  }

  private acrossPart(part: Part, direction: "forward" | "backward"): Across {
    return { by: "part", part: this.id(part.id), direction };
  }
}

function placementTerminals(part: Part, placement: Placement): readonly Point[] {
  if (placement.shape === "line") return [toPoint(placement.from), toPoint(placement.to)];
  if (part.kind !== "ideal-opamp" && part.kind !== "ideal-transformer") return [];
  const { turn, flip } = placement;
  return terminalPoints({ ...blockOf(part.kind), at: toPoint(placement.at), turn, flip });
}

const blockOf = (kind: "ideal-opamp" | "ideal-transformer") => ({
  id: entryId(""),
  name: "",
  shape: "block" as const,
  kind,
  value: "",
});

function boardPart(part: Part, placement: Placement, marks: Marks): BoardPart | null {
  const named = { id: marks.id(part.id), name: part.id };
  if (placement.shape === "body") {
    const block = { ...named, shape: "block" as const, at: toPoint(placement.at) };
    const { turn, flip } = placement;
    if (part.kind === "ideal-opamp") return { ...block, turn, flip, kind: part.kind };
    if (part.kind !== "ideal-transformer") return null;
    return { ...block, turn, flip, kind: part.kind, value: partValueText(part) };
  }
  const line = { ...named, shape: "line" as const, from: toPoint(placement.from), to: toPoint(placement.to) };
  switch (part.kind) {
    case "resistor":
    case "capacitor":
    case "inductor":
    case "voltage-source":
    case "current-source":
      return { ...line, kind: part.kind, value: partValueText(part) };
    case "vcvs":
    case "vccs":
      return { ...line, kind: part.kind, value: partValueText(part), control: marks.across(part.control) };
    case "ccvs":
    case "cccs": {
      const { part: followed, direction } = part.control;
      const control: Across = { by: "part", part: marks.id(followed), direction };
      return { ...line, kind: part.kind, value: partValueText(part), control };
    }
    case "switch":
      return { ...line, kind: part.kind, state: part.state };
    case "wire":
    case "ideal-opamp":
    case "ideal-transformer":
      return null;
    default:
      return unreachable(part);
  }
}

function wireOfPart(part: Part, placement: Placement, marks: Marks): BoardWire | null {
  if (part.kind !== "wire" || placement.shape !== "line") return null;
  return { id: marks.id(part.id), name: part.id, points: [toPoint(placement.from), toPoint(placement.to)] };
}

function drawnWire(points: readonly (readonly [number, number])[], index: number): BoardWire {
  const [first, second, ...rest] = points.map(toPoint);
  const id = fileId("wire", index);
  return { id, name: "", points: [first as Point, second as Point, ...rest] }; // the file's schema asks for two
}

function boardWanted(circuit: Circuit, index: number, marks: Marks): BoardWanted | null {
  const wanted = circuit.wanted[index];
  if (!wanted) return null;
  const named = { id: fileId("wanted", index), name: wanted.name };
  if (wanted.kind === "current") {
    const { kind, through, winding, direction } = wanted;
    return { ...named, kind, part: marks.id(through), winding, direction };
  }
  if (wanted.kind === "power") return { ...named, kind: wanted.kind, part: marks.id(wanted.of) };
  const nodes = { plus: wanted.from, minus: wanted.to };
  const across = wanted.kind === "voltage" ? marks.across(nodes) : marks.between(nodes);
  return across && { ...named, kind: wanted.kind, across };
}

/** Adds a reference symbol at each place where the file's reference node stands apart from the ones there are. */
function withReferences(board: Board, circuit: Circuit, marks: Marks): Board {
  const nodes = findNodes(board, partWires(board, circuit, marks));
  const apart = marks.terminals.find(
    ({ at, node }) => node === circuit.reference && (nodes.reference === null || nodes.nodeAt(at) !== nodes.reference),
  );
  if (!apart) return board;
  const symbol: BoardReference = { id: fileId("reference", board.references.length), at: apart.at };
  return withReferences({ ...board, references: [...board.references, symbol] }, circuit, marks);
}

function withNodeNames(board: Board, circuit: Circuit, marks: Marks): Board {
  const nodes = findNodes(board, partWires(board, circuit, marks));
  const { terminals } = marks;
  if (terminals.every(({ at, node }) => nodes.nodeAt(at) === node)) return board;
  const named = new Map<string, Point>();
  // The reference symbol names its node "0" by itself.
  const isNamed = (node: string) => node === "0" && circuit.reference === "0";
  for (const { at, node } of terminals) if (!named.has(node) && !isNamed(node)) named.set(node, at);
  const nodeNames = [...named].map(([name, at], i): NodeName => ({ id: fileId("node", i), at, name }));
  return { ...board, nodeNames };
}

function partWires(board: Board, circuit: Circuit, marks: Marks): readonly BoardWire[] {
  const ids = new Set(circuit.parts.filter((part) => part.kind === "wire").map((part) => marks.id(part.id)));
  return board.wires.filter((wire) => ids.has(wire.id));
}

/**
 * The file that says what a board says, with its drawing. Parts whose value cannot be read are not in it; look at the
 * problems of {@link circuitOf} before writing one.
 */
export function fileFromBoard(board: Board): CircuitFile {
  const { circuit, entryOf, groups } = circuitOf(board);
  const wireParts = new Set(circuit.parts.filter((part) => part.kind === "wire").map((part) => entryOf.get(part.id)));
  const placed = new Map([...board.parts, ...board.wires].map((entry) => [entry.id, entry]));
  const placements = circuit.parts.flatMap((part) => {
    const entry = placed.get(entryOf.get(part.id) ?? entryId(""));
    return entry ? [placementOf(part, entry)] : [];
  });
  const wires = board.wires.flatMap((wire) => {
    // A wire that is a part lies along its first piece; the rest of its line stays plain wire.
    const points = wireParts.has(wire.id) ? wire.points.slice(1) : wire.points;
    return points.length < 2 ? [] : [points.map(toPair)];
  });
  const reference = board.references[0] ? toPair(board.references[0].at) : null;
  return {
    title: board.title || null,
    statement: board.statement || null,
    circuit,
    drawing: { placements, wires, reference },
    unanswerable: [],
    groups,
  };
}

const toPair = ({ x, y }: Point) => [x, y] as const;

function placementOf(part: Part, entry: BoardPart | BoardWire): Placement {
  if ("points" in entry) {
    return { part: part.id, shape: "line", from: toPair(entry.points[0]), to: toPair(entry.points[1]) };
  }
  if (entry.shape === "line") {
    return { part: part.id, shape: "line", from: toPair(entry.from), to: toPair(entry.to) };
  }
  return { part: part.id, shape: "body", at: toPair(entry.at), turn: entry.turn, flip: entry.flip };
}
