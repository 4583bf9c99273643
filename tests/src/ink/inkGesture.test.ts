import { describe, expect, it } from "vitest";
import { entryId } from "../../../shared/board";
import { type InkEvent, type InkOutcome, NO_INK_GESTURE, stepInk } from "../../../src/ink/inkGesture";
import type { InkTool } from "../../../src/ink/inkTool";

const MARK = entryId("m");
const at = (x: number, y = 0) => ({ x, y });
const event = (type: "down" | "move" | "up" | "enter", x: number, mark: typeof MARK | null = null): InkEvent => ({
  type,
  at: at(x),
  mark,
});

/** Everything that comes of these events with one tool, one after the other. */
function outcomes(tool: InkTool, ...events: readonly InkEvent[]): readonly InkOutcome[] {
  let gesture = NO_INK_GESTURE;
  const all = events.map((each) => {
    const step = stepInk(gesture, each, tool);
    gesture = step.gesture;
    return step.outcome;
  });
  return all.filter((outcome) => outcome.do !== "nothing");
}

describe("the pen", () => {
  it("draws from where it is pressed to where it is lifted, and keeps no spot twice", () =>
    expect(
      outcomes("pen", event("down", 0), event("move", 1), event("move", 1.001), event("move", 2), event("up", 2)),
    ).toEqual([{ do: "stroke", spots: [at(0), at(1), at(2)] }]));

  it("makes a dot of a click", () =>
    expect(outcomes("pen", event("down", 3), event("up", 3))).toEqual([{ do: "stroke", spots: [at(3)] }]));

  it("is put down and lifted by Enter", () =>
    expect(outcomes("highlighter", event("enter", 0), event("move", 1), event("move", 2), event("enter", 2))).toEqual([
      { do: "stroke", spots: [at(0), at(1), at(2)] },
    ]));

  it("leaves nothing where the line is given up, and draws nothing while it is not down", () =>
    expect(
      outcomes("pen", event("move", 1), event("down", 0), event("move", 5), { type: "cancel" }, event("up", 5)),
    ).toEqual([]));
});

describe("the arrow", () => {
  it("goes from tail to head by one drag, by two clicks, or by Enter twice", () => {
    const arrow = [{ do: "arrow", from: at(0), to: at(4) }];
    expect(outcomes("arrow", event("down", 0), event("move", 2), event("up", 4))).toEqual(arrow);
    expect(
      outcomes("arrow", event("down", 0), event("up", 0.1), event("move", 2), event("down", 4), event("up", 4)),
    ).toEqual(arrow);
    expect(outcomes("arrow", event("enter", 0), event("move", 2), event("enter", 4))).toEqual(arrow);
  });

  it("of no length is none", () => expect(outcomes("arrow", event("enter", 0), event("enter", 0))).toEqual([]));
});

describe("the eraser", () => {
  it("takes the mark it is pressed on, and those that it wipes over while it is held", () =>
    expect(
      outcomes(
        "eraser",
        event("down", 0, MARK),
        event("move", 1),
        event("move", 2, MARK),
        event("up", 2, MARK),
        event("move", 3, MARK),
      ),
    ).toEqual([
      { do: "erase", mark: MARK },
      { do: "erase", mark: MARK },
    ]));
});

describe("moving ink", () => {
  const moved = [{ do: "shift", mark: MARK, by: at(4) }];
  it("goes by one drag, by two clicks, or by Enter twice", () => {
    expect(outcomes("shift", event("down", 1, MARK), event("move", 3), event("up", 5))).toEqual(moved);
    expect(outcomes("shift", event("down", 1, MARK), event("up", 1), event("down", 5), event("up", 5))).toEqual(moved);
    expect(outcomes("shift", event("enter", 1, MARK), event("move", 2), event("enter", 5))).toEqual(moved);
  });

  it("moves nothing where there was nothing", () =>
    expect(outcomes("shift", event("down", 1), event("move", 3), event("up", 5))).toEqual([]));
});

it("words are asked for where a click ends, those of the note under it where there is one", () =>
  expect(outcomes("words", event("down", 1), event("up", 1, MARK), event("enter", 2))).toEqual([
    { do: "write", at: at(1), mark: MARK },
    { do: "write", at: at(2), mark: null },
  ]));

it("pointing leaves nothing", () =>
  expect(
    outcomes("point", event("down", 1, MARK), event("move", 2, MARK), event("up", 3, MARK), event("enter", 3, MARK)),
  ).toEqual([]));
