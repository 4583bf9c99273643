import type { Board, BoardWanted, Command, EntryId, WantedMark } from "../../shared/board";
import { partOfWanted } from "../../shared/board";
import type { Direction } from "../../shared/circuit";

/** The quantities that are wanted of one part or wire. */
export function wantedOf(board: Board, entry: EntryId): readonly BoardWanted[] {
  return board.wanted.filter((wanted) => partOfWanted(wanted) === entry);
}

/** The next name that is not used yet for a wanted quantity: Ix, Iy, Iz, then Ix1, Ix2 …; V for voltages. */
export function nextWantedName(board: Board, letter: "I" | "V"): string {
  const taken = new Set(board.wanted.map((wanted) => wanted.name));
  for (const index of ["x", "y", "z"]) if (!taken.has(`${letter}${index}`)) return `${letter}${index}`;
  let number = 1;
  while (taken.has(`${letter}x${number}`)) number += 1;
  return `${letter}x${number}`;
}

/** The command that asks for the current through a part or wire, or for the voltage across it. */
export function wantCommand(board: Board, entry: EntryId, quantity: "current" | "voltage", id: EntryId): Command {
  const mark: WantedMark =
    quantity === "current"
      ? { kind: "current", part: entry, direction: "forward", winding: "primary" }
      : { kind: "voltage", across: { by: "part", part: entry, direction: "forward" } };
  return { do: "setWanted", id, name: nextWantedName(board, quantity === "current" ? "I" : "V"), mark };
}

/** The command that turns a reference direction round, null where the quantity has none. */
export function turnedWanted(wanted: BoardWanted): Command | null {
  const { id, name } = wanted;
  if (wanted.kind === "current") {
    return { do: "setWanted", id, name, mark: { ...markOf(wanted), direction: opposite(wanted.direction) } };
  }
  if (wanted.kind === "power" || wanted.across.by !== "part") return null;
  const across = { ...wanted.across, direction: opposite(wanted.across.direction) };
  return { do: "setWanted", id, name, mark: { kind: wanted.kind, across } };
}

function opposite(direction: Direction): Direction {
  return direction === "forward" ? "backward" : "forward";
}

function markOf({ kind, part, direction, winding }: Extract<BoardWanted, { kind: "current" }>) {
  return { kind, part, direction, winding };
}
