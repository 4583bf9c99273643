import { type QuantityProblem, quantityProblemText, unreachable } from "../quantity";
import type { EntryId } from "./board";

/** The maps of the document, by what one of their entries is called. */
export type EntryMap = "part" | "wire" | "reference" | "node name" | "wanted quantity" | "group of sources" | "mark";

/**
 * Something on the board that keeps an entry, or all of the board, from being read as a circuit. `entry` is where to
 * show it; {@link boardProblemText} makes the sentence.
 */
export type BoardProblem =
  | { readonly code: "malformedEntry"; readonly entry: EntryId; readonly map: EntryMap; readonly field: string }
  | { readonly code: "tooManyEntries"; readonly map: EntryMap; readonly limit: number; readonly entry: null }
  | { readonly code: "tooMuchInk"; readonly entry: null }
  | { readonly code: "missingValue"; readonly entry: EntryId; readonly name: string; readonly example: string }
  | { readonly code: "zeroValue"; readonly entry: EntryId; readonly name: string; readonly example: string }
  | {
      readonly code: "unreadableValue";
      readonly entry: EntryId;
      readonly name: string;
      readonly problem: QuantityProblem;
    }
  | { readonly code: "missingControl"; readonly entry: EntryId; readonly name: string; readonly follows: string }
  | { readonly code: "danglingWanted"; readonly entry: EntryId; readonly name: string }
  | { readonly code: "wantedOffCircuit"; readonly entry: EntryId; readonly name: string }
  | { readonly code: "joinInsideWire"; readonly entry: EntryId; readonly name: string }
  | { readonly code: "referenceOffCircuit"; readonly entry: EntryId }
  | { readonly code: "nodeNameOffCircuit"; readonly entry: EntryId; readonly name: string }
  | { readonly code: "nodeNameTaken"; readonly entry: EntryId; readonly name: string };

/** One or two plain sentences: what is wrong and what to do. */
export function boardProblemText(problem: BoardProblem): string {
  switch (problem.code) {
    case "malformedEntry":
      return `A ${problem.map} on this board cannot be read (its ${problem.field}), so it is left out.`;
    case "tooManyEntries":
      return `This board holds more than ${problem.limit} entries of the kind “${problem.map}”. The rest are left out.`;
    case "tooMuchInk":
      return "This board holds more ink than a page can show. The marks made last are left out; rub out some that are done with.";
    case "missingValue":
      return `${problem.name} has no value yet. Type one, for instance ${problem.example}.`;
    case "zeroValue":
      return `${problem.name} has the value 0, which a part of its kind cannot have. Type another, for instance ${problem.example}, or take the part away.`;
    case "unreadableValue":
      return `${problem.name}: ${quantityProblemText(problem.problem)}`;
    case "missingControl":
      return `${problem.name} follows no ${problem.follows} yet. Pick the one it follows.`;
    case "danglingWanted":
      return `${problem.name} asks about a part that is no longer on the board. Mark it again or remove it.`;
    case "wantedOffCircuit":
      return `${problem.name} asks about a point where there is no node. Mark it again or remove it.`;
    case "joinInsideWire":
      return `Something meets ${problem.name} between its ends, so its current is not one number. Draw it in pieces that end at the join.`;
    case "referenceOffCircuit":
      return "This reference symbol touches no part or wire. Move it onto the node that is to be at 0 V.";
    case "nodeNameOffCircuit":
      return `The node name ${problem.name} stands where there is no node. Move it onto one.`;
    case "nodeNameTaken":
      return `Another node is named ${problem.name} already, or this node has another name. Give this one a name of its own.`;
    default:
      return unreachable(problem);
  }
}
