import { describe, expect, it } from "vitest";
import { entryId, type Point } from "../../shared/board";
import { type Gesture, type GestureEvent, NO_GESTURE, type Outcome, type Place } from "../../src/board/gesture";
import { stepGesture } from "../../src/board/stepGesture";
import { REFERENCE, SELECT, STRETCH, type Tool, WIRE } from "../../src/board/tool";

const at = (x: number, y: number): Point => ({ x, y });
const R1 = entryId("R1");
const place = (p: Point, more: Partial<Place> = {}): Place => ({
  at: p,
  spot: { x: p.x * 24, y: p.y * 24 },
  body: null,
  entry: more.body ?? null,
  isJoin: false,
  ...more,
});
const down = (p: Point, more: Partial<Place> = {}, isAdding = false, isChosen = false): GestureEvent => ({
  type: "down",
  ...place(p, more),
  isAdding,
  isChosen,
});
const move = (p: Point): GestureEvent => ({ type: "move", at: p, spot: { x: p.x * 24, y: p.y * 24 } });
const up = (p: Point, more: Partial<Place> = {}): GestureEvent => ({ type: "up", ...place(p, more), isAdding: false });
const click = (p: Point, more: Partial<Place> = {}) => [down(p, more), up(p, more)];
const enter = (p: Point, more: Partial<Place> = {}): GestureEvent => ({ type: "enter", ...place(p, more) });
const onR1 = { body: R1, entry: R1 };
const join = { isJoin: true };

/** What comes of these events, "nothing" left out. */
function outcomes(tool: Tool, ...events: readonly GestureEvent[]): readonly Outcome[] {
  let gesture: Gesture = NO_GESTURE;
  return events.flatMap((event) => {
    const step = stepGesture(gesture, event, tool);
    gesture = step.gesture;
    return step.outcome.do === "nothing" ? [] : [step.outcome];
  });
}

describe("stretching", () => {
  it("asks for a value where a straight drag ends", () =>
    expect(outcomes(STRETCH, down(at(0, 0)), move(at(2, 0)), up(at(4, 0)))).toEqual([
      { do: "ask", from: at(0, 0), to: at(4, 0) },
    ]));

  it("by two clicks does the same as by a drag", () =>
    expect(outcomes(STRETCH, ...click(at(0, 0)), move(at(0, 3)), ...click(at(0, 3)))).toEqual([
      { do: "select", entry: null, isAdding: false },
      { do: "ask", from: at(0, 0), to: at(0, 3) },
    ]));

  it("by Enter at the grid cursor does the same again", () =>
    expect(outcomes(STRETCH, enter(at(1, 1)), move(at(5, 1)), enter(at(5, 1)))).toEqual([
      { do: "ask", from: at(1, 1), to: at(5, 1) },
    ]));

  it("round a corner is a wire that leaves its start as the pointer did", () => {
    const [levelFirst] = outcomes(STRETCH, down(at(0, 0)), move(at(1, 0)), up(at(4, 3)));
    const [uprightFirst] = outcomes(STRETCH, down(at(0, 0)), move(at(0, 1)), up(at(4, 3)));
    expect(levelFirst).toEqual({ do: "wire", points: [at(0, 0), at(4, 0), at(4, 3)] });
    expect(uprightFirst).toEqual({ do: "wire", points: [at(0, 0), at(0, 3), at(4, 3)] });
  });

  it("round a corner that is bent the other way goes round the other corner", () =>
    expect(outcomes(STRETCH, down(at(0, 0)), move(at(1, 0)), move(at(4, 3)), { type: "flip" }, up(at(4, 3)))).toEqual([
      { do: "wire", points: [at(0, 0), at(0, 3), at(4, 3)] },
    ]));

  it("that has not left a symbol's body chooses the symbol", () =>
    expect(outcomes(STRETCH, ...click(at(0, 0), onR1))).toEqual([{ do: "click", entry: R1, isAdding: false }]));

  it("is given up by Escape", () =>
    expect(outcomes(STRETCH, down(at(0, 0)), move(at(3, 0)), { type: "cancel" }, up(at(4, 0)))).toEqual([]));

  it("for a part of a kind places it along a straight line, and goes on where the line is bent", () =>
    expect(
      outcomes({ do: "line", kind: "vcvs" }, down(at(0, 0)), up(at(3, 2)), move(at(0, 4)), ...click(at(0, 4))),
    ).toEqual([{ do: "line", kind: "vcvs", from: at(0, 0), to: at(0, 4) }]));
});

