import { describe, expect, it } from "vitest";
import { ACCENTS, accentOf, PAPER } from "../../src/figure";

/** Contrast ratio of two colours after WCAG 2.2 (relative luminance of sRGB). */
function contrast(a: string, b: string): number {
  const luminance = (colour: string) => {
    const [r = 0, g = 0, b = 0] = [1, 3, 5].map((i) => {
      const share = Number.parseInt(colour.slice(i, i + 2), 16) / 255;
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const [high = 0, low = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (high + 0.05) / (low + 0.05);
}

it("measures contrast as WCAG does: 21 for black on white, 5.19 for Okabe-Ito blue", () => {
  expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 5);
  expect(contrast("#0072b2", "#ffffff")).toBeCloseTo(5.19, 2);
});

describe("every accent", () => {
  it("is legible as text on each paper: at least 4.5 to 1", () => {
    for (const { colour } of ACCENTS) {
      for (const paper of [PAPER.sheet, PAPER.page, PAPER.chosen]) {
        expect({ colour, paper, legible: contrast(colour, paper) >= 4.5 }).toEqual({ colour, paper, legible: true });
      }
    }
  });

  it("has a line pattern and a mark of its own", () => {
    expect(new Set(ACCENTS.map((accent) => accent.dash.join(" "))).size).toBe(ACCENTS.length);
    expect(new Set(ACCENTS.map((accent) => accent.mark)).size).toBe(ACCENTS.length);
  });

  it("comes round again beyond the last", () => expect(accentOf(ACCENTS.length)).toBe(accentOf(0)));
});

it("ink, soft and problem text are legible on each paper", () => {
  for (const tone of [PAPER.ink, PAPER.soft, PAPER.problem]) {
    for (const paper of [PAPER.sheet, PAPER.page, PAPER.chosen]) {
      expect(contrast(tone, paper)).toBeGreaterThanOrEqual(4.5);
    }
  }
});
