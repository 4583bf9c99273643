import { describe, expect, it } from "vitest";
import { progressText } from "../../src/access/tryProgress";

const at = (day: number, hour: number, minute: number) => new Date(2026, 10, day, hour, minute);
const clock = (time: Date) => time.toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });

describe("how far a try is", () => {
  it("is how many of its cards are right, and when it was changed: by the clock today, by the day before that", () => {
    const time = at(26, 14, 5);
    const progress = { right: 2, cards: 4, changedAt: time.getTime() };
    expect(progressText(progress, at(26, 15, 0))).toBe(`2 of 4 right, last changed at ${clock(time)}`);
    const day = time.toLocaleDateString([], { day: "numeric", month: "long" });
    expect(progressText(progress, at(27, 9, 0))).toBe(`2 of 4 right, last changed on ${day}`);
  });

  it("is not counted where the board asks for nothing that can be entered", () =>
    expect(progressText({ right: 0, cards: 0, changedAt: 0 }, at(26, 15, 0))).toBe("nothing to enter"));
});
