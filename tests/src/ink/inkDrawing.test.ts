import { describe, expect, it } from "vitest";
import { entryId, INK_COLOURS, type InkMark } from "../../../shared/board";
import { ACCENTS } from "../../../src/figure";
import { INK_SHADES } from "../../../src/ink";
import { markAt } from "../../../src/ink/inkHit";
import { arrowPath, markBox, strokePath } from "../../../src/ink/inkPath";
import { inkWords } from "../../../src/ink/inkWords";
import { mathRuns } from "../../../src/ink/mathRuns";
import { contrast } from "../contrast";

const base = { colour: "ink" as const, card: [] };
const pen = (name: string, ...xs: readonly number[]): InkMark => ({
  ...base,
  id: entryId(name),
  kind: "pen",
  spots: xs.map((x) => ({ x, y: 0 })),
});

describe("a stroke's path", () => {
  // 24 pixels are one grid step.
  it("is a straight line where the spots are, and a dot for a single one", () => {
    expect(
      strokePath([
        { x: 0, y: 0 },
        { x: 1, y: 0 },
      ]),
    ).toBe("M0 0L24 0");
    expect(strokePath([{ x: 1, y: 2 }])).toBe("M24 48h0.01");
    expect(strokePath([])).toBe("");
  });

  it("bends through its spots, with handles along the chord of the neighbours", () =>
    // Through (24, 0) the line goes along (0, 0)→(48, 24), a third of each piece (8 and 11.3 px) before and after it.
    expect(
      strokePath([
        { x: 0, y: 0 },
        { x: 1, y: 0 },
        { x: 2, y: 1 },
      ]),
    ).toBe("M0 0C0 0 16.8 -3.6 24 0C34.1 5.1 48 24 48 24"));

  it("keeps a sharp corner sharp", () =>
    expect(
      strokePath([
        { x: 0, y: 0 },
        { x: 1, y: 0 },
        { x: 1, y: 1 },
      ]),
    ).toBe("M0 0L24 0L24 24"));
});

it("an arrow's head is two barbs at its tip, 13 px long and 0.45 rad to either side", () =>
  // 13 cos 0.45 = 11.7, 13 sin 0.45 = 5.7
  expect(arrowPath({ x: 0, y: 0 }, { x: 2, y: 0 })).toBe("M0 0L48 0M36.3 -5.7L48 0L36.3 5.7"));

it("a mark's box takes in the width of its line", () =>
  // 2.6/2 px for the pen's width and 1 px to spare on each side
  expect(Object.values(markBox(pen("a", 1, 3))).map((each) => each.toFixed(6))).toEqual(
    [21.7, -2.3, 52.6, 4.6].map((each) => each.toFixed(6)),
  ));

describe("what lies under the pointer", () => {
  const marks = [
    pen("below", 0, 4),
    pen("above", 2, 6),
    { ...base, id: entryId("n"), kind: "note", at: { x: 0, y: 0 }, text: "x" } as const,
  ];
  it("is the mark that was made last, a note never", () => {
    expect(markAt(marks, { x: 3, y: 0.1 }, 4)?.id).toBe("above");
    expect(markAt(marks, { x: 1, y: 0.1 }, 4)?.id).toBe("below");
  });

  it("is nothing farther than the reach", () => {
    // 0.25 steps are 6 px: half the pen's 2.6 px and 4 px of reach do not come that far, 5 px do.
    expect(markAt(marks, { x: 1, y: 0.25 }, 4)).toBeNull();
    expect(markAt(marks, { x: 1, y: 0.25 }, 5)?.id).toBe("below");
  });

  it("is also a dot", () => expect(markAt([pen("dot", 1)], { x: 1.1, y: 0 }, 4)?.id).toBe("dot"));
});

describe("mathematics in words", () => {
  const runs = (text: string) => mathRuns(text).map((run) => `${run.kind}:${run.text}`);
  it("stands between dollar signs", () =>
    expect(runs("so $R_1 \\parallel R_2$ is $1$ kΩ")).toEqual([
      "words:so ",
      "math:R_1 \\parallel R_2",
      "words: is ",
      "math:1",
      "words: kΩ",
    ]));

  it("ends at a dollar sign that is not escaped", () => expect(runs("$a\\$b$ c")).toEqual(["math:a\\$b", "words: c"]));

  it("is none where a dollar sign is alone, escaped, or has nothing after it", () => {
    expect(runs("5 $ each")).toEqual(["words:5 $ each"]);
    expect(runs("\\$5 and \\$6")).toEqual(["words:$5 and $6"]);
    expect(runs("$$ and $ $")).toEqual(["words:$$ and $ $"]);
  });
});

describe("each ink", () => {
  // The papers' sheets, as in tokens.css. 4.5:1 is for text (WCAG 2.2, 1.4.3), which notes are; lines need 3:1.
  it.each(INK_COLOURS)("%s is legible on light and on dark paper", (colour) => {
    expect(contrast(INK_SHADES[colour].light, "#fffefb")).toBeGreaterThanOrEqual(4.5);
    expect(contrast(INK_SHADES[colour].light, "#fff3cf")).toBeGreaterThanOrEqual(4.5);
    expect(contrast(INK_SHADES[colour].dark, "#181d24")).toBeGreaterThanOrEqual(4.5);
  });

  it.each(INK_COLOURS)("%s is the colour of no source", (colour) => {
    expect(ACCENTS.map((accent) => accent.colour)).not.toContain(INK_SHADES[colour].light);
  });
});

it("ink is told in words by kind and colour, notes being words already", () => {
  const note: InkMark = { ...base, id: entryId("n"), kind: "note", at: { x: 0, y: 0 }, text: "x" };
  const arrow: InkMark = { ...base, id: entryId("a"), kind: "arrow", from: { x: 0, y: 0 }, to: { x: 1, y: 0 } };
  expect(inkWords([pen("1", 0), pen("2", 0), note, arrow])).toBe("Ink: 2 pen lines in ink, 1 arrow in ink.");
  expect(inkWords([note])).toBe("");
});
