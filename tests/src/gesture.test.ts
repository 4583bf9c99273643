import { describe, expect, it } from "vitest";
import { entryId, type Point } from "../../shared/board";
import { type GestureEvent, NO_GESTURE, type Outcome, stepGesture, type Tool } from "../../src/board/gesture";

const at = (x: number, y: number): Point => ({ x, y });
const R1 = entryId("R1");
const down = (p: Point, body: typeof R1 | null = null): GestureEvent => ({ type: "down", at: p, body, entry: body });
const move = (p: Point): GestureEvent => ({ type: "move", at: p });
const up = (p: Point, body: typeof R1 | null = null): GestureEvent => ({ type: "up", at: p, body });
const enter = (p: Point): GestureEvent => ({ type: "enter", at: p, entry: null });

/** What comes of these events, "nothing" left out. */
function outcomes(tool: Tool, ...events: readonly GestureEvent[]): readonly Outcome[] {
  let gesture = NO_GESTURE;
  return events.flatMap((event) => {
    const step = stepGesture(gesture, event, tool);
    gesture = step.gesture;
    return step.outcome.do === "nothing" ? [] : [step.outcome];
  });
}

describe("stretching", () => {
  it("asks for a value where a straight drag ends", () =>
    expect(outcomes("stretch", down(at(0, 0)), move(at(2, 0)), up(at(4, 0)))).toEqual([
      { do: "ask", from: at(0, 0), to: at(4, 0) },
    ]));

  it("by two clicks does the same as by a drag", () =>
    expect(outcomes("stretch", down(at(0, 0)), up(at(0, 0)), move(at(0, 3)), down(at(0, 3)), up(at(0, 3)))).toEqual([
      { do: "select", entry: null },
      { do: "ask", from: at(0, 0), to: at(0, 3) },
    ]));

  it("by Enter at the grid cursor does the same again", () =>
    expect(outcomes("stretch", enter(at(1, 1)), move(at(5, 1)), enter(at(5, 1)))).toEqual([
      { do: "ask", from: at(1, 1), to: at(5, 1) },
    ]));

  it("round a corner is a wire that leaves its start as the pointer did", () => {
    const [levelFirst] = outcomes("stretch", down(at(0, 0)), move(at(1, 0)), up(at(4, 3)));
    const [uprightFirst] = outcomes("stretch", down(at(0, 0)), move(at(0, 1)), up(at(4, 3)));
    expect(levelFirst).toEqual({ do: "wire", points: [at(0, 0), at(4, 0), at(4, 3)] });
    expect(uprightFirst).toEqual({ do: "wire", points: [at(0, 0), at(0, 3), at(4, 3)] });
  });

  it("that has not left a symbol's body chooses the symbol", () =>
    expect(outcomes("stretch", down(at(0, 0), R1), up(at(0, 0), R1))).toEqual([{ do: "select", entry: R1 }]));

  it("is given up by Escape", () =>
    expect(outcomes("stretch", down(at(0, 0)), move(at(3, 0)), { type: "cancel" }, up(at(4, 0)))).toEqual([]));
});

describe("selecting", () => {
  it("chooses what is pressed and moves it by whole grid steps", () =>
    expect(outcomes("select", down(at(2, 2), R1), move(at(3, 2)), up(at(4, 1), R1))).toEqual([
      { do: "select", entry: R1 },
      { do: "move", ids: [R1], by: at(2, -1) },
    ]));

  it("moves nothing that is only pressed", () =>
    expect(outcomes("select", down(at(2, 2), R1), up(at(2, 2), R1))).toEqual([{ do: "select", entry: R1 }]));

  it("in the open chooses nothing", () =>
    expect(outcomes("select", down(at(2, 2)), up(at(5, 5)))).toEqual([{ do: "select", entry: null }]));
});

it("the reference tool places where the pointer is let go, or at Enter", () => {
  expect(outcomes("reference", down(at(1, 1)), up(at(2, 1)))).toEqual([{ do: "reference", at: at(2, 1) }]);
  expect(outcomes("reference", enter(at(7, 7)))).toEqual([{ do: "reference", at: at(7, 7) }]);
});