describe("a wire", () => {
  it("takes a corner at each click and ends where it is joined to something", () =>
    expect(
      outcomes(WIRE, ...click(at(0, 0)), ...click(at(4, 0)), ...click(at(4, 5)), ...click(at(8, 5), join)),
    ).toEqual([{ do: "wire", points: [at(0, 0), at(4, 0), at(4, 5), at(8, 5)] }]));

  it("ends in the open where one clicks twice, or by the word for it", () => {
    const wire = { do: "wire", points: [at(0, 0), at(4, 0), at(4, 5)] };
    const clicks = [...click(at(0, 0)), ...click(at(4, 0)), ...click(at(4, 5))];
    expect(outcomes(WIRE, ...clicks, ...click(at(4, 5)))).toEqual([wire]);
    expect(outcomes(WIRE, ...clicks, { type: "end" })).toEqual([wire]);
  });

  it("leaves out corners that are none", () =>
    expect(outcomes(WIRE, ...click(at(0, 0)), ...click(at(2, 0)), ...click(at(6, 0), join))).toEqual([
      { do: "wire", points: [at(0, 0), at(6, 0)] },
    ]));

  it("loses its last corner by Escape, and then itself", () => {
    const back: GestureEvent = { type: "cancel" };
    const begun = [...click(at(0, 0)), ...click(at(4, 0)), ...click(at(4, 5))];
    expect(outcomes(WIRE, ...begun, back, ...click(at(4, -3), join))).toEqual([
      { do: "wire", points: [at(0, 0), at(4, 0), at(4, -3)] },
    ]);
    expect(outcomes(WIRE, ...begun, back, back, back, { type: "end" })).toEqual([]);
  });

  it("is drawn by Enter as by clicks", () =>
    expect(outcomes(WIRE, enter(at(0, 0)), enter(at(4, 2)), enter(at(4, 2)))).toEqual([
      { do: "wire", points: [at(0, 0), at(4, 0), at(4, 2)] },
    ]));
});

describe("selecting", () => {
  it("chooses what is pressed and moves it by whole grid steps", () =>
    expect(outcomes(SELECT, down(at(2, 2), onR1), move(at(3, 2)), up(at(4, 1)))).toEqual([
      { do: "select", entry: R1, isAdding: false },
      { do: "move", by: at(2, -1) },
    ]));

  it("moves all that is selected where one piece of it is dragged", () =>
    expect(outcomes(SELECT, down(at(2, 2), onR1, false, true), up(at(4, 1)))).toEqual([{ do: "move", by: at(2, -1) }]));

  it("chooses alone what is clicked among several", () =>
    expect(outcomes(SELECT, down(at(2, 2), onR1, false, true), up(at(2, 2), onR1))).toEqual([
      { do: "click", entry: R1, isAdding: false },
    ]));

  it("adds what is clicked with Shift", () =>
    expect(outcomes(SELECT, down(at(2, 2), onR1, true), up(at(2, 2), onR1))).toEqual([
      { do: "select", entry: R1, isAdding: true },
    ]));

  it("in the open draws a box, and a click there chooses nothing", () => {
    expect(outcomes(SELECT, down(at(0, 0)), move(at(3, 3)), up(at(4, 4)))).toEqual([
      { do: "selectBox", from: { x: 0, y: 0 }, to: { x: 96, y: 96 }, isAdding: false },
    ]);
    expect(outcomes(SELECT, ...click(at(2, 2)))).toEqual([{ do: "select", entry: null, isAdding: false }]);
  });
});

describe("picking", () => {
  const voltage: Tool = { do: "pick", pick: { for: "wanted", kind: "voltage" } };
  const current: Tool = { do: "pick", pick: { for: "wanted", kind: "current" } };
  const wire = { entry: entryId("w1"), isJoin: true };

  it("of a voltage takes a part, or two points", () => {
    expect(outcomes(voltage, ...click(at(0, 0), onR1))).toEqual([
      { do: "pick", across: { by: "part", part: R1, direction: "forward" } },
    ]);
    expect(outcomes(voltage, ...click(at(0, 0), wire), ...click(at(4, 4), join))).toEqual([
      { do: "pick", across: { by: "points", from: at(0, 0), to: at(4, 4) } },
    ]);
  });

  it("of a current takes a part or a wire", () =>
    expect(outcomes(current, ...click(at(0, 0), wire))).toEqual([
      { do: "pick", across: { by: "part", part: entryId("w1"), direction: "forward" } },
    ]));

  it("says where there is nothing to pick, and goes on", () =>
    expect(
      outcomes(voltage, ...click(at(9, 9)), ...click(at(0, 0), join), ...click(at(9, 9)), ...click(at(1, 0), join)),
    ).toEqual([
      { do: "missed" },
      { do: "missed" },
      { do: "pick", across: { by: "points", from: at(0, 0), to: at(1, 0) } },
    ]));
});

it("the reference tool places where the pointer is let go, or at Enter", () => {
  expect(outcomes(REFERENCE, down(at(1, 1)), up(at(2, 1)))).toEqual([{ do: "reference", at: at(2, 1) }]);
  expect(outcomes(REFERENCE, enter(at(7, 7)))).toEqual([{ do: "reference", at: at(7, 7) }]);
});
