import type { Across, Board, BoardWanted, EntryId, WantedMark } from "../../shared/board";
import { unreachable } from "../../shared/quantity";

/** A wanted quantity as it is asked for. */
export function wantedWords(kind: WantedMark["kind"]): string {
  switch (kind) {
    case "current":
      return "A current";
    case "voltage":
      return "A voltage";
    case "power":
      return "A power";
    case "resistance":
      return "An equivalent resistance";
    case "impedance":
      return "An equivalent impedance";
    case "open-circuit-voltage":
      return "An open-circuit voltage";
    case "short-circuit-current":
      return "A short-circuit current";
    case "thevenin":
      return "A Thévenin equivalent";
    case "norton":
      return "A Norton equivalent";
    case "maximum-power-load":
      return "The load that takes most power";
    default:
      return unreachable(kind);
  }
}

/** What a wanted quantity is and where it is marked: `a current, through R1`. */
export function wantedPlace(wanted: BoardWanted, board: Board): string {
  const what = wantedWords(wanted.kind);
  const plain = what.charAt(0).toLowerCase() + what.slice(1);
  if (wanted.kind === "current") return `${plain}, through ${nameOf(wanted.part, board)}`;
  if (wanted.kind === "power") return `${plain}, of ${nameOf(wanted.part, board)}`;
  return `${plain}, ${acrossWords(wanted.across, board)}`;
}

function acrossWords(across: Across, board: Board): string {
  return across.by === "part" ? `across ${nameOf(across.part, board)}` : "between two points";
}

function nameOf(id: EntryId, board: Board): string {
  return [...board.parts, ...board.wires].find((entry) => entry.id === id)?.name ?? "a part";
}
