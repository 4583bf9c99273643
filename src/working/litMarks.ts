import { type Board, type EntryId, joinDots, type Point, samePoint, terminalPoints } from "../../shared/board";
import { entryBox } from "../board";
import { type Box, type Figure, growBox, type Stroke, spotOf, type Tone } from "../figure";
import { stroke } from "../figure/figure";
import { circle, closed, line } from "../figure/frame";
import type { Lit } from "./litStore";

/** A drawing on which names can be found. */
export type Drawn = {
  readonly board: Board;
  readonly figure: Figure;
  readonly entryOf: ReadonlyMap<string, EntryId>;
  readonly nodeAt: (point: Point) => string | null;
};

/** What lies beneath a figure, and what above it. */
export type LitMarks = { readonly beneath: readonly Stroke[]; readonly above: readonly Stroke[] };

const AWAY = 5;
const CORNER = 11;
const BAND = 13;

/**
 * The marks of what a worked line speaks of. A part gets a patch of the chosen colour and corners around it; a node a
 * band along its wires and a ring at each of its joins, so that nothing is told by colour alone.
 */
export function litMarks({ parts, nodes }: Lit, drawn: Drawn, tone: Tone): LitMarks {
  const boxes = parts.flatMap((name) => {
    const entry = drawn.entryOf.get(name);
    const box = entry === undefined ? null : entryBox(entry, drawn.board, drawn.figure);
    return box === null ? [] : [growBox(box, AWAY)];
  });
  const lit = nodes.map((node) => nodeShape(node, drawn));
  return {
    beneath: [
      ...lit.flatMap(({ runs }) => runs.map((run) => stroke(run, "chosen", BAND))),
      ...boxes.map((box) => stroke(frame(box), "chosen", 1, { fill: "tone" })),
    ],
    above: [
      ...lit.flatMap(({ joins }) => joins.map((point) => stroke(circle(spotOf(point), 8), tone, 2.2))),
      ...boxes.map((box) => stroke(corners(box), tone, 2.4)),
    ],
  };
}

/** A figure with marks on it. */
export function withLitMarks(figure: Figure, { beneath, above }: LitMarks): Figure {
  return { ...figure, strokes: [...beneath, ...figure.strokes, ...above] };
}

/** The wires of a node as path data, and the points at which it is ringed: its joins, else one of its terminals. */
function nodeShape(node: string, { board, nodeAt }: Drawn) {
  const wires = board.wires.filter(
    ({ points }) => nodeAt(points[0]) === node && nodeAt(points.at(-1) as Point) === node,
  );
  const joins = joinDots(board).filter((point) => nodeAt(point) === node);
  const terminal = board.parts.flatMap(terminalPoints).find((point) => nodeAt(point) === node);
  const rings = joins.length > 0 ? joins : terminal === undefined ? [] : [terminal];
  return {
    runs: wires.map(({ points }) => line(...points.map(spotOf))),
    joins: rings.filter((point, i) => rings.findIndex((other) => samePoint(other, point)) === i),
  };
}

function frame({ x, y, width, height }: Box): string {
  const [right, bottom] = [x + width, y + height];
  return closed({ x, y }, { x: right, y }, { x: right, y: bottom }, { x, y: bottom });
}

function corners({ x, y, width, height }: Box): string {
  const leg = Math.min(CORNER, width / 3, height / 3);
  const corner = (cx: number, cy: number, dx: number, dy: number) =>
    line({ x: cx + dx * leg, y: cy }, { x: cx, y: cy }, { x: cx, y: cy + dy * leg });
  const [right, bottom] = [x + width, y + height];
  return corner(x, y, 1, 1) + corner(right, y, -1, 1) + corner(right, bottom, -1, -1) + corner(x, bottom, 1, -1);
}
