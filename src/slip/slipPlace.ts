import type { CSSProperties } from "react";
import type { Box } from "../figure";

export const SLIP_WIDTH = 268;
const GAP = 18;
const HEIGHT = 330;

type Size = { readonly width: number; readonly height: number };

/**
 * Where the slip lies on the pane: beside the chosen symbol on the side with more room, clear of it; on a narrow pane
 * along the bottom edge.
 */
export function slipPlace(target: Box | null, pane: Size): CSSProperties {
  if (pane.width < 620 || !target) return { left: 8, right: 8, bottom: 8 };
  const right = target.x + target.width + GAP;
  const left = target.x - SLIP_WIDTH - GAP;
  const x = right + SLIP_WIDTH <= pane.width - 8 ? right : Math.max(8, left);
  const y = Math.max(8, Math.min(target.y + target.height / 2 - HEIGHT / 2, pane.height - HEIGHT - 8));
  return { left: x, top: y, width: SLIP_WIDTH };
}
