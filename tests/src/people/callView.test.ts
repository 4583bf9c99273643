import { describe, expect, it } from "vitest";
import { calledView, callView, gently, viewBetween } from "../../../src/people/callView";

const view = { scale: 2, x: -100, y: 50 };
const pane = { width: 1000, height: 600 };

describe("a call to a view", () => {
  // The pane's middle (500, 300) is at ((500 + 100)/2, (300 − 50)/2) = (300, 125) px of the drawing: 12.5 and 5.2083 steps.
  it("says what lies in the middle of the caller's pane, in grid steps, and at which scale", () =>
    expect(callView(view, pane, "V1", "w1")).toEqual({
      card: "V1",
      wanted: "w1",
      center: [12.5, 125 / 24],
      scale: 2,
    }));

  it("brings a pane of the same size to the same view", () => {
    const called = calledView(callView(view, pane, "V1", null), pane);
    expect(called.scale).toBe(2);
    expect(called.x).toBeCloseTo(-100, 9);
    expect(called.y).toBeCloseTo(50, 9);
  });

  it("made on a phone brings another phone to the same view, and a wide pane to as much of the drawing", () => {
    const phone = { width: 450, height: 400 };
    const call = callView({ scale: 0.6, x: 30, y: 40 }, phone, "V1", null);
    const called = calledView(call, phone);
    expect(called.scale).toBeCloseTo(0.6, 9);
    expect(called.x).toBeCloseTo(30, 9);
    expect(called.y).toBeCloseTo(40, 9);
    // 450 px at 0.6 are 750 px of the drawing, which fill 900 px at 1.2.
    expect(calledView(call, { width: 900, height: 700 }).scale).toBeCloseTo(1.2, 9);
  });

  it("puts the same middle into the middle of a phone's pane, drawn smaller", () => {
    const called = calledView(callView(view, pane, "V1", null), { width: 450, height: 400 });
    expect(called.scale).toBe(1);
    expect([300 * called.scale + called.x, 125 * called.scale + called.y]).toEqual([225, 200]);
  });

  it("keeps to the scales that the board has, whatever somebody sends", () => {
    expect(calledView({ card: "", wanted: null, center: [0, 0], scale: 1e9 }, pane).scale).toBe(3);
    expect(calledView({ card: "", wanted: null, center: [0, 0], scale: 0 }, pane).scale).toBe(0.3);
  });
});

it("a view on the way is half way by factors: from scale 1 to 4 it passes 2", () =>
  expect(viewBetween({ scale: 1, x: 0, y: 0 }, { scale: 4, x: 100, y: -50 }, 0.5)).toEqual({
    scale: 2,
    x: 50,
    y: -25,
  }));

it("a movement begins and ends gently", () =>
  expect([0, 0.25, 0.5, 0.75, 1].map(gently)).toEqual([0, 0.125, 0.5, 0.875, 1]));
