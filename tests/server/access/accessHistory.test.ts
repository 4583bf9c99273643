import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type AccessChange, changed, OPEN_ACCESS, type RoomAccess } from "../../../server/access";
import { ENTRY, type HistoryEntry, jsonBytes } from "../../../server/history";
import { accessFrom, kindOf } from "../../../server/room/accessHistory";

const id = fc.constantFrom("ann", "bob", "hart");
const name = fc.constantFrom("Ann", "Bob", "Prof. Hart");
const change: fc.Arbitrary<AccessChange> = fc.oneof(
  fc.record({
    do: fc.constant("admit" as const),
    participant: id,
    name,
    role: fc.constantFrom("instructor" as const, "learner" as const, "observer" as const),
  }),
  fc.record({
    do: fc.constant("setDrawing" as const),
    who: fc.constantFrom("everyone" as const, "chosen" as const, "instructor" as const),
  }),
  fc.record({ do: fc.constant("setMayDraw" as const), participant: id, may: fc.boolean() }),
  fc.record({ do: fc.constant("setAnswers" as const), shown: fc.boolean() }),
  fc.record({
    do: fc.constant("setShown" as const),
    card: fc.constantFrom("V1", "I1+V1", "total"),
    shown: fc.boolean(),
  }),
  fc.record({
    do: fc.constant("showLines" as const),
    wanted: fc.constantFrom("Iy", "V(a, b)"),
    card: fc.constantFrom("V1", "V1+I1", "total"),
    lines: fc.oneof(fc.nat(20), fc.constant("all" as const)),
    reveals: fc.subarray(["V1", "total"]),
  }),
  fc.record({ do: fc.constant("showAllLines" as const), shown: fc.boolean() }),
  fc.record({ do: fc.constant("renameParticipant" as const), participant: id, name }),
  fc.record({ do: fc.constant("removeParticipant" as const), participant: id }),
  fc.record({ do: fc.constant("lock" as const), locked: fc.boolean() }),
  fc.record({ do: fc.constant("end" as const) }),
);

const accessAfter = (changes: readonly AccessChange[]) => changes.reduce<RoomAccess>(changed, OPEN_ACCESS);
const entry = (kind: string, bytes: Uint8Array, sequence = 1): HistoryEntry => {
  return { room: "a", sequence, time: 0, participant: "hart", kind, bytes };
};
const entriesOf = (changes: readonly AccessChange[]) =>
  changes.map((each, index) => entry(kindOf(each), jsonBytes(each), index + 1));

describe("a room's access", () => {
  it("comes back from its history, with a snapshot anywhere in it, as it was", () => {
    fc.assert(
      fc.property(fc.array(change, { maxLength: 20 }), fc.nat(20), (changes, at) => {
        const snapshot = { room: "a", sequence: at, time: 0, bytes: new Uint8Array(), thin: null };
        const access = JSON.stringify(accessAfter(changes.slice(0, at)));
        expect(accessFrom({ snapshot: null, entries: entriesOf(changes) })).toEqual(accessAfter(changes));
        const entries = entriesOf(changes).slice(at);
        expect(accessFrom({ snapshot: { ...snapshot, access }, entries })).toEqual(accessAfter(changes));
      }),
    );
  });

  it("is open where nothing is known of it: no history, an old snapshot, or bytes that nobody can read", () => {
    const snapshot = { room: "a", sequence: 1, time: 0, bytes: new Uint8Array(), thin: null, access: null };
    expect(accessFrom({ snapshot, entries: [] })).toEqual(OPEN_ACCESS);
    const broken = ["", "{", "7", '{"do":"promote"}', '{"do":"end","force":1}'].map((text) =>
      new TextEncoder().encode(text),
    );
    const entries = broken.map((bytes, index) => entry(ENTRY.settings, bytes, index + 1));
    expect(accessFrom({ snapshot: { ...snapshot, access: "{}" }, entries })).toEqual(OPEN_ACCESS);
  });

  it("is read from a snapshot that was stored before there were worked lines, with none shown", () => {
    const { lines: _, ...old } = {
      ...accessAfter([{ do: "lock", locked: true }]),
      answers: { shown: false, except: [] },
    };
    const snapshot = {
      room: "a",
      sequence: 1,
      time: 0,
      bytes: new Uint8Array(),
      thin: null,
      access: JSON.stringify(old),
    };
    expect(accessFrom({ snapshot, entries: [] })).toEqual({ ...old, lines: { shown: false, except: [] } });
  });

  it("is changed by settings, what is revealed and which lines are shown, and by no other kind of entry", () => {
    const end = jsonBytes({ do: "end" });
    for (const kind of [ENTRY.update, ENTRY.join, ENTRY.leave, ENTRY.call, "anything"]) {
      expect(accessFrom({ snapshot: null, entries: [entry(kind, end)] })).toEqual(OPEN_ACCESS);
    }
    expect(kindOf({ do: "setShown", card: "V1", shown: true })).toBe("reveal");
    expect(kindOf({ do: "setAnswers", shown: true })).toBe("reveal");
    expect(kindOf({ do: "showAllLines", shown: true })).toBe("lines");
    expect(kindOf({ do: "showLines", wanted: "Iy", card: "V1", lines: 1, reveals: [] })).toBe("lines");
    expect(kindOf({ do: "end" })).toBe("settings");
  });
});
