import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { Watch } from "../../../server/room/watch";
import { type PointerSample, readTrack } from "../../../shared/replay";

type Kept = { readonly kind: string; readonly participant: string; readonly time: number; readonly bytes: Uint8Array };

let kept: Kept[] = [];
let watch: Watch;

beforeEach(() => {
  vi.useFakeTimers({ now: 1_700_000_000_000 });
  kept = [];
  const record = (kind: string, participant: string, bytes: Uint8Array) =>
    void kept.push({ kind, participant, bytes, time: Date.now() });
  watch = new Watch({ record, now: Date.now });
});
afterEach(() => {
  watch.destroy();
  vi.useRealTimers();
});

const looks = (): readonly unknown[] =>
  kept.filter(({ kind }) => kind === "look").map(({ bytes }) => JSON.parse(new TextDecoder().decode(bytes)));
const samples = (): readonly PointerSample[] =>
  kept.filter(({ kind }) => kind === "pointers").flatMap(({ bytes, time }) => readTrack(bytes, time) ?? []);
const since = (time: number) => time - 1_700_000_000_000;

describe("where somebody points", () => {
  it("is kept ten times a second at most, and where the pointer came to rest", () => {
    for (let x = 0; x < 20; x++) {
      watch.see("ann", { pointer: [x, 0] });
      vi.advanceTimersByTime(25);
    }
    watch.leave("ann");
    expect(samples().map(({ time, at }) => [since(time), at?.x])).toEqual([
      [0, 0],
      [100, 4],
      [200, 8],
      [300, 12],
      [400, 16],
      [475, 19],
    ]);
  });

  it("is recorded ten seconds after the track began, without anybody doing more", () => {
    watch.see("ann", { pointer: [1, 2] });
    vi.advanceTimersByTime(9900);
    expect(kept).toEqual([]);
    vi.advanceTimersByTime(700);
    expect(kept.map(({ kind, participant }) => [kind, participant])).toEqual([["pointers", "ann"]]);
    expect(samples()).toEqual([{ time: 1_700_000_000_000, at: { x: 1, y: 2 } }]);
  });

  it("is one entry in ten seconds while somebody points without a pause", () => {
    for (let tenth = 0; tenth < 590; tenth++) {
      watch.see("ann", { pointer: [tenth / 10, 0] });
      vi.advanceTimersByTime(100);
    }
    expect(kept.length).toBe(5);
    watch.leave("ann");
    expect(kept.length).toBe(6);
    expect(samples().length).toBe(590);
  });

  it("costs nothing while the pointer rests, and is told when it leaves the board", () => {
    watch.see("ann", { pointer: [1, 2] });
    for (let second = 0; second < 60; second++) {
      vi.advanceTimersByTime(1000);
      watch.see("ann", { pointer: [1, 2] });
    }
    expect(kept.length).toBe(1);
    watch.see("ann", { pointer: null });
    watch.leave("ann");
    expect(samples().map(({ at }) => at)).toEqual([{ x: 1, y: 2 }, null]);
  });

  it("is nothing where what a page shows is of the wrong form", () => {
    for (const pointer of ["1,2", [1], [1, "2"], [Number.NaN, 0], { x: 1, y: 2 }, undefined])
      watch.see("ann", { pointer });
    watch.leave("ann");
    expect(kept).toEqual([]);
  });
});

describe("the card that somebody looks at", () => {
  it("is recorded at once, and no more than once a second while they leaf through the cards", () => {
    watch.see("ann", { card: "total", wanted: "w1" });
    for (const card of ["V1", "V2", "I1"]) watch.see("ann", { card, wanted: "w1" });
    expect(looks()).toEqual([{ card: "total", wanted: "w1" }]);
    vi.advanceTimersByTime(1500);
    expect(looks()).toEqual([
      { card: "total", wanted: "w1" },
      { card: "I1", wanted: "w1" },
    ]);
  });

  it("is recorded before its participant leaves, and each participant's by itself", () => {
    watch.see("ann", { card: "V1", wanted: null });
    watch.see("bob", { card: "V2", wanted: null });
    watch.see("ann", { card: "V3", wanted: null });
    watch.leave("ann");
    expect(kept.map(({ participant }) => participant)).toEqual(["ann", "bob", "ann"]);
    expect(looks().at(-1)).toEqual({ card: "V3", wanted: null });
  });

  it("is not recorded again while it stays the same, nor taken from what is no card", () => {
    for (const card of ["V1", "V1", "", 7, "V".repeat(501), null]) {
      watch.see("ann", { card, wanted: null });
      vi.advanceTimersByTime(2000);
    }
    expect(looks()).toEqual([{ card: "V1", wanted: null }]);
  });
});
