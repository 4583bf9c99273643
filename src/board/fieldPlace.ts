import type { Spot } from "../figure";
import type { Size } from "./viewport";

/** Half the width of a field on the drawing, and a little, so that it stays on the pane. */
export const HALF_WIDTH = 136;
/** The height of a field with two lines of words beneath it. */
const HEIGHT = 90;
const EDGE = 8;

/**
 * Where on the pane the field for something lies whose middle is at `spot`: its own middle, and its upper edge. It
 * stands `away` px beneath, or above where there is no room beneath.
 */
export function fieldPlace({ x, y }: Spot, away: number, pane: Size): { readonly left: number; readonly top: number } {
  const left = Math.max(HALF_WIDTH, Math.min(x, pane.width - HALF_WIDTH));
  const isRoomBeneath = y + away + HEIGHT <= pane.height - EDGE;
  const top = isRoomBeneath ? y + away : Math.max(EDGE, Math.min(y - away, pane.height - EDGE) - HEIGHT);
  return { left, top: Math.max(EDGE, top) };
}
