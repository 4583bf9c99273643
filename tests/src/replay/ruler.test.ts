import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { apart, marksOf, rulerOf, shareAt, timeAt } from "../../../src/replay/ruler";

/** Idle stretches in order and apart, within a session of 100 s. */
const folds = fc.uniqueArray(fc.integer({ min: 1, max: 99_999 }), { minLength: 0, maxLength: 12 }).map((times) => {
  const sorted = times.sort((a, b) => a - b);
  return Array.from({ length: Math.floor(sorted.length / 2) }, (_, i) => ({
    from: sorted[2 * i] as number,
    to: sorted[2 * i + 1] as number,
  }));
});

describe("the ruler of a session", () => {
  it("is straight where nothing is folded", () => {
    const ruler = rulerOf(1000, 11_000, []);
    expect([shareAt(ruler, 1000), shareAt(ruler, 6000), shareAt(ruler, 11_000)]).toEqual([0, 0.5, 1]);
    expect(timeAt(ruler, 0.25)).toBe(3500);
  });

  it("gives a folded stretch the same little room, however long it was", () => {
    const ruler = rulerOf(0, 200_000, [{ from: 50_000, to: 150_000 }]);
    const [before, fold, after] = ruler.pieces;
    expect([before?.isFold, fold?.isFold, after?.isFold]).toEqual([false, true, false]);
    expect((fold?.end ?? 0) - (fold?.start ?? 0)).toBeCloseTo(0.014, 10);
    // What is left is as long before the fold as behind it.
    expect(before?.end).toBeCloseTo((1 - 0.014) / 2, 10);
    expect(after?.end).toBeCloseTo(1, 10);
  });

  it("goes from 0 to 1 without gaps, rising, and back to the same time", () =>
    fc.assert(
      fc.property(folds, fc.integer({ min: 0, max: 100_000 }), (given, time) => {
        const ruler = rulerOf(0, 100_000, given);
        ruler.pieces.forEach((piece, i) => {
          expect(piece.start).toBeCloseTo(ruler.pieces[i - 1]?.end ?? 0, 9);
          expect(piece.end).toBeGreaterThan(piece.start);
        });
        expect(ruler.pieces.at(-1)?.end).toBeCloseTo(1, 9);
        expect(timeAt(ruler, shareAt(ruler, time))).toBeCloseTo(time, 3);
      }),
    ));

  it("is of one piece for a session that has no length", () => {
    const ruler = rulerOf(5000, 5000, []);
    expect([shareAt(ruler, 5000), timeAt(ruler, 0.5)]).toEqual([0, 5000]);
  });

  it("has its marks at round times, far enough apart, and none in a fold or at the very end", () => {
    const ruler = rulerOf(0, 600_000, [{ from: 100_000, to: 500_000 }]);
    const marks = marksOf(ruler, 0.1);
    // 200 s are seen; a tenth of the ruler is some 20 s of them, so there is a mark each 30 s.
    expect(marks.map(({ elapsed }) => elapsed / 1000)).toEqual([0, 30, 60, 90, 510, 540, 570]);
  });

  it("leaves out what would lie on the mark before it", () => {
    const shares = [0, 0.05, 0.1, 0.12, 0.3].map((share) => ({ share }));
    expect(apart(shares, 0.1).map(({ share }) => share)).toEqual([0, 0.1, 0.3]);
  });
});
