import {
  type Board,
  type BoardCircuit,
  type BoardPart,
  type EntryId,
  type KindWithValue,
  shownValue,
  terminalPoints,
} from "../../shared/board";
import { unreachable } from "../../shared/quantity";

/** One part of the circuit in words, with its entry so that it can be chosen. */
export type PartWords = { readonly entry: EntryId; readonly name: string; readonly text: string };

/** The circuit as text, part by part, for whoever reads it rather than sees it. */
export function circuitWords(board: Board, circuit: BoardCircuit): readonly PartWords[] {
  return board.parts.map((part) => ({ entry: part.id, name: part.name, text: partWords(part, board, circuit) }));
}

/** The kind of a part as it is called in running text. */
export function kindWords(kind: BoardPart["kind"]): string {
  switch (kind) {
    case "resistor":
      return "resistor";
    case "capacitor":
      return "capacitor";
    case "inductor":
      return "inductor";
    case "voltage-source":
      return "voltage source";
    case "current-source":
      return "current source";
    case "vcvs":
    case "ccvs":
      return "dependent voltage source";
    case "vccs":
    case "cccs":
      return "dependent current source";
    case "switch":
      return "switch";
    case "ideal-opamp":
      return "ideal op amp";
    case "ideal-transformer":
      return "ideal transformer";
    default:
      return unreachable(kind);
  }
}

function partWords(part: BoardPart, board: Board, circuit: BoardCircuit): string {
  const nodes = terminalPoints(part).map((point) => circuit.nodeAt(point) ?? "nowhere");
  const [first, second, third, fourth] = nodes;
  const value = valueWords(part);
  switch (part.kind) {
    case "resistor":
    case "capacitor":
    case "inductor":
      return `${kindWords(part.kind)}${value}, between node ${first} and node ${second}`;
    case "voltage-source":
      return `voltage source${value}, + at node ${first}, − at node ${second}`;
    case "current-source":
      return `current source${value}, driving current from node ${first} into node ${second}`;
    case "vcvs":
    case "ccvs":
      return `dependent voltage source, + at node ${first}, − at node ${second}, ${followWords(part, board)}`;
    case "vccs":
    case "cccs":
      return `dependent current source, driving current from node ${first} into node ${second}, ${followWords(part, board)}`;
    case "switch":
      return `${part.state} switch between node ${first} and node ${second}`;
    case "ideal-opamp":
      return `ideal op amp, + input at node ${first}, − input at node ${second}, output at node ${third}`;
    case "ideal-transformer":
      return `ideal transformer${value}, primary from node ${first} (dot) to node ${second}, secondary from node ${third} (dot) to node ${fourth}`;
    default:
      return unreachable(part);
  }
}

function valueWords(part: BoardPart): string {
  if (!("value" in part)) return "";
  return part.value.trim() === "" ? " without a value" : ` of ${shownValue(part.kind as KindWithValue, part.value)}`;
}

function followWords(part: Extract<BoardPart, { readonly control: unknown }>, board: Board): string {
  const gain = part.value.trim() === "" ? "no gain yet" : `gain ${shownValue(part.kind, part.value)}`;
  if (!part.control) return `${gain}, following nothing yet`;
  const quantity = part.kind === "vcvs" || part.kind === "vccs" ? "voltage" : "current";
  if (part.control.by === "points") return `${gain}, following the voltage between two nodes`;
  const { part: id, direction } = part.control;
  const name = [...board.parts, ...board.wires].find((entry) => entry.id === id)?.name ?? "a part";
  return `${gain}, following the ${quantity} of ${name}${direction === "backward" ? " counted backward" : ""}`;
}
