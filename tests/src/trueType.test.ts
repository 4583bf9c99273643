import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readTrueType } from "../../src/file/trueType";

/** A font of our own making: A is a square with one round corner, B is two of A, the second half as large. */
function ownFont(): ArrayBuffer {
  const square = [1, 0, 0, 0, 0, 100, 100]; // one contour, and its box
  // Ends at spot 4; no instructions. Spots: (0,0) (100,0) (100,50) a handle at (100,100), (0,100).
  const spots = bytes16(4, 0).concat([0x01 | 0x10 | 0x20, 0x01 | 0x02 | 0x10 | 0x20, 0x01 | 0x10 | 0x04 | 0x20]);
  const flags = [...spots, 0x10 | 0x04 | 0x20, 0x01 | 0x02 | 0x20];
  const glyphA = [...bytes16(square[0] as number, 0, 0, 100, 100), ...flags, 100, 100, 50, 50];
  const composite = [
    ...bytes16(-1, 0, 0, 250, 100),
    // The first as it is, by offsets in bytes, and more to come; the second halved, by offsets in words.
    ...bytes16(2 | 32, 1),
    ...[0, 0],
    ...bytes16(1 | 2 | 8, 1, 200, -10, 0x2000),
  ];
  const pad = (list: number[]) => (list.length % 2 === 0 ? list : [...list, 0]);
  const [a, b] = [pad(glyphA), pad(composite)];
  const loca = bytes16(0, 0, a.length / 2, (a.length + b.length) / 2);
  const head = [...new Array(18).fill(0), ...bytes16(1000), ...new Array(30).fill(0), ...bytes16(0, 0)];
  // Format 4, with a segment from A to B that is mapped by its delta, and the closing one.
  const map = bytes16(4, 32, 0, 4, 0, 0, 0, 66, 0xffff, 0, 65, 0xffff, 1 - 65, 1, 0, 0);
  const cmap = [...bytes16(0, 1, 3, 1), 0, 0, 0, 12, ...map];
  return fontOf({ cmap, glyf: [...a, ...b], head, loca });
}

function bytes16(...values: readonly number[]): number[] {
  return values.flatMap((value) => [(value >> 8) & 0xff, value & 0xff]);
}

function bytes32(value: number): number[] {
  return [24, 16, 8, 0].map((shift) => (value >> shift) & 0xff);
}

function fontOf(tables: Readonly<Record<string, readonly number[]>>): ArrayBuffer {
  const names = Object.keys(tables);
  let at = 12 + 16 * names.length;
  const records: number[] = [];
  const body: number[] = [];
  for (const name of names) {
    const table = tables[name] ?? [];
    records.push(
      ...[...name].map((letter) => letter.charCodeAt(0)),
      ...bytes32(0),
      ...bytes32(at),
      ...bytes32(table.length),
    );
    body.push(...table);
    at += table.length;
  }
  return new Uint8Array([0, 1, 0, 0, ...bytes16(names.length, 0, 0, 0), ...records, ...body]).buffer;
}

function fileOf(path: string): ArrayBuffer {
  const file = readFileSync(path);
  return file.buffer.slice(file.byteOffset, file.byteOffset + file.byteLength) as ArrayBuffer;
}

/** The box of all spots of a path, handles included. */
function extentOf(path: string) {
  const numbers = [...path.matchAll(/-?[\d.]+/g)].map(Number);
  const [xs, ys] = [numbers.filter((_, i) => i % 2 === 0), numbers.filter((_, i) => i % 2 === 1)];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}

describe("a font of our own", () => {
  const font = readTrueType(ownFont());

  it("gives straight lines and a curve, y downward", () => {
    expect(font.unitsPerEm).toBe(1000);
    expect(font.pathOf("A")).toBe("M0 0L100 0L100 -50Q100 -100 0 -100L0 0Z");
  });

  it("gives a glyph that is made of others, each in its place and size", () => {
    expect(font.pathOf("B")).toBe(
      "M0 0L100 0L100 -50Q100 -100 0 -100L0 0ZM200 10L250 10L250 -15Q250 -40 200 -40L200 10Z",
    );
  });

  it("has no outline for a character that it lacks", () => expect(font.pathOf("C")).toBeNull());
});

describe("KaTeX's fonts", () => {
  const load = (name: string) => readTrueType(fileOf(`node_modules/katex/dist/fonts/${name}.ttf`));

  it("are all read, each with outlines for what stands in it", () => {
    const faces: readonly (readonly [string, string])[] = [
      ["KaTeX_Main-Regular", "1(√"],
      ["KaTeX_Main-Bold", "R"],
      ["KaTeX_Math-Italic", "Vω"],
      ["KaTeX_Size1-Regular", "(∑"],
      ["KaTeX_Size4-Regular", "("],
      ["KaTeX_AMS-Regular", "R"],
      ["KaTeX_Caligraphic-Regular", "L"],
    ];
    for (const [name, letters] of faces) {
      const font = load(name);
      for (const letter of letters) expect(font.pathOf(letter), `${letter} of ${name}`).toMatch(/^M.*Z$/);
    }
  });

  it("have a plus sign that is twelve straight lines about the middle of the line", () => {
    const path = load("KaTeX_Main-Regular").pathOf("+") ?? "";
    const [left = 0, top = 0, right = 0, bottom = 0] = extentOf(path);
    // As wide as it is high, about the axis of mathematics, a quarter of an em above the baseline.
    expect(Math.abs(right - left - (bottom - top))).toBeLessThan(30);
    expect(Math.abs((top + bottom) / 2 + 250)).toBeLessThan(10);
  });

  it("have larger brackets in larger sizes", () => {
    const heights = [1, 2, 3, 4].map((size) => {
      const [, top = 0, , bottom = 0] = extentOf(load(`KaTeX_Size${size}-Regular`).pathOf("(") ?? "");
      return bottom - top;
    });
    expect(heights).toEqual([...heights].sort((a, b) => a - b));
    expect(heights[3]).toBeGreaterThan(2500);
  });

  it("give nothing for a character of another script", () => {
    expect(load("KaTeX_Main-Regular").pathOf("漢")).toBeNull();
    expect(load("KaTeX_Main-Regular").pathOf("𝔸")).toBeNull();
  });
});

it.each([
  ["nothing", new ArrayBuffer(0)],
  ["text", new TextEncoder().encode("<!doctype html><title>Not found</title>").buffer as ArrayBuffer],
  ["a font without outlines", fontOf({ head: [0] })],
])("%s is refused as no font", (_what, bytes) => expect(() => readTrueType(bytes)).toThrow(RangeError));
