import type { Board, BoardPart } from "../../shared/board";

export function isSource(part: BoardPart): boolean {
  return part.kind === "voltage-source" || part.kind === "current-source";
}

/** The accent of each independent source by its name: sources take them in the order in which they were placed. */
export function sourceAccents(board: Board): ReadonlyMap<string, number> {
  return new Map(board.parts.filter(isSource).map((part, i) => [part.name, i]));
}
