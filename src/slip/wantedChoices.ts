import type { Across, Board, BoardWanted, Command, EntryId, WantedMark } from "../../shared/board";
import { partOfWanted } from "../../shared/board";
import type { Direction } from "../../shared/circuit";
import { unreachable } from "../../shared/quantity";

/** The quantities that are wanted of one part or wire. */
export function wantedOf(board: Board, entry: EntryId): readonly BoardWanted[] {
  return board.wanted.filter((wanted) => partOfWanted(wanted) === entry);
}

/** The letter symbol that a wanted quantity's name begins with, after ISO 80000-6. */
function letterOf(kind: WantedMark["kind"]): string {
  switch (kind) {
    case "current":
      return "I";
    case "voltage":
      return "V";
    case "power":
      return "P";
    case "resistance":
      return "R";
    case "impedance":
      return "Z";
    case "open-circuit-voltage":
      return "Voc";
    case "short-circuit-current":
      return "Isc";
    case "thevenin":
      return "Th";
    case "norton":
      return "No";
    case "maximum-power-load":
      return "RL";
    default:
      return unreachable(kind);
  }
}

/** The next name that is not used yet for a wanted quantity: Ix, Iy, Iz, then Ix1, Ix2 …; Voc, Voc1 … for ports. */
export function nextWantedName(board: Board, kind: WantedMark["kind"]): string {
  const taken = new Set(board.wanted.map((wanted) => wanted.name));
  const letter = letterOf(kind);
  const firsts = letter.length > 1 ? [letter] : ["x", "y", "z"].map((index) => `${letter}${index}`);
  const free = firsts.find((name) => !taken.has(name));
  if (free !== undefined) return free;
  let number = 1;
  while (taken.has(`${firsts[0]}${number}`)) number += 1;
  return `${firsts[0]}${number}`;
}

/** The command that asks for a quantity of a part or wire, in its own direction. */
export function wantCommand(board: Board, entry: EntryId, kind: WantedMark["kind"], id: EntryId): Command {
  return wantAcross(board, kind, { by: "part", part: entry, direction: "forward" }, id);
}

/** The command that asks for a quantity where it was picked. A current or power is asked of parts alone. */
export function wantAcross(board: Board, kind: WantedMark["kind"], across: Across, id: EntryId): Command {
  return { do: "setWanted", id, name: nextWantedName(board, kind), mark: markAt(kind, across) };
}

function markAt(kind: WantedMark["kind"], across: Across): WantedMark {
  if (kind !== "current" && kind !== "power") return { kind, across };
  if (across.by === "points") throw new Error(`a ${kind} was picked between two points`);
  if (kind === "power") return { kind, part: across.part };
  return { kind, part: across.part, direction: across.direction, winding: "primary" };
}

/** The command that turns a reference direction round, null where the quantity has none. */
export function turnedWanted(wanted: BoardWanted): Command | null {
  const { id, name } = wanted;
  if (wanted.kind === "current") {
    return { do: "setWanted", id, name, mark: { ...markOf(wanted), direction: opposite(wanted.direction) } };
  }
  if (wanted.kind === "power") return null;
  const across = turnedAcross(wanted.across);
  return { do: "setWanted", id, name, mark: { kind: wanted.kind, across } };
}

/** The same two places the other way round. */
export function turnedAcross(across: Across): Across {
  if (across.by === "points") return { ...across, from: across.to, to: across.from };
  return { ...across, direction: opposite(across.direction) };
}

function opposite(direction: Direction): Direction {
  return direction === "forward" ? "backward" : "forward";
}

function markOf({ kind, part, direction, winding }: Extract<BoardWanted, { kind: "current" }>) {
  return { kind, part, direction, winding };
}
