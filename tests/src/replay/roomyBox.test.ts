import { describe, expect, it } from "vitest";
import { GRID } from "../../../src/figure";
import { roomyBox } from "../../../src/replay/roomyBox";

/** A drawing of 13 × 5 grid steps. */
const DRAWN = { x: 0, y: 0, width: 13 * GRID, height: 5 * GRID };

describe("the room that a drawing has in a replay", () => {
  it("stays the same object as long as all of it is inside", () => {
    expect(roomyBox(DRAWN, { x: GRID, y: GRID, width: 12 * GRID, height: GRID })).toBe(DRAWN);
  });

  it("grows by as much as words beside a part need, and on their side alone", () => {
    expect(roomyBox(DRAWN, { x: -10, y: 0, width: 13 * GRID, height: GRID })).toEqual({
      x: -10,
      y: 0,
      width: 13 * GRID + 10,
      height: 5 * GRID,
    });
  });

  it("grows by more than is needed where a circuit grows, so that the view seldom changes", () => {
    const longer = roomyBox(DRAWN, { x: 0, y: 0, width: 17 * GRID, height: 5 * GRID });
    expect(longer).toEqual({ x: 0, y: 0, width: 20 * GRID, height: 5 * GRID });
    expect(roomyBox(longer, { x: 0, y: 0, width: 19 * GRID, height: 5 * GRID })).toBe(longer);
  });

  it("grows up and to the left as it does down and to the right", () => {
    expect(roomyBox(DRAWN, { x: -5 * GRID, y: -4 * GRID, width: GRID, height: GRID })).toEqual({
      x: -8 * GRID,
      y: -4 * GRID,
      width: 21 * GRID,
      height: 9 * GRID,
    });
  });
});
