import type { InkMark, InkSpot } from "../../shared/board";
import { type Box, GRID, type Spot } from "../figure";
import { boxAround } from "../figure/box";
import { ARROW_WIDTH, HIGHLIGHTER_WIDTH, PEN_WIDTH } from "./inkColours";

/** Length of an arrow's head, in pixels at scale 1. */
const HEAD = 13;
/** Above this change of direction, in radians, a line turns a corner; below it bends. */
const CORNER = 1;

export function pixelSpot({ x, y }: InkSpot): Spot {
  return { x: x * GRID, y: y * GRID };
}

/**
 * Path data of a line through all of its spots. Between two spots it is a cubic curve that leaves and arrives along
 * the chord of each spot's neighbours, with a third of their distance for its handles, so that it never overshoots;
 * sharp corners stay corners. A single spot becomes a dot.
 */
export function strokePath(spots: readonly InkSpot[]): string {
  const line = spots.map(pixelSpot);
  const [first] = line;
  if (!first) return "";
  if (line.length === 1) return `M${text(first)}h0.01`;
  const ways = line.map((_, i) => wayThrough(line, i));
  const curves = line.slice(1).map((to, i) => curve(line[i] as Spot, to, ways[i] ?? null, ways[i + 1] ?? null));
  return `M${text(first)}${curves.join("")}`;
}

/** The direction in which a line goes through its i-th spot, as a unit vector; null at ends and corners. */
function wayThrough(line: readonly Spot[], i: number): Spot | null {
  const [before, at, after] = [line[i - 1], line[i] as Spot, line[i + 1]];
  if (!before || !after) return null;
  const turn = Math.atan2(after.y - at.y, after.x - at.x) - Math.atan2(at.y - before.y, at.x - before.x);
  // the turn lies within half a turn to either side
  if (Math.abs(Math.atan2(Math.sin(turn), Math.cos(turn))) > CORNER) return null;
  const [dx, dy] = [after.x - before.x, after.y - before.y];
  const length = Math.hypot(dx, dy);
  return length === 0 ? null : { x: dx / length, y: dy / length };
}

function curve(from: Spot, to: Spot, leaving: Spot | null, arriving: Spot | null): string {
  if (!leaving && !arriving) return `L${text(to)}`;
  const third = Math.hypot(to.x - from.x, to.y - from.y) / 3;
  const start = leaving ? { x: from.x + leaving.x * third, y: from.y + leaving.y * third } : from;
  const end = arriving ? { x: to.x - arriving.x * third, y: to.y - arriving.y * third } : to;
  return `C${text(start)} ${text(end)} ${text(to)}`;
}

/** Path data of an arrow with an open head. */
export function arrowPath(tail: InkSpot, tip: InkSpot): string {
  const [from, to] = [pixelSpot(tail), pixelSpot(tip)];
  const angle = Math.atan2(to.y - from.y, to.x - from.x);
  const barb = (side: 1 | -1) => ({
    x: to.x - HEAD * Math.cos(angle + side * 0.45),
    y: to.y - HEAD * Math.sin(angle + side * 0.45),
  });
  return `M${text(from)}L${text(to)}M${text(barb(1))}L${text(to)}L${text(barb(-1))}`;
}

/** The spots that a mark's line goes through; a note has none. */
export function lineOf(mark: InkMark): readonly InkSpot[] {
  switch (mark.kind) {
    case "pen":
    case "highlighter":
      return mark.spots;
    case "arrow":
      return [mark.from, mark.to];
    case "note":
      return [];
  }
}

/** Path data of a mark's line, empty for a note. */
export function markPath(mark: InkMark): string {
  switch (mark.kind) {
    case "pen":
    case "highlighter":
      return strokePath(mark.spots);
    case "arrow":
      return arrowPath(mark.from, mark.to);
    case "note":
      return "";
  }
}

export function widthOf(mark: Pick<InkMark, "kind">): number {
  switch (mark.kind) {
    case "highlighter":
      return HIGHLIGHTER_WIDTH;
    case "arrow":
      return ARROW_WIDTH;
    case "pen":
    case "note":
      return PEN_WIDTH;
  }
}

/** The box of a line mark in pixels of the drawing, its width and an arrow's head included. */
export function markBox(mark: InkMark): Box {
  const spread = widthOf(mark) / 2 + (mark.kind === "arrow" ? HEAD : 1);
  return boxAround(lineOf(mark).map(pixelSpot), spread);
}

const round = (value: number) => Math.round(value * 10) / 10;
const text = ({ x, y }: Spot) => `${round(x)} ${round(y)}`;
