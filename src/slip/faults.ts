import { type Board, type BoardPart, isName, readValueText } from "../../shared/board";
import { quantityProblemText } from "../../shared/quantity";

const NAME_RULE = "A name has 1 to 24 characters and no spaces.";

/** Why a text cannot be the value of a part, null where it can; an empty one can, and is told as missing. */
export function valueFault(part: BoardPart, text: string): string | null {
  if (!("value" in part) || text.trim() === "") return null;
  const reading = readValueText(part.kind, text);
  return reading.ok ? null : quantityProblemText(reading.problem);
}

/** Why a text cannot be the name of a part, null where it can. */
export function partNameFault(board: Board, own: string, text: string): string | null {
  if (!isName(text)) return NAME_RULE;
  const isTaken = text !== own && [...board.parts, ...board.wires].some((other) => other.name === text);
  return isTaken ? `${text} is the name of another part.` : null;
}

/** Why a text cannot be the name of a node or a wanted quantity, null where it can. */
export function nameFault(text: string): string | null {
  return isName(text) ? null : NAME_RULE;
}
