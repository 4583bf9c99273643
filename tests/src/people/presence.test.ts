import fc from "fast-check";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { Awareness } from "y-protocols/awareness";
import * as Y from "yjs";
import { entryId, type InkSpot } from "../../../shared/board";
import { joinTail, type LiveStroke, peopleOf, personMark, readPresence, strokeTail } from "../../../src/people";
import { type Follower, followPointer, step } from "../../../src/people/follower";
import { readStrokeTail } from "../../../src/people/liveStroke";
import { withoutRepeats } from "../../../src/people/people";
import { initials } from "../../../src/people/personMark";
import { presenceFields, readWho } from "../../../src/people/presence";
import { presenceSender } from "../../../src/people/presenceSender";

const SHOWN = {
  pointer: { x: 3.25, y: -1 },
  isPointing: true,
  card: "V1",
  wanted: "w1",
  selection: [entryId("R1")],
  stroke: null,
};

describe("what a page shows of its person", () => {
  it("is read as it was written, through JSON as awareness sends it", () =>
    expect(readPresence(JSON.parse(JSON.stringify(presenceFields(SHOWN))))).toEqual(SHOWN));

  it("is read without a throw whatever somebody sends, and then within bounds", () =>
    fc.assert(
      fc.property(
        fc.oneof(
          fc.jsonValue(),
          fc.record(
            {
              pointer: fc.oneof(fc.jsonValue(), fc.tuple(fc.double(), fc.double())),
              selection: fc.jsonValue(),
              card: fc.jsonValue(),
              who: fc.oneof(
                fc.jsonValue(),
                fc.record({ id: fc.jsonValue(), name: fc.jsonValue(), role: fc.jsonValue() }),
              ),
              stroke: fc.record({
                id: fc.jsonValue(),
                kind: fc.constantFrom("pen", "x"),
                colour: fc.constantFrom("ink", 3),
                start: fc.oneof(fc.integer(), fc.double()),
                spots: fc.oneof(fc.constant("0,0 1,1"), fc.string()),
                card: fc.jsonValue(),
              }),
            },
            { requiredKeys: [] },
          ),
        ),
        (state) => {
          const { pointer, selection, stroke } = readPresence(state);
          if (pointer) expect(Math.max(Math.abs(pointer.x), Math.abs(pointer.y))).toBeLessThanOrEqual(10_000);
          expect(selection.every((entry) => typeof entry === "string")).toBe(true);
          if (stroke) joinTail(null, stroke);
          expect(readWho(state).name).not.toBe("");
        },
      ),
    ));

  it("names somebody the server has said nothing of a guest", () =>
    expect(readWho({ pointer: [1, 2] })).toEqual({ id: null, name: "Guest", role: null }));
});

describe("a stroke while it is drawn", () => {
  const stroke = (spots: readonly InkSpot[]): LiveStroke => ({
    id: entryId("s"),
    kind: "pen",
    colour: "sea",
    card: [],
    spots,
  });
  const line = Array.from({ length: 500 }, (_, i) => ({ x: i / 10, y: 0 }));

  it("is put together from short updates, of which some may be passed over", () => {
    let known: LiveStroke | null = null;
    let sent = 0;
    for (let length = 10; length <= 500; length += 10) {
      const tail = strokeTail(stroke(line.slice(0, length)), sent);
      sent = length;
      expect(JSON.stringify(tail).length).toBeLessThan(2000);
      if (length % 40 !== 0) known = joinTail(known, JSON.parse(JSON.stringify(tail)));
    }
    expect(known).toEqual(stroke(line));
  });

  it("has a straight line where too much was passed over, and begins at what is known where somebody comes late", () => {
    const first = joinTail(null, strokeTail(stroke(line.slice(0, 10)), 0));
    const late = strokeTail(stroke(line), 480);
    expect(joinTail(first, late).spots).toEqual([...line.slice(0, 10), ...line.slice(432)]);
    expect(joinTail(null, late).spots).toEqual(line.slice(432));
  });

  it("begins anew with another id", () => {
    const first = joinTail(null, strokeTail(stroke(line), 480));
    const other = { ...stroke(line.slice(0, 2)), id: entryId("t") };
    expect(joinTail(first, strokeTail(other, 0))).toEqual(other);
  });

  it("is refused where it is longer than an update is", () => {
    const tail = strokeTail(stroke(line.slice(0, 2)), 0);
    expect(readStrokeTail(tail)).toEqual(tail);
    expect(readStrokeTail({ ...tail, spots: line.map(() => "1,1").join(" ") })).toBeNull();
    expect(readStrokeTail({ ...tail, start: -1 })).toBeNull();
  });
});

