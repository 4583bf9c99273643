import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { MISTAKE_CODES, mistakeWords } from "../../../shared/check/mistakes";
import { partId } from "../../../shared/circuit";

const CATALOGUE = readFileSync(new URL("../../../shared/check/mistakes/CATALOGUE.md", import.meta.url), "utf8");

describe("the words for mistakes", () => {
  const each = MISTAKE_CODES.map((code) => ({
    code,
    words: mistakeWords({ code, parts: [partId("R1"), partId("V2")], node: "b" }),
  }));

  it("are three rungs of one or two short sentences, and a deed to ask for", () => {
    for (const { words } of each) {
      for (const rung of [words.where, words.principle, words.fix]) expect(rung).toMatch(/^[A-Z0-9ω].{8,180}[.?]$/u);
      expect(words.deed).toMatch(/^[a-z].{5,90}[^.?]$/);
    }
  });

  it("do not give the fix away before its rung", () => {
    for (const { words } of each) {
      expect(words.where).not.toContain(words.fix);
      expect(words.principle).not.toContain(words.fix);
    }
  });

  it("speak of the work and of no count of rungs", () => {
    const all = each.flatMap(({ words }) => Object.values(words)).join("\n");
    expect(all).not.toMatch(/\b(wrong again|you failed|careless|hint \d|last (hint|chance)|stupid)\b/i);
  });
});

describe("the catalogue's page", () => {
  it("has every mistake that is looked for", () => {
    expect(MISTAKE_CODES.filter((code) => !CATALOGUE.includes(`\`${code}\``))).toEqual([]);
  });

  it("names no mistake that is not looked for", () => {
    const named = [...CATALOGUE.matchAll(/^\| `([a-zA-Z]+)`/gm)].map(([, code]) => code);
    expect(named.filter((code) => !MISTAKE_CODES.some((known) => known === code))).toEqual([]);
    expect(named.length).toBe(MISTAKE_CODES.length);
  });
});
