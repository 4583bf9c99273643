import { type BlockPart, type Point, placeVector } from "../../shared/board";
import { GRID, type Spot } from "./figure";

/**
 * A frame of drawing: `at(s, t)` is s pixels along and t pixels across, from the middle. Symbols are described once in
 * a frame and come out in any direction; what must stay upright (plus and minus signs) is drawn around a spot.
 */
export type Frame = { readonly at: (s: number, t: number) => Spot; readonly length: number };

/** The frame of a line from one grid point to another: along it, and to its right-hand side. */
export function lineFrame(from: Point, to: Point): Frame {
  const [dx, dy] = [(to.x - from.x) * GRID, (to.y - from.y) * GRID];
  const length = Math.hypot(dx, dy);
  const [ux, uy] = [dx / length, dy / length];
  const middle = { x: ((from.x + to.x) * GRID) / 2, y: ((from.y + to.y) * GRID) / 2 };
  return { at: (s, t) => ({ x: middle.x + ux * s - uy * t, y: middle.y + uy * s + ux * t }), length };
}

/** The frame of a block: s to the right and t down before it is flipped and turned. */
export function blockFrame(part: Pick<BlockPart, "at" | "turn" | "flip">): Frame {
  return {
    at: (s, t) => {
      const v = placeVector({ x: s, y: t }, part.turn, part.flip);
      return { x: part.at.x * GRID + v.x, y: part.at.y * GRID + v.y };
    },
    length: 4 * GRID,
  };
}

export function spotOf({ x, y }: Point): Spot {
  return { x: x * GRID, y: y * GRID };
}

const text = (spot: Spot) => `${round(spot.x)} ${round(spot.y)}`;
const round = (value: number) => Math.round(value * 100) / 100;

/** Path data of a polyline through these spots. */
export function line(...spots: readonly Spot[]): string {
  return spots.map((spot, i) => `${i === 0 ? "M" : "L"}${text(spot)}`).join("");
}

export function closed(...spots: readonly Spot[]): string {
  return `${line(...spots)}Z`;
}

export function circle(middle: Spot, radius: number): string {
  const [left, right] = [
    { x: middle.x - radius, y: middle.y },
    { x: middle.x + radius, y: middle.y },
  ];
  const arc = `A${radius} ${radius} 0 0 1 `;
  return `M${text(left)}${arc}${text(right)}${arc}${text(left)}Z`;
}

/** Half circles from the first spot through each of the others, all bulging to the left of the way (or right). */
export function humps(spots: readonly Spot[], side: "left" | "right"): string {
  const [first, ...rest] = spots;
  if (!first) return "";
  const arcs = rest.map((spot, i) => {
    const before = spots[i] as Spot;
    const radius = round(Math.hypot(spot.x - before.x, spot.y - before.y) / 2);
    return `A${radius} ${radius} 0 0 ${side === "left" ? 1 : 0} ${text(spot)}`;
  });
  return `M${text(first)}${arcs.join("")}`;
}

export function plusSign({ x, y }: Spot, half = 5): string {
  return `${line({ x: x - half, y }, { x: x + half, y })}${line({ x, y: y - half }, { x, y: y + half })}`;
}

export function minusSign({ x, y }: Spot, half = 5): string {
  return line({ x: x - half, y }, { x: x + half, y });
}

/** An arrow head whose tip is at s along the frame, pointing forward. */
export function arrowHead(frame: Frame, s: number, t: number, size = 9, direction: 1 | -1 = 1): string {
  const back = s - direction * size;
  return closed(frame.at(s, t), frame.at(back, t - size * 0.48), frame.at(back, t + size * 0.48));
}
