import type { RoomView } from "../../shared/messages";
import { type Size, toWorld, type Viewport } from "../board";
import { GRID } from "../figure";

/** Panes of this width or more show what they are called to at one and the same scale. */
const FULL_WIDTH = 900;
const SCALES = { least: 0.3, most: 3 };

/** What a page shows, as others are called to it. The scale is that of a wide pane, whatever the caller's own is. */
export function callView(view: Viewport, pane: Size, card: string, wanted: string | null): RoomView {
  const middle = toWorld(view, { x: pane.width / 2, y: pane.height / 2 });
  return { card, wanted, center: [middle.x / GRID, middle.y / GRID], scale: view.scale / narrowness(pane) };
}

/** The view of this pane that a call asks for: the caller's middle in its middle, drawn smaller where the pane is narrow. */
export function calledView({ center: [x, y], scale }: RoomView, pane: Size): Viewport {
  const wanted = scale * narrowness(pane);
  const own = Math.min(Math.max(wanted, SCALES.least), SCALES.most);
  return { scale: own, x: pane.width / 2 - x * GRID * own, y: pane.height / 2 - y * GRID * own };
}

/** How much smaller a pane shows what a wide one shows. */
function narrowness(pane: Size): number {
  return Math.min(1, pane.width / FULL_WIDTH);
}

/** A view on the way from one to another; `share` is how much of the way is done, scales by equal factors. */
export function viewBetween(from: Viewport, to: Viewport, share: number): Viewport {
  if (share >= 1) return to;
  const part = (a: number, b: number) => a + (b - a) * share;
  return { scale: from.scale * (to.scale / from.scale) ** share, x: part(from.x, to.x), y: part(from.y, to.y) };
}

/** How far a movement that starts and ends gently has come, for a share of its time. */
export function gently(share: number): number {
  return share < 0.5 ? 2 * share * share : 1 - 2 * (1 - share) * (1 - share);
}
