import type { Point } from "../../shared/board";
import { type Box, GRID, type Spot } from "../figure";

/** Where the drawing lies on the screen: screen = world · scale + (x, y), both in pixels. */
export type Viewport = { readonly scale: number; readonly x: number; readonly y: number };
export type Size = { readonly width: number; readonly height: number };

export const MIN_SCALE = 0.3;
export const MAX_SCALE = 3;
/** A fitted drawing is not blown up beyond this. */
const FIT_SCALE = 1.25;

export function toScreen(view: Viewport, world: Spot): Spot {
  return { x: world.x * view.scale + view.x, y: world.y * view.scale + view.y };
}

export function toWorld(view: Viewport, screen: Spot): Spot {
  return { x: (screen.x - view.x) / view.scale, y: (screen.y - view.y) / view.scale };
}

/** The grid point nearest to a spot of the screen. */
export function gridPointAt(view: Viewport, screen: Spot): Point {
  const world = toWorld(view, screen);
  // + 0 turns −0 into 0, which is the same point but not the same text in every comparison
  return { x: Math.round(world.x / GRID) + 0, y: Math.round(world.y / GRID) + 0 };
}

/** The view that shows all of a drawing in the middle of a pane, never larger than is comfortable. */
export function fitView(extent: Box, pane: Size, padding: number): Viewport {
  const room = { width: pane.width - 2 * padding, height: pane.height - 2 * padding };
  const wanted = Math.min(room.width / Math.max(extent.width, 1), room.height / Math.max(extent.height, 1), FIT_SCALE);
  const scale = clamp(wanted, MIN_SCALE, MAX_SCALE);
  return {
    scale,
    x: pane.width / 2 - (extent.x + extent.width / 2) * scale,
    y: pane.height / 2 - (extent.y + extent.height / 2) * scale,
  };
}

/** What is nearer to the edge of a pane than this touches it. */
const CLEAR = 8;

/** Whether all of a drawing is seen on a pane, clear of its edge. */
export function isWithin(view: Viewport, extent: Box, pane: Size): boolean {
  const from = toScreen(view, extent);
  const to = toScreen(view, { x: extent.x + extent.width, y: extent.y + extent.height });
  return Math.min(from.x, from.y) >= CLEAR && to.x <= pane.width - CLEAR && to.y <= pane.height - CLEAR;
}

/** Zooms by a factor and keeps what lies under a spot of the screen where it is. */
export function zoomAt(view: Viewport, spot: Spot, factor: number): Viewport {
  const scale = clamp(view.scale * factor, MIN_SCALE, MAX_SCALE);
  const world = toWorld(view, spot);
  return { scale, x: spot.x - world.x * scale, y: spot.y - world.y * scale };
}

export function panBy(view: Viewport, dx: number, dy: number): Viewport {
  return { ...view, x: view.x + dx, y: view.y + dy };
}

/** Moves the view just as far as is needed to have a spot of the world inside the pane. */
export function revealSpot(view: Viewport, pane: Size, world: Spot, padding: number): Viewport {
  const spot = toScreen(view, world);
  const dx = clamp(spot.x, padding, Math.max(padding, pane.width - padding)) - spot.x;
  const dy = clamp(spot.y, padding, Math.max(padding, pane.height - padding)) - spot.y;
  return dx === 0 && dy === 0 ? view : panBy(view, dx, dy);
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(Math.max(value, low), high);
}
