import katex from "katex";
import { describe, expect, it } from "vitest";
import type { MathSetter } from "../../../src/math";
import {
  COPY_FORMATS,
  copiedLine,
  copiedLines,
  latexProse,
  lineMath,
  spokenLine,
} from "../../../src/working/lineWriting";
import { derivationsOf, EXAMPLE_IDS, equation, line, math, shown } from "./workings";

const set: MathSetter = (latex, output) =>
  katex.renderToString(latex, { output, throwOnError: true, strict: "ignore" });

const two = line({
  equations: [equation(), equation({ left: math("Vq", "V_q"), symbols: null, numbers: null, result: shown("5 V") })],
});
const wordy = line({ equations: [], sentence: "Let V1 act alone: I1 becomes an open (0 A), 50 Ω & 100 % stay." });

describe("a copied line", () => {
  it("as plain text is its sentence with its equations beneath", () =>
    expect(copiedLine(two, "text", "symbols", set)).toBe(
      "Ohm's law for R1.\nIy′ = V1/R1 = 12 V/(4 Ω) = 3 A\nVq = 5 V",
    ));

  it("as LaTeX is its mathematics, several rows aligned", () => {
    expect(copiedLine(line(), "latex", "symbols", set)).toBe(
      "I_{y}' {}= \\frac{V_1}{R_1} {}= \\frac{12\\,\\mathrm{V}}{4\\,\\Omega} {}= 3\\,\\mathrm{A}",
    );
    expect(copiedLine(two, "latex", "symbols", set)).toMatch(
      /^\\begin\{aligned\} I_\{y\}' & \{\}= .* \\\\ V_q & .*\\end\{aligned\}$/,
    );
  });

  it("follows what comes first on the page", () =>
    expect(copiedLine(line(), "text", "numbers", set)).toBe("Ohm's law for R1.\nIy′ = 12 V/(4 Ω) = 3 A\nIy′ = V1/R1"));

  it("without mathematics is its sentence, the signs of LaTeX escaped", () =>
    expect(copiedLine(wordy, "latex", "symbols", set)).toBe(
      "Let V1 act alone: I1 becomes an open (0 A), 50 $\\Omega$ \\& 100 \\% stay.",
    ));

  it("as MathML is one element without the LaTeX source", () => {
    const copied = copiedLine(line(), "mathml", "symbols", set);
    expect(copied).toMatch(/^<math xmlns="http:\/\/www\.w3\.org\/1998\/Math\/MathML">.*<\/math>$/);
    expect(copied).toContain("<mfrac>");
    expect(copied).not.toMatch(/annotation|semantics|frac\{/);
  });
});

describe("all lines copied", () => {
  it("are numbered in plain text", () =>
    expect(copiedLines([wordy, line()], "text", "symbols", set)).toBe(
      "1. Let V1 act alone: I1 becomes an open (0 A), 50 Ω & 100 % stay.\n2. Ohm's law for R1.\n   Iy′ = V1/R1 = 12 V/(4 Ω) = 3 A",
    ));

  it("are a numbered list with displayed mathematics in LaTeX", () =>
    expect(copiedLines([line()], "latex", "symbols", set)).toBe(
      `\\begin{enumerate}\n  \\item Ohm's law for R1.\n  \\[ ${lineMath(line(), "symbols")?.latex} \\]\n\\end{enumerate}`,
    ));

  it("escape the words between the elements of MathML", () =>
    expect(copiedLines([wordy], "mathml", "symbols", set)).toContain("50 Ω &amp; 100 % stay.</p></li>"));
});

describe.each(EXAMPLE_IDS)("every line of %s", (id) => {
  const lines = derivationsOf(id).flatMap((derivation) => derivation.lines);

  it("is mathematics that can be set, in every format and order", () => {
    expect(lines.length).toBeGreaterThan(2);
    for (const each of lines) {
      for (const order of ["symbols", "numbers"] as const) {
        for (const { format } of COPY_FORMATS) expect(copiedLine(each, format, order, set)).not.toBe("");
      }
    }
  });

  it("has words that a plain LaTeX engine sets", () => {
    for (const { sentence } of lines) expect(latexProse(sentence)).toMatch(/^[\x20-\x7eéè]*$/);
  });
});

it("is read aloud with its number, its sentence and its mathematics", () =>
  expect(spokenLine(two, 3, "symbols")).toBe("Line 3: Ohm's law for R1. Iy′ = V1/R1 = 12 V/(4 Ω) = 3 A; Vq = 5 V"));
