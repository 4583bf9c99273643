import { afterEach, describe, expect, it, vi } from "vitest";
import { canServe, KeptPicture, type Picture } from "../../src/board/keptPicture";

/** A picture of a pane of 800 × 600 with half of it more on each side, taken at scale 1 with the origin at (100, 50). */
const PICTURE: Picture = {
  canvas: { width: 1600, height: 1200 } as HTMLCanvasElement,
  scale: 1,
  x: 100 + 400,
  y: 50 + 300,
};
const pane = (scale: number, x: number, y: number) => ({ scale, x, y, width: 800, height: 600 });
/** The pane zoomed about its middle. */
const zoomed = (factor: number) => pane(factor, 400 - (400 - 100) * factor, 300 - (300 - 50) * factor);

describe("a picture of the drawing serves", () => {
  it.each([
    ["where it was taken", pane(1, 100, 50), true],
    ["panned by as much as it reaches beyond the pane", pane(1, 500, -250), true],
    ["panned farther", pane(1, 501, 50), false],
    ["zoomed in, stretched", zoomed(1.5), true],
    ["zoomed in so far that it would be a blur", zoomed(1.7), false],
    ["zoomed out, while it still covers the pane", zoomed(0.65), true],
    ["zoomed out farther than its lines bear", zoomed(0.6), false],
    ["zoomed out at the edge of what it shows", pane(0.65, 600, 50), false],
  ] as const)("%s: %s", (_what, place, serves) => expect(canServe(PICTURE, place, false)).toBe(serves));

  it("only at its own scale once the view is still", () => {
    expect(canServe(PICTURE, zoomed(1.1), true)).toBe(false);
    expect(canServe(PICTURE, pane(1, 120, 60), true)).toBe(true);
  });
});

describe("a kept picture", () => {
  afterEach(() => vi.unstubAllGlobals());

  /** A canvas of 800 × 600 that notes what is copied onto it, and that has the drawing's origin at `x`. */
  const canvas = (x: number) => {
    const copied: number[][] = [];
    const context = {
      canvas: { width: 800, height: 600 },
      getTransform: () => ({ a: 1, e: x, f: 0 }),
      drawImage: (_picture: unknown, ...at: number[]) => copied.push(at),
      ...{ save() {}, restore() {}, setTransform() {} },
    } as unknown as CanvasRenderingContext2D;
    return { context, copied };
  };
  const painted = (x: number, kept: KeptPicture, painting: () => void) => {
    const { context, copied } = canvas(x);
    kept.paint(context, painting, true);
    return copied;
  };

  it("paints what is new itself, then takes its picture once and copies it while the paper is panned", () => {
    vi.stubGlobal("document", { createElement: () => ({ getContext: () => canvas(0).context }) });
    const kept = new KeptPicture();
    const drawing = vi.fn();
    expect(painted(0, kept, drawing)).toEqual([]);
    expect(drawing).toHaveBeenCalledTimes(1);
    // The picture begins half a pane before the pane that it was taken for.
    expect(painted(10, kept, drawing)).toEqual([[-400, -300]]);
    expect(painted(25, kept, drawing)).toEqual([[-385, -300]]);
    expect(drawing).toHaveBeenCalledTimes(2);
  });

  it("is not shown for another drawing", () => {
    vi.stubGlobal("document", { createElement: () => ({ getContext: () => canvas(0).context }) });
    const kept = new KeptPicture();
    painted(0, kept, vi.fn());
    painted(0, kept, vi.fn());
    const changed = vi.fn();
    expect(painted(0, kept, changed)).toEqual([]);
    expect(changed).toHaveBeenCalledTimes(1);
  });
});
