import type { Circuit, CircuitFile, Drawing } from "../circuit";
import { bestDrawing } from "./choose";
import { marksOf } from "./marks";
import { networkOf } from "./network";

export type LayoutOptions = {
  /** Leaves room for the current of every part and the voltage of every node. */
  readonly hasValues?: boolean;
  /** Keeps parts from left to right as they stand in this drawing, as far as that costs no crossings or detours. */
  readonly like?: Drawing | null;
};

/**
 * A drawing of any circuit: all parts placed on the grid and joined by level and upright wires, so that reading the
 * drawing gives exactly the circuit's nodes. The reference node is the bottom rail; sections without it have rails of
 * their own. Without options the drawing depends on the circuit alone: not on the names of its nodes, and on the order of its parts only
 * in that a voltage is marked beside the first of the parts across it.
 *
 * Two-terminal parts are 4 grid steps long; x counts to the right, y down. `reference` is null where the circuit has
 * no reference node or no part is joined to it. Never throws on a circuit whose parts have names of their own.
 */
export function layOut(circuit: Circuit, { hasValues = false, like = null }: LayoutOptions = {}): Drawing {
  const parts = circuit.parts.map(({ id }) => id);
  return bestDrawing(networkOf(circuit), parts, marksOf(circuit, hasValues, like));
}

/** The file with a drawing made for it where it has none, or none of some part. */
export function layOutFile(file: CircuitFile): CircuitFile {
  const placed = new Set(file.drawing?.placements.map(({ part }) => part));
  const isWhole = file.drawing !== null && file.circuit.parts.every(({ id }) => placed.has(id));
  return isWhole ? file : { ...file, drawing: layOut(file.circuit) };
}
