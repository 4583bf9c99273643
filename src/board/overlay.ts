import type { Board, EntryId, Point, StretchReading } from "../../shared/board";
import { entryId } from "../../shared/board";
import { type Box, type Figure, GRID, growBox, PAPER, type Stroke, spotOf } from "../figure";
import { boxAround } from "../figure/box";
import { stroke } from "../figure/figure";
import { circle, line } from "../figure/frame";
import { partSymbol } from "../figure/symbols";
import { type Gesture, stretchPath } from "./gesture";
import { stretchedPart } from "./stretchPart";

/** A straight stretch whose value is being typed. */
export type PendingStretch = { readonly from: Point; readonly to: Point; readonly reading: StretchReading };

/** What is drawn over the figure while something is under way: the stretch, or the part that it is going to be. */
export function overlayStrokes(gesture: Gesture, pending: PendingStretch | null): readonly Stroke[] {
  if (gesture.kind === "stretch") {
    const path = stretchPath(gesture).map(spotOf);
    const ends = [gesture.from, gesture.to].map((point) => circle(spotOf(point), 5)).join("");
    return [stroke(line(...path), "ink", 2.4, { dash: [7, 5] }), stroke(ends, "ink", 2, { fill: "paper" })];
  }
  return pending ? pendingStrokes(pending) : [];
}

function pendingStrokes({ from, to, reading }: PendingStretch): readonly Stroke[] {
  const ends = stroke([from, to].map((point) => circle(spotOf(point), 4)).join(""), "ink", 1.6, { fill: "paper" });
  if (reading.make !== "part") return [stroke(line(spotOf(from), spotOf(to)), "ink", 2), ends];
  const part = stretchedPart(from, to, reading);
  if (part.shape !== "line") return [ends];
  const { kind } = reading;
  const drawn = { id: entryId(""), name: "", shape: "line" as const, kind, value: reading.value };
  return [...partSymbol({ ...drawn, from: part.from, to: part.to }, "acting", "ink"), ends];
}

/** The boxes of entries on the drawing: a symbol's body, a wire's run. */
export function entryBox(id: EntryId, board: Board, figure: Figure): Box | null {
  const body = figure.bodies.get(id);
  if (body) return body;
  const wire = board.wires.find((candidate) => candidate.id === id);
  if (wire) return boxAround(wire.points.map(spotOf), 5);
  const name = board.nodeNames.find((candidate) => candidate.id === id);
  return name ? boxAround([spotOf(name.at)], 10) : null;
}

/** Paints what lies under the figure: the chosen entry's patch, and dashed frames around entries with a fault. */
export function paintUnderlay(context: CanvasRenderingContext2D, chosen: Box | null, faulty: readonly Box[]): void {
  context.setLineDash([]);
  if (chosen) {
    const box = growBox(chosen, 9);
    context.fillStyle = PAPER.chosen;
    context.fillRect(box.x, box.y, box.width, box.height);
    context.strokeStyle = PAPER.ink;
    context.lineWidth = 1.5;
    context.strokeRect(box.x, box.y, box.width, box.height);
  }
  context.strokeStyle = PAPER.problem;
  context.lineWidth = 1.6;
  context.setLineDash([5, 4]);
  for (const each of faulty) {
    const box = growBox(each, 6);
    context.strokeRect(box.x, box.y, box.width, box.height);
  }
  context.setLineDash([]);
}

/** The grid cursor of the keyboard: a ring with four ticks around a grid point. */
export function cursorStrokes(at: Point): readonly Stroke[] {
  const { x, y } = spotOf(at);
  const ticks = [
    [0, -1],
    [0, 1],
    [-1, 0],
    [1, 0],
  ].map(([dx = 0, dy = 0]) =>
    line({ x: x + dx * 7, y: y + dy * 7 }, { x: x + dx * (GRID / 2), y: y + dy * (GRID / 2) }),
  );
  return [stroke(circle({ x, y }, 7) + ticks.join(""), "problem", 2)];
}