describe("the sender", () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  it("sends at once, then at most 20 times a second, always the newest, and keeps what others wrote", () => {
    const awareness = new Awareness(new Y.Doc());
    awareness.setLocalState({ who: { name: "Ana" } });
    let updates = 0;
    awareness.on("update", () => {
      updates += 1;
    });
    const sender = presenceSender(awareness);
    for (let i = 0; i <= 100; i += 1) {
      sender.show({ pointer: { x: i, y: 0 } });
      if (i === 0) expect(awareness.getLocalState()?.pointer).toEqual([0, 0]);
      vi.advanceTimersByTime(10);
    }
    sender.show({ card: "V1" });
    vi.advanceTimersByTime(50);
    expect(awareness.getLocalState()).toEqual({ who: { name: "Ana" }, pointer: [100, 0], card: "V1" });
    // 1.01 s of moves every 10 ms: one at once, one each 50 ms.
    expect(updates).toBeLessThanOrEqual(22);
    sender.close();
    awareness.destroy();
  });
});

describe("a pointer that glides", () => {
  it("comes from nowhere at once, and then covers 1 − 1/e of the way in 45 ms", () => {
    const begun = followPointer(undefined, { x: 0, y: 0 });
    expect(begun.shown).toEqual({ x: 0, y: 0 });
    expect(step(followPointer(begun, { x: 10, y: 0 }), 45).shown?.x).toBeCloseTo(6.3212, 4);
  });

  it("arrives, and is then at rest", () => {
    let follower: Follower = followPointer(followPointer(undefined, { x: 0, y: 0 }), { x: 3, y: 4 });
    for (let i = 0; i < 60 && follower.shown !== follower.target; i += 1) follower = step(follower, 16);
    expect(follower.shown).toBe(follower.target);
  });

  it("arrives in one step where nothing is to move, and goes away at once", () => {
    const follower = followPointer(followPointer(undefined, { x: 0, y: 0 }), { x: 3, y: 4 });
    expect(step(follower, Number.POSITIVE_INFINITY).shown).toEqual({ x: 3, y: 4 });
    expect(step(followPointer(follower, null), 16).shown).toBeNull();
  });
});

describe("people", () => {
  const who = (id: string, name: string) => ({ who: { id, name, role: "learner" }, card: "total" });
  const participant = (id: string, name: string, role: "instructor" | "learner") => ({
    id,
    name,
    role,
    isHere: true,
    mayDraw: true,
  });

  it("are this page's first, then as they first came, with the server's names and roles", () => {
    const states = new Map<number, unknown>([
      [7, who("b", "an old name")],
      [3, who("a", "Ana")],
      [9, who("c", "Cy")],
    ]);
    const list = [
      participant("c", "Cy", "instructor"),
      participant("a", "Ana", "learner"),
      participant("b", "Ben", "learner"),
    ];
    expect(peopleOf(states, { client: 7, id: "b" }, list).map(({ name, role, isYou }) => [name, role, isYou])).toEqual([
      ["Ben", "learner", true],
      ["Cy", "instructor", false],
      ["Ana", "learner", false],
    ]);
  });

  it("are one entry each however many pages they have open, under one mark", () => {
    const people = peopleOf(
      new Map<number, unknown>([
        [1, who("a", "Ana")],
        [2, who("a", "Ana")],
        [3, {}],
        [4, {}],
      ]),
      { client: 1, id: "a" },
      [],
    );
    expect(people).toHaveLength(4);
    expect(people[0]?.mark).toEqual(people[1]?.mark);
    expect(withoutRepeats(people).map(({ name }) => name)).toEqual(["Ana", "Guest", "Guest"]);
  });

  it("have marks of which no two are alike among the first 42", () => {
    const marks = Array.from({ length: 42 }, (_, i) => personMark(i)).map(({ sign, colour }) => `${sign} ${colour}`);
    expect(new Set(marks).size).toBe(42);
  });

  it.each([
    ["Ana", "A"],
    ["Ana Ruiz", "AR"],
    ["ana maria ruiz", "AR"],
    ["Ana 2", "A2"],
    ["Ömer", "Ö"],
  ])("%s is %s for short", (name, short) => expect(initials(name)).toBe(short));
});
