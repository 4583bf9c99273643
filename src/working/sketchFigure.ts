import { type Board, type BoardCircuit, type BoardPart, circuitOf } from "../../shared/board";
import { type Circuit, type Drawing, type NodeId, nodeId, type Part, partId } from "../../shared/circuit";
import type { Sketch, SketchElement } from "../../shared/derive";
import { ONE, quantity, unreachable } from "../../shared/quantity";
import { buildFigure, type Figure, laidOutBoard, type SymbolSet } from "../figure";

export type SketchView = {
  /** The whole circuit, of which the sketch is what is left. */
  readonly circuit: Circuit;
  /** How the board draws it, for the sketch to look like it; null where nothing is known of that. */
  readonly like: Drawing | null;
  readonly accents: ReadonlyMap<string, number>;
  readonly symbols: SymbolSet;
};

/** A circuit on the way of a working as a drawing of its own, with the values that the lines give. Null for an empty one. */
export function sketchFigure(sketch: Sketch, { circuit, like, accents, symbols }: SketchView): Figure | null {
  const left = sketchedCircuit(sketch, circuit);
  const bare = laidOutBoard(left, { like });
  const board = bare && withValues(bare, sketch);
  if (board === null) return null;
  const { nodeAt }: BoardCircuit = circuitOf(board);
  return buildFigure(board, {
    acting: null,
    accents,
    primes: [],
    wantedNames: new Map(),
    focus: null,
    hasLabels: true,
    nodeAt,
    symbols,
    voltages: null,
    currents: null,
  });
}

/** The sketch as a circuit. What stands for several parts becomes a resistor or a source, whose value is written by the sketch. */
export function sketchedCircuit({ elements }: Sketch, whole: Circuit): Circuit {
  const known = new Map(whole.parts.map((part) => [part.id as string, part]));
  const renamed = joinedNodes(elements, known);
  // A transformer is two elements of one name, and is drawn once.
  const each = elements.filter(({ id }, i) => elements.findIndex((other) => other.id === id) === i);
  const parts = each.flatMap((element) => sketchedPart(element, known.get(element.id), renamed) ?? []);
  const reference = whole.reference === null ? null : nodeId(renamed(whole.reference));
  const nodes = new Set(parts.flatMap((part) => ("plus" in part ? [part.plus, part.minus] : [])));
  return { parts, reference: reference !== null && nodes.has(reference) ? reference : null, wanted: [] };
}

/** How a sketch calls the nodes of the whole circuit: some of them are one in it. */
function joinedNodes(elements: readonly SketchElement[], known: ReadonlyMap<string, Part>): (node: string) => string {
  const names = new Map<string, string>();
  for (const { id, nodes } of elements) {
    const part = known.get(id);
    if (part === undefined || !("plus" in part)) continue;
    names.set(part.plus, nodes[0] ?? part.plus);
    names.set(part.minus, nodes[1] ?? part.minus);
  }
  return (node) => names.get(node) ?? node;
}

function sketchedPart(
  { id, kind, nodes }: SketchElement,
  original: Part | undefined,
  renamed: (node: string) => string,
): Part | null {
  const [plus, minus] = [nodeId(nodes[0] ?? ""), nodeId(nodes[1] ?? "")];
  const at = (node: string) => nodeId(renamed(node));
  if (original === undefined || (original.kind !== kind && !isBlock(original))) {
    return plus === minus ? null : madePart({ id: partId(id), plus, minus }, kind);
  }
  switch (original.kind) {
    case "ideal-opamp":
      return { ...original, inPlus: at(original.inPlus), inMinus: at(original.inMinus), out: at(original.out) };
    case "ideal-transformer": {
      const side = (of: { readonly plus: string; readonly minus: string }) => ({
        plus: at(of.plus),
        minus: at(of.minus),
      });
      return { ...original, primary: side(original.primary), secondary: side(original.secondary) };
    }
    case "vcvs":
    case "vccs": {
      const control = { plus: at(original.control.plus), minus: at(original.control.minus) };
      return plus === minus ? null : { ...original, plus, minus, control };
    }
    case "ccvs":
    case "cccs":
    case "resistor":
    case "capacitor":
    case "inductor":
    case "voltage-source":
    case "current-source":
    case "switch":
    case "wire":
      return plus === minus ? null : { ...original, plus, minus };
    default:
      return unreachable(original);
  }
}

function isBlock({ kind }: Part): boolean {
  return kind === "ideal-opamp" || kind === "ideal-transformer";
}

/** What lines have made of several parts, or of another one: its value is in the sketch, so that any will do here. */
function madePart(ends: Pick<Extract<Part, { plus: NodeId }>, "id" | "plus" | "minus">, kind: string): Part {
  switch (kind) {
    case "voltage-source":
      return { ...ends, kind, voltage: { kind: "dc", value: quantity(ONE, "V") } };
    case "current-source":
      return { ...ends, kind, current: { kind: "dc", value: quantity(ONE, "A") } };
    default:
      return { ...ends, kind: "resistor", resistance: quantity(ONE, "Ω") };
  }
}

/** The values as the lines write them: impedances and phasors where those are worked with. */
function withValues(board: Board, { elements }: Sketch): Board {
  const values = new Map(elements.map(({ id, value }) => [id, value]));
  const parts = board.parts.map((part): BoardPart => {
    const value = values.get(part.name);
    if (value == null || part.shape !== "line" || !("value" in part) || "control" in part) return part;
    return { ...part, value };
  });
  return { ...board, parts };
}
