import { describe, expect, it } from "vitest";
import { SnapshotSeries } from "../../../server/room/snapshotPlan";

/** Snapshots that stay of a room that has one each `every` entries of so many bytes. */
function kept(entries: number, every: number, bytes: number): readonly number[] {
  const series = new SnapshotSeries(null);
  const snapshots: number[] = [];
  for (let sequence = 1; sequence <= entries; sequence++) {
    series.count(bytes);
    if (sequence % every !== 0) continue;
    const superfluous = series.added(sequence);
    if (superfluous !== null) snapshots.splice(snapshots.indexOf(superfluous), 1);
    snapshots.push(sequence);
  }
  return snapshots;
}

describe("the snapshots that stay when they are superseded", () => {
  it("are at most a thousand entries apart, and the newest is always there", () => {
    expect(kept(3100, 200, 50)).toEqual([200, 1200, 2200, 3000]);
    expect(kept(900, 200, 50)).toEqual([200, 800]);
  });

  it("are no more bytes of entries apart than a half megabyte", () => {
    // 100 entries of 2 kB are 200 kB: of three snapshots the middle one is not needed, of four one of them is.
    expect(kept(800, 100, 2048)).toEqual([100, 300, 500, 700, 800]);
  });

  it("are all kept where they are far apart", () => {
    expect(kept(4000, 1000, 50)).toEqual([1000, 2000, 3000, 4000]);
  });

  it("go on from the newest one of a room that was loaded", () => {
    const series = new SnapshotSeries(500);
    expect([600, 700, 1400, 1600].map((sequence) => series.added(sequence))).toEqual([null, 600, 700, null]);
  });
});
