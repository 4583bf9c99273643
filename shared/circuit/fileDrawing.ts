import type { Drawing, Placement, Point } from "./circuitFile";
import type { DrawingEntry } from "./fileDrawingSchema";
import type { ElementEntry } from "./fileElementSchema";
import type { FilePath, FileProblem } from "./fileProblem";
import { partId } from "./part";

/** The position an element gives itself; null where it gives none. Lines off the grid's rows and columns add problems. */
export function placementFrom(entry: ElementEntry, path: FilePath, problems: FileProblem[]): Placement | null {
  if (entry.drawn === undefined) return null;
  const part = partId(entry.id);
  if ("at" in entry.drawn) {
    const { at, turn = 0, flip = false } = entry.drawn;
    return { part, shape: "body", at, turn, flip };
  }
  const { from, to } = entry.drawn;
  checkStretch(from, to, [...path, "drawn"], problems);
  return { part, shape: "line", from, to };
}

/** The drawing of a file; null where neither it nor any element gives a position. */
export function drawingFrom(
  entry: DrawingEntry | null,
  placements: readonly Placement[],
  problems: FileProblem[],
): Drawing | null {
  if (entry === null && placements.length === 0) return null;
  const wires = entry?.wires ?? [];
  for (const [w, wire] of wires.entries()) {
    for (const [p, point] of wire.entries()) {
      const before = wire[p - 1];
      if (before !== undefined) checkStretch(before, point, ["drawing", "wires", w, p], problems);
    }
  }
  return { placements, wires, reference: entry?.reference ?? null };
}

function checkStretch(from: Point, to: Point, path: FilePath, problems: FileProblem[]): void {
  const isLevel = from[1] === to[1];
  const isUpright = from[0] === to[0];
  if (isLevel && isUpright) problems.push({ path, code: "noLength", at: pointText(from) });
  else if (!isLevel && !isUpright) {
    problems.push({ path, code: "notAlongGrid", from: pointText(from), to: pointText(to) });
  }
}

function pointText([x, y]: Point): string {
  return `[${x}, ${y}]`;
}
