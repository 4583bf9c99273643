import type { CSSProperties } from "react";
import type { Box } from "../figure";
import { growBox, overlap } from "../figure/box";

export const SLIP_WIDTH = 378;
/** The slip's usual height; a taller one scrolls. */
const HEIGHT = 330;
const GAP = 16;
const EDGE = 10;

type Size = { readonly width: number; readonly height: number };

/**
 * Where the slip lies on the pane: near the chosen symbol, covering as little of the drawing as can be; on a narrow
 * pane along the bottom edge. `drawn` are the boxes of symbols and labels on the pane.
 */
export function slipPlace(target: Box | null, drawn: readonly Box[], pane: Size): CSSProperties {
  if (pane.width < 620 || !target) return { left: EDGE, right: EDGE, bottom: EDGE };
  const cost = (box: Box) => {
    const covered = drawn.reduce((sum, each) => sum + overlap(box, each), 0);
    return 20 * covered + 100 * overlap(growBox(box, GAP / 2), target) + 30 * distance(box, target);
  };
  const best = placesOn(target, pane).reduce((least, box) => (cost(box) < cost(least) ? box : least));
  return { left: best.x, top: best.y, width: SLIP_WIDTH, maxHeight: pane.height - best.y - EDGE };
}

/** Beside the symbol on each side, and along the edges of the pane. */
function placesOn(target: Box, pane: Size): readonly Box[] {
  const middle = { x: target.x + target.width / 2 - SLIP_WIDTH / 2, y: target.y + target.height / 2 - HEIGHT / 2 };
  const [right, left] = [target.x + target.width + GAP, target.x - SLIP_WIDTH - GAP];
  const [below, above] = [target.y + target.height + GAP, target.y - HEIGHT - GAP];
  const xs = [right, left, middle.x, right + 80, left - 80, EDGE, pane.width - SLIP_WIDTH - EDGE];
  const ys = [middle.y, below, below + 60, above, above - 60, 44, pane.height - HEIGHT - 40];
  return xs.flatMap((x) => ys.map((y) => inside({ x, y, width: SLIP_WIDTH, height: HEIGHT }, pane)));
}

function inside(box: Box, pane: Size): Box {
  const x = Math.max(EDGE, Math.min(box.x, pane.width - box.width - EDGE));
  const y = Math.max(44, Math.min(box.y, pane.height - box.height - EDGE));
  return { ...box, x, y };
}

function distance(a: Box, b: Box): number {
  const dx = Math.max(0, b.x - (a.x + a.width), a.x - (b.x + b.width));
  const dy = Math.max(0, b.y - (a.y + a.height), a.y - (b.y + b.height));
  return Math.hypot(dx, dy);
}
