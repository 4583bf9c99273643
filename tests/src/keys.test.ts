import { describe, expect, it } from "vitest";
import { keyMeaning } from "../../src/board/keys";

const key = (name: string, held: { shift?: true; ctrl?: true; alt?: true } = {}) =>
  keyMeaning({
    key: name,
    shiftKey: held.shift ?? false,
    ctrlKey: held.ctrl ?? false,
    metaKey: false,
    altKey: held.alt ?? false,
  });

describe("on the board", () => {
  it("arrow keys step by one, with Shift by four, with Ctrl the ring in any case", () => {
    expect(key("ArrowLeft")).toEqual({ do: "step", by: { x: -1, y: 0 }, isRing: false });
    expect(key("ArrowDown", { shift: true })).toEqual({ do: "step", by: { x: 0, y: 4 }, isRing: false });
    expect(key("ArrowUp", { ctrl: true })).toEqual({ do: "step", by: { x: 0, y: -1 }, isRing: true });
  });

  it.each(["r", "v", "i", "c", "l", "w", "g"])("no letter stands for a part: %s means nothing", (letter) => {
    expect(key(letter)).toBeNull();
    expect(key(letter.toUpperCase(), { shift: true })).toBeNull();
  });

  it("what the browser does with Ctrl stays the browser's, but for duplicate and select all", () => {
    expect(["c", "x", "v", "t", "n", "p", "+", "0"].map((each) => key(each, { ctrl: true }))).toEqual(
      Array.from({ length: 8 }, () => null),
    );
    expect(key("d", { ctrl: true })).toEqual({ do: "duplicate" });
    expect(key("A", { ctrl: true })).toEqual({ do: "all" });
  });

  it("nothing with Alt is the board's", () => expect(key("ArrowLeft", { alt: true })).toBeNull());
});
