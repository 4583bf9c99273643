import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  fitView,
  gridPointAt,
  isWithin,
  MAX_SCALE,
  MIN_SCALE,
  revealSpot,
  toScreen,
  toWorld,
  zoomAt,
} from "../../src/board/viewport";

const coordinate = fc.integer({ min: -2000, max: 2000 });
const spot = fc.record({ x: coordinate, y: coordinate });
const view = fc.record({
  scale: fc.double({ min: MIN_SCALE, max: MAX_SCALE, noNaN: true }),
  x: coordinate,
  y: coordinate,
});

it("the screen and the drawing map onto each other", () =>
  fc.assert(
    fc.property(view, spot, (v, s) => {
      const back = toWorld(v, toScreen(v, s));
      expect(back.x).toBeCloseTo(s.x, 6);
      expect(back.y).toBeCloseTo(s.y, 6);
    }),
  ));

it("zooming keeps what lies under the pointer where it is", () =>
  fc.assert(
    fc.property(view, spot, fc.double({ min: 0.2, max: 5, noNaN: true }), (v, s, factor) => {
      const [before, after] = [toWorld(v, s), toWorld(zoomAt(v, s, factor), s)];
      expect(after.x).toBeCloseTo(before.x, 5);
      expect(after.y).toBeCloseTo(before.y, 5);
    }),
  ));

it("snaps to the nearest grid point, 24 pixels apart at scale 1", () => {
  const v = { scale: 1, x: 0, y: 0 };
  expect(gridPointAt(v, { x: 35, y: -11 })).toEqual({ x: 1, y: 0 });
  expect(gridPointAt({ ...v, scale: 2 }, { x: 72, y: 73 })).toEqual({ x: 2, y: 2 });
});

describe("fitting", () => {
  const pane = { width: 800, height: 600 };

  it("shows all of a wide drawing within its padding", () => {
    const v = fitView({ x: -100, y: 0, width: 2000, height: 100 }, pane, 40);
    expect(toScreen(v, { x: -100, y: 50 }).x).toBeCloseTo(40);
    expect(toScreen(v, { x: 1900, y: 50 }).x).toBeCloseTo(760);
    expect(toScreen(v, { x: 0, y: 50 }).y).toBeCloseTo(300);
  });

  it("does not blow a small drawing up", () =>
    expect(fitView({ x: 0, y: 0, width: 10, height: 10 }, pane, 40).scale).toBe(1.25));
});

it("reveals a spot by the least move, and stays where the spot is seen", () => {
  const [v, pane] = [
    { scale: 1, x: 0, y: 0 },
    { width: 400, height: 300 },
  ];
  expect(revealSpot(v, pane, { x: 100, y: 100 }, 40)).toBe(v);
  expect(revealSpot(v, pane, { x: 380, y: 10 }, 40)).toEqual({ scale: 1, x: -20, y: 30 });
});

it("a drawing is within a pane that it is fitted to, and no longer once it comes near the edge", () => {
  const [pane, drawn] = [
    { width: 390, height: 456 },
    { x: 0, y: 0, width: 480, height: 120 },
  ];
  const fitted = fitView(drawn, pane, 16);
  expect(isWithin(fitted, drawn, pane)).toBe(true);
  // 16 px are left on either side, of which 8 stay clear, at a scale of 358/480: 10.7 px of the drawing.
  expect(isWithin(fitted, { ...drawn, width: 490 }, pane)).toBe(true);
  expect(isWithin(fitted, { ...drawn, width: 491 }, pane)).toBe(false);
  expect(isWithin(fitted, { ...drawn, x: -10, width: 490 }, pane)).toBe(true);
  expect(isWithin(fitted, { ...drawn, x: -11, width: 491 }, pane)).toBe(false);
});
