import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { ACCENTS, accentOf, PAPERS } from "../../src/figure";

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
  it.each(Object.values(PAPERS))("is legible as text on $sheet: at least 4.5 to 1", (paper) => {
    for (const colour of paper.accents) {
      for (const ground of [paper.sheet, paper.page, paper.chosen]) {
        expect({ colour, ground, legible: contrast(colour, ground) >= 4.5 }).toEqual({ colour, ground, legible: true });
      }
    }
  });

  it("has a line pattern and a mark of its own", () => {
    expect(new Set(ACCENTS.map((accent) => accent.dash.join(" "))).size).toBe(ACCENTS.length);
    expect(new Set(ACCENTS.map((accent) => accent.mark)).size).toBe(ACCENTS.length);
  });

  it("comes round again beyond the last", () => expect(accentOf(ACCENTS.length)).toBe(accentOf(0)));
});

it.each(Object.values(PAPERS))("ink, soft and problem text are legible on $sheet", (paper) => {
  for (const tone of [paper.ink, paper.soft, paper.problem]) {
    for (const ground of [paper.sheet, paper.page, paper.chosen]) {
      expect(contrast(tone, ground)).toBeGreaterThanOrEqual(4.5);
    }
  }
});

it("the page's variables are the figures' colours", () => {
  const css = readFileSync("src/page/tokens.css", "utf8");
  const [light = "", dark = ""] = [css.slice(0, css.indexOf("@media screen")), css.slice(css.indexOf("@media screen"))];
  for (const [rules, { accents, ...paper }] of [[light, PAPERS.light] as const, [dark, PAPERS.dark] as const]) {
    for (const [name, colour] of Object.entries(paper)) expect(rules).toContain(`--${name}: ${colour};`);
    accents.forEach((colour, i) => {
      expect(rules).toContain(`--accent-${i + 1}: ${colour};`);
    });
  }
});
