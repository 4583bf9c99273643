import type { Board, BoardCircuit } from "../../shared/board";
import type { HiddenReport, HiddenWanted } from "../../shared/messages";
import { unreachable } from "../../shared/quantity";
import type { RoomState } from "../room";
import { zeroingQuestion } from "../steps";
import { isSource, type SumCard } from "../sum";

/** What the head of the page asks: the problem's title, else the wanted quantity in words. */
export function questionText(board: Board, wanted: HiddenWanted | null): string {
  if (wanted) return `the ${wanted.description}`;
  return board.title || "A blank page";
}

/** Which circuit the board shows, or what is asked of it. */
export function captionText(card: SumCard | null, board: Board, isAsked = false): string {
  if (!card?.acting) return "";
  if (isAsked) return zeroingQuestion(card.acting);
  const zeroed = board.parts.filter((part) => isSource(part) && !card.acting?.has(part.name));
  const acting = [...card.acting];
  const only = `Only ${listText(acting)} ${acting.length === 1 ? "acts" : "act"}.`;
  return zeroed.length === 0 ? only : `${only} ${listText(zeroed.map((part) => part.name))} zeroed.`;
}

function listText(names: readonly string[]): string {
  const [last, ...before] = [...names].reverse();
  return before.length === 0 ? (last ?? "") : `${before.reverse().join(", ")} and ${last}`;
}

/** What the sum line says besides its cards, null where the cards say all. */
export function sumNote(
  board: Board,
  circuit: BoardCircuit,
  report: HiddenReport | null,
  wanted: HiddenWanted | null,
  isConnected: boolean,
): string | null {
  if (board.parts.length === 0) return "Draw a circuit, and its sum stands here: one card a source, and their total.";
  if (board.wanted.length === 0) {
    return "Nothing is wanted yet. Choose a part on the board, then “Want its current” or “Want its voltage”.";
  }
  if (!board.parts.some(isSource)) return "No independent source is drawn yet, so there is nothing to add up.";
  if (!isConnected) return report ? LAST_KNOWN : "The answers come when the connection is back.";
  if (!report) return "Waiting for the answer.";
  if (!wanted) return "The wanted quantity has no answer yet. What is to be mended is listed on this page.";
  return leftOutText(board, circuit) ?? wanted.note ?? secondMethodText(wanted);
}

const LAST_KNOWN = "Not connected: these answers are to the circuit as the server had it last.";

/** What a second method says of the total, null where none applies. */
function secondMethodText({ secondMethod, total }: HiddenWanted): string | null {
  if (!secondMethod || !total) return null;
  const { method, value, agrees } = secondMethod;
  const found = `By ${method}, all sources at once: ${value.mark === "≈" ? "≈ " : ""}${value.text}`;
  return agrees ? `${found}, the same.` : `${found}. The two do not agree; this is a defect of the solver.`;
}

/** Which parts the answers do not take in, null where they take in all. */
function leftOutText(board: Board, { circuit }: BoardCircuit): string | null {
  const given = new Set<string>(circuit.parts.map((part) => part.id));
  const missing = board.parts.filter((part) => !given.has(part.name)).map((part) => part.name);
  if (missing.length === 0) return null;
  return `Without ${listText(missing)}: what is wrong there is listed under “To mend”.`;
}

/** Whether the page is in step with the others, in words; `clock` writes a time in ms as a time of day. */
export function linkText(
  { link, lostSince, isKept }: Pick<RoomState, "link" | "lostSince" | "isKept">,
  clock: (time: number) => string,
): string {
  switch (link) {
    case "joining":
      return "Joining the room …";
    case "joined":
      return "Connected";
    case "lost": {
      const since = lostSince === null ? "Not connected." : `Not connected since ${clock(lostSince)}.`;
      return isKept === false
        ? `${since} What you draw stays on this page while it is open, and is sent when the connection is back.`
        : `${since} What you draw is kept in this browser and sent when the connection is back.`;
    }
    case "refused":
      return "The server has closed this room to this page. Load the page again to try once more.";
    default:
      return unreachable(link);
  }
}
