import { describe, expect, it } from "vitest";
import { idleStretches, lastPlayed, nextEdit, playedTo, sequenceAt, timelineOf, timeOf } from "../../shared/replay";

/** Entries one after another: seconds, participant, kind. */
const lineOf = (...rows: readonly (readonly [seconds: number, participant: number, kind: string])[]) =>
  timelineOf(
    rows.map(([seconds, participant, kind], index) => ({
      sequence: index + 1,
      time: seconds * 1000,
      participant,
      kind,
    })),
  );

const LESSON = lineOf(
  [100, 1, "settings"],
  [101, 1, "join"],
  [110, 1, "update"],
  [170, 2, "update"],
  [171, 0, "solved"],
  [200, 1, "try"],
  [9000, 1, "chapter"],
);

describe("the timeline of a session", () => {
  it("says which entry was the last at a time, and when an entry came", () => {
    expect([99_999, 100_000, 100_999, 170_500, 1e9].map((time) => sequenceAt(LESSON, time))).toEqual([0, 1, 1, 4, 7]);
    expect([0, 1, 4, 99].map((sequence) => timeOf(LESSON, sequence))).toEqual([100_000, 100_000, 170_000, 9_000_000]);
  });

  it("ends with what happened in the room, not with chapters that were added afterwards", () => {
    expect(lastPlayed(LESSON)).toBe(6);
    expect(lastPlayed(timelineOf([]))).toBe(0);
  });

  it("finds the edits before and after a moment", () => {
    expect([0, 3, 4].map((at) => nextEdit(LESSON, at, 1))).toEqual([3, 4, null]);
    expect([6, 4, 3].map((at) => nextEdit(LESSON, at, -1))).toEqual([4, 3, null]);
  });

  it("goes on without a step back where the clock was put back", () => {
    const line = lineOf([100, 1, "update"], [90, 1, "update"], [105, 1, "update"]);
    expect([...line.times]).toEqual([100_000, 100_000, 105_000]);
  });
});

describe("idle stretches", () => {
  it("are those between entries that are long enough", () => {
    expect(idleStretches(LESSON, 20_000)).toEqual([
      { from: 110_000, to: 170_000 },
      { from: 171_000, to: 200_000 },
    ]);
  });

  it("end where somebody begins to point, ten seconds before the track is recorded", () => {
    const line = lineOf([100, 1, "update"], [160, 2, "update"], [165, 1, "pointers"]);
    expect(idleStretches(line, 20_000)).toEqual([{ from: 100_000, to: 155_000 }]);
  });
});

describe("playing", () => {
  const skipped = idleStretches(LESSON, 20_000);

  it("passes over idle stretches in one step", () => {
    // After 10 s it stands at the beginning of a stretch, which counts for nothing; behind it come 1 s and another stretch.
    expect(playedTo(LESSON, 100_000, 5000, 2, skipped)).toBe(110_000);
    expect(playedTo(LESSON, 110_000, 1, 1, skipped)).toBe(170_001);
    expect(playedTo(LESSON, 100_000, 10_500, 1, skipped)).toBe(170_500);
    expect(playedTo(LESSON, 100_000, 20_000, 1, skipped)).toBe(200_000);
  });

  it("goes through all of them where none is to be skipped", () => {
    expect(playedTo(LESSON, 100_000, 1000, 16, [])).toBe(116_000);
    expect(playedTo(LESSON, 100_000, 1000, 0.5, [])).toBe(100_500);
  });

  it("stops at the end", () => {
    expect(playedTo(LESSON, 199_000, 60_000, 16, [])).toBe(200_000);
  });

  it("begins in the middle of a stretch by passing over the rest of it", () => {
    expect(playedTo(LESSON, 130_000, 500, 1, skipped)).toBe(170_500);
  });
});
