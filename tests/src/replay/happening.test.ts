import { expect, it } from "vitest";
import { type ReplayEvent, readEvent } from "../../../shared/replay";
import { happeningAt, happeningText } from "../../../src/replay/happening";

const event = (sequence: number, kind: string, json: unknown = {}): ReplayEvent =>
  readEvent({ sequence, time: 0, participant: 2, kind, bytes: new TextEncoder().encode(JSON.stringify(json)) });
const TRY = { wanted: "Iy", card: "I1", text: "20 mA", judgement: { outcome: "right" }, count: 1 };
const settings = { answers: {}, lines: {} };

it("tells what happened by who did it", () => {
  const text = (kind: string, json: unknown) => happeningText(event(1, kind, json), "Ben");
  expect(text("try", TRY)).toBe("Ben tries 20 mA for Iy, I1 alone");
  expect(text("look", { card: "I1+V1", wanted: null })).toBe("Ben opens I1 and V1 together");
  expect(text("look", { card: "total", wanted: null })).toBe("Ben opens all sources");
  expect(text("reveal", { change: { do: "setShown", card: "V1", shown: false }, settings })).toBe(
    "Ben hides the answer of V1 alone",
  );
  const about = { wanted: "Iy", card: "I1", count: 1 };
  expect(text("question", { ...about, text: "Did you?", deeds: ["leave V1 on", "zero I1"] })).toBe(
    "Ben is asked about I1 alone: “Did you?”",
  );
  const answered = (said: object | null) => text("question", { ...about, said });
  expect(answered({ deed: "zero I1" })).toBe("Ben answers the question about I1 alone: “zero I1”");
  expect(answered({ deed: null })).toBe("Ben answers the question about I1 alone: “neither of these”");
  expect(answered(null)).toBe("Ben answers the question about I1 alone");
  expect(text("settings", { change: { do: "something new" }, settings })).toBe("Ben changes a setting of the room");
});

it("tells the last thing that can be told, past pointers and kinds that are not known", () => {
  const events = [
    event(1, "join"),
    event(2, "try", TRY),
    event(3, "something new"),
    event(4, "solved", { wanted: [] }),
  ];
  const log = { event: (sequence: number) => events[sequence - 1] ?? null };
  expect(happeningAt(log, 4, () => "Ben")).toBe("Ben tries 20 mA for Iy, I1 alone");
  expect(happeningAt(log, 1, () => "Ben")).toBe("Ben comes in");
  expect(happeningAt(log, 0, () => "Ben")).toBe("");
});
