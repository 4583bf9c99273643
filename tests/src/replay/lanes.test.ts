import { describe, expect, it } from "vitest";
import { type ReplayPerson, timelineOf } from "../../../shared/replay";
import { heightOf, lanesOf } from "../../../src/replay/lanes";
import { rulerOf } from "../../../src/replay/ruler";

const person = (number: number): ReplayPerson => ({ number, name: `P${number}`, role: "learner" });
const people = [1, 2, 3, 4].map(person);
const timeline = timelineOf(
  [
    { time: 0, participant: 1, kind: "join" },
    { time: 0, participant: 1, kind: "update" },
    { time: 100, participant: 1, kind: "update" },
    { time: 500, participant: 2, kind: "try" },
    { time: 900, participant: 4, kind: "look" },
    { time: 1000, participant: 0, kind: "solved" },
  ].map((head, i) => ({ ...head, sequence: i + 1 })),
);
const ruler = rulerOf(0, 1000, []);

describe("the lanes of a session", () => {
  it("count what each person did in each part of the ruler, without coming and going", () => {
    expect(lanesOf(timeline, ruler, people, 2, 6).map(({ people: [p], counts }) => [p?.name, counts])).toEqual([
      ["P1", [2, 0]],
      ["P2", [0, 1]],
      ["P4", [0, 1]],
    ]);
  });

  it("put those for whom there is no room together into the last one", () => {
    const lanes = lanesOf(timeline, ruler, people, 2, 2);
    expect(lanes.map(({ people: own, counts }) => [own.map(({ name }) => name), counts])).toEqual([
      [["P1"], [2, 0]],
      [
        ["P2", "P4"],
        [0, 2],
      ],
    ]);
  });

  it("let one entry be seen beside a hundred", () => {
    expect(heightOf(0, 100)).toBe(0);
    expect(heightOf(1, 100)).toBeGreaterThan(0.14);
    expect(heightOf(100, 100)).toBe(1);
  });
});
