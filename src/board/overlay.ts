import type { Board, EntryId, Point, StretchReading } from "../../shared/board";
import { entryId } from "../../shared/board";
import {
  type Box,
  type Figure,
  GRID,
  growBox,
  type Paper,
  type Spot,
  type Stroke,
  type SymbolSet,
  spotOf,
} from "../figure";
import { boxAround } from "../figure/box";
import { stroke } from "../figure/figure";
import { circle, closed, line, plusSign } from "../figure/frame";
import { LabelPlacer } from "../figure/labelPlacing";
import { partSymbol } from "../figure/symbols";
import { drawAcross, drawCurrent, type Pen } from "../figure/wantedMarks";
import type { Gesture } from "./gesture";
import { bodyAt, entryAt, isJoinAt, REACH } from "./hit";
import { stretchedPart } from "./stretchPart";
import { stretchPath } from "./stretchPath";
import { type Tool, takesPoints } from "./tool";

/** A straight stretch whose value is being typed. */
export type PendingStretch = { readonly from: Point; readonly to: Point; readonly reading: StretchReading };

/** What is drawn over the figure while something is under way: the stretch, or the part that it is going to be. */
export function overlayStrokes(
  gesture: Gesture,
  pending: PendingStretch | null,
  symbols: SymbolSet,
): readonly Stroke[] {
  switch (gesture.kind) {
    case "stretch":
      return [dashed(stretchPath(gesture)), ends([gesture.from, gesture.to])];
    case "wire": {
      const last = gesture.corners.at(-1) ?? gesture.to;
      const done = stroke(line(...gesture.corners.map(spotOf)), "ink", 2.4);
      return [done, dashed(stretchPath({ ...gesture, from: last })), ends([...gesture.corners, gesture.to])];
    }
    case "box":
      return [stroke(boxPath(gesture.from, gesture.to), "soft", 1.4, { dash: [5, 4] })];
    case "none":
    case "move":
    case "pick":
      return pending ? pendingStrokes(pending, symbols) : [];
  }
}

const dashed = (points: readonly Point[]) => stroke(line(...points.map(spotOf)), "ink", 2.4, { dash: [7, 5] });
const ends = (points: readonly Point[]) =>
  stroke(points.map((point) => circle(spotOf(point), 5)).join(""), "ink", 2, { fill: "paper" });

function boxPath(from: Spot, to: Spot): string {
  return closed(from, { x: to.x, y: from.y }, to, { x: from.x, y: to.y });
}

function pendingStrokes({ from, to, reading }: PendingStretch, symbols: SymbolSet): readonly Stroke[] {
  const marks = stroke([from, to].map((point) => circle(spotOf(point), 4)).join(""), "ink", 1.6, { fill: "paper" });
  if (reading.make !== "part") return [stroke(line(spotOf(from), spotOf(to)), "ink", 2), marks];
  const part = stretchedPart(from, to, reading);
  if (part.shape !== "line") return [marks];
  const { kind } = reading;
  const drawn = { id: entryId(""), name: "", shape: "line" as const, kind, value: reading.value };
  return [...partSymbol({ ...drawn, from: part.from, to: part.to }, "acting", "ink", symbols), marks];
}

/** What would be placed or picked where the pointer or the ring is. */
export function aimStrokes(
  tool: Tool,
  gesture: Gesture,
  at: Point | null,
  board: Board,
  figure: Figure,
  symbols: SymbolSet,
): readonly Stroke[] {
  if (!at) return [];
  if (tool.do === "block") {
    const { kind, turn, flip } = tool;
    const block = { id: entryId(""), name: "", shape: "block" as const, value: "", kind, at, turn, flip };
    return partSymbol(block, "acting", "soft", symbols);
  }
  return tool.do === "pick" ? pickStrokes(tool, gesture, at, board, figure) : [];
}

/** The reference direction that a pick would have: an arrow beside a part, or signs beside it or at two points. */
function pickStrokes(
  { pick }: Extract<Tool, { do: "pick" }>,
  gesture: Gesture,
  at: Point,
  board: Board,
  figure: Figure,
): readonly Stroke[] {
  const pen: Pen = { board, tone: "problem", primes: [], placer: new LabelPlacer(figure.covered), entry: null };
  const points = takesPoints(pick);
  if (gesture.kind === "pick") {
    const first = stroke(plusSign({ x: spotOf(gesture.from).x, y: spotOf(gesture.from).y - 14 }), "problem", 2);
    return isJoinAt(board, at) ? drawAcross({ by: "points", from: gesture.from, to: at }, true, [], pen) : [first];
  }
  const entry = points ? bodyAt(figure, spotOf(at), 0) : entryAt(board, figure, spotOf(at), REACH);
  if (entry) {
    if (!points) return drawCurrent(entry, "forward", "primary", [], pen);
    return drawAcross({ by: "part", part: entry, direction: "forward" }, true, [], pen);
  }
  return points && isJoinAt(board, at) ? [stroke(circle(spotOf(at), 7), "problem", 2)] : [];
}

/** The boxes of entries on the drawing: a symbol's body, a wire's run, a node's name. */
export function entryBox(id: EntryId, board: Board, figure: Figure): Box | null {
  const body = figure.bodies.get(id);
  if (body) return body;
  const wire = board.wires.find((candidate) => candidate.id === id);
  if (wire) return boxAround(wire.points.map(spotOf), 5);
  const name = board.nodeNames.find((candidate) => candidate.id === id);
  if (!name) return null;
  return figure.labels.find((label) => label.entry === id)?.box ?? boxAround([spotOf(name.at)], 10);
}

/** Paints what lies under the figure: the patches of what is selected, and dashed frames around entries with a fault. */
export function paintUnderlay(
  context: CanvasRenderingContext2D,
  chosen: readonly Box[],
  faulty: readonly Box[],
  paper: Paper,
): void {
  context.setLineDash([]);
  context.fillStyle = paper.chosen;
  context.strokeStyle = paper.ink;
  context.lineWidth = 1.5;
  for (const each of chosen) {
    const box = growBox(each, 6);
    context.fillRect(box.x, box.y, box.width, box.height);
    context.strokeRect(box.x, box.y, box.width, box.height);
  }
  context.strokeStyle = paper.problem;
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
