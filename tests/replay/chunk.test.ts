import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  BEGINNING,
  type Chunk,
  KINDS,
  kindOfNumber,
  numberOfKind,
  readCheckpoint,
  readChunk,
  readTimeline,
  timelineOf,
  writeCheckpoint,
  writeChunk,
  writeTimeline,
} from "../../shared/replay";

const kind = fc.oneof(fc.constantFrom(...KINDS), fc.constantFrom("", "wave", "update2"));
const chunks = fc
  .record({
    first: fc.integer({ min: 1, max: 1e6 }),
    next: fc.nat(1e6),
    each: fc.array(
      fc.record({
        time: fc.integer({ min: 0, max: 2e12 }),
        participant: fc.nat(1000),
        kind,
        bytes: fc.uint8Array({ maxLength: 20 }),
      }),
      { minLength: 1, maxLength: 20 },
    ),
  })
  .map(
    ({ first, next, each }): Chunk => ({
      next,
      entries: each.map((entry, index) => ({ ...entry, sequence: first + index })),
    }),
  );

describe("a chunk of entries", () => {
  it("is read as it was written, with kinds that have no number and with a clock that was put back", () => {
    fc.assert(
      fc.property(chunks, (chunk) => {
        expect(readChunk(writeChunk(chunk))).toEqual(chunk);
      }),
    );
  });

  it("that is cut short anywhere is null", () => {
    const entry = { sequence: 7, time: 5, participant: 1, kind: "wave", bytes: Uint8Array.of(1, 2) };
    const whole = writeChunk({ entries: [entry, { ...entry, sequence: 8, kind: "try" }], next: 9 });
    for (let length = 0; length < whole.length; length++) expect(readChunk(whole.slice(0, length))).toBeNull();
    expect(readChunk(Uint8Array.of(...whole, 0))).toBeNull();
  });

  it("can't leave an entry out", () => {
    const entry = { sequence: 7, time: 5, participant: 1, kind: "join", bytes: new Uint8Array() };
    expect(() => writeChunk({ entries: [entry, { ...entry, sequence: 9 }], next: 0 })).toThrow(
      "got entry 9 in a chunk, expected 8",
    );
  });
});

describe("a timeline", () => {
  const heads = fc.array(fc.record({ time: fc.integer({ min: 0, max: 2e12 }), participant: fc.nat(1000), kind }));

  it("is read as it was written", () => {
    fc.assert(
      fc.property(heads, (each) => {
        const timeline = timelineOf(each.map((head, index) => ({ ...head, sequence: index + 1 })));
        expect(readTimeline(writeTimeline(timeline))).toEqual(timeline);
      }),
    );
  });

  it("that is cut short anywhere, or claims more entries than it has bytes for, is null", () => {
    const whole = writeTimeline(timelineOf([{ sequence: 1, time: 1e12, participant: 3, kind: "update" }]));
    for (let length = 0; length < whole.length; length++) expect(readTimeline(whole.slice(0, length))).toBeNull();
    expect(readTimeline(Uint8Array.of(1, 255, 255, 255, 127, 0, 0, 0))).toBeNull();
  });
});

describe("a checkpoint", () => {
  it("is read as it was written, and is null where it is cut short", () => {
    for (const isThin of [false, true]) {
      const checkpoint = { moment: { ...BEGINNING, here: [1, 3] }, board: Uint8Array.of(0, 0), isThin };
      const whole = writeCheckpoint(checkpoint);
      expect(readCheckpoint(whole)).toEqual(checkpoint);
      for (let length = 0; length < whole.length; length++) expect(readCheckpoint(whole.slice(0, length))).toBeNull();
    }
  });
});

it("kinds keep the numbers that they have always had", () => {
  expect(KINDS.map(numberOfKind)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15]);
  expect(KINDS.slice(0, 4)).toEqual(["update", "settings", "reveal", "lines"]);
  expect([numberOfKind("wave"), kindOfNumber(0), kindOfNumber(200)]).toEqual([0, null, null]);
});
