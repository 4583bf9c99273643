import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { inkSpot } from "../../shared/board";
import { type PointerSample, readTrack, spotAt, TRACK_SPAN, writeTrack } from "../../shared/replay";

/** Twentieths of a grid step, which is what a track keeps. */
const at = fc.option(
  fc
    .tuple(fc.integer({ min: -4000, max: 4000 }), fc.integer({ min: -4000, max: 4000 }))
    .map(([x, y]) => inkSpot(x / 20, y / 20)),
);
const tracks = fc
  .array(fc.record({ wait: fc.integer({ min: 0, max: 3000 }), at }), { maxLength: 100 })
  .map((steps): readonly PointerSample[] => {
    let time = 1_700_000_000_000;
    return steps.map(({ wait, at: spot }) => {
      time += wait;
      return { time, at: spot };
    });
  });

describe("a pointer track", () => {
  it("is read as it was written, on and off the board", () => {
    fc.assert(
      fc.property(tracks, fc.nat(5000), (samples, wait) => {
        const end = (samples.at(-1)?.time ?? 0) + wait;
        expect(readTrack(writeTrack(samples, end), end)).toEqual(samples);
      }),
    );
  });

  it("takes four bytes a sample at most while somebody moves at three grid steps in a tenth of a second", () => {
    const samples = Array.from({ length: 100 }, (_, index) => ({
      time: 1_700_000_000_000 + index * 100,
      at: inkSpot(index * 3, -index * 2),
    }));
    expect(writeTrack(samples, 1_700_000_000_000 + TRACK_SPAN).length).toBeLessThanOrEqual(4 * 100 + 8);
  });

  it("rounds to a twentieth of a grid step, and brings what is far off back to the board's edge", () => {
    const [near, far] = [
      { time: 5, at: { x: 1.26, y: -0.01 } },
      { time: 6, at: { x: 1e9, y: Number.NaN } },
    ];
    expect(readTrack(writeTrack([near, far], 10), 10)).toEqual([
      { time: 5, at: { x: 1.25, y: 0 } },
      { time: 6, at: { x: 10_000, y: 0 } },
    ]);
  });

  it("that is cut short, goes on behind its end, or is of another format is null", () => {
    const whole = writeTrack([{ time: 5, at: { x: 1, y: 2 } }], 10);
    for (let length = 0; length < whole.length; length++) expect(readTrack(whole.slice(0, length), 10)).toBeNull();
    expect(readTrack(Uint8Array.of(...whole, 0), 10)).toBeNull();
    expect(readTrack(Uint8Array.of(2, ...whole.slice(1)), 10)).toBeNull();
  });

  it("is never more than null, whatever its bytes are", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 40 }), (bytes) => {
        const samples = readTrack(bytes, 1000);
        expect(samples === null || samples.every((sample) => Number.isFinite(sample.time))).toBe(true);
      }),
    );
  });
});

describe("where a pointer is", () => {
  const samples: readonly PointerSample[] = [
    { time: 1000, at: { x: 0, y: 0 } },
    { time: 1100, at: { x: 2, y: 4 } },
    { time: 5000, at: { x: 9, y: 9 } },
    { time: 5100, at: null },
  ];

  it.each([
    ["nowhere before the first sample", 999, null],
    ["half way between two quick samples", 1050, { x: 1, y: 2 }],
    ["where it rested until it moved again", 4000, { x: 2, y: 4 }],
    ["where it was last until it left", 5050, { x: 9, y: 9 }],
    ["nowhere once it has left the board", 6000, null],
  ])("is %s", (_what, time, spot) => expect(spotAt(samples, time)).toEqual(spot));
});
