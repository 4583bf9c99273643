import fc from "fast-check";
import katex from "katex";
import { describe, expect, it } from "vitest";
import { lineLatex } from "../../src/steps/lineLatex";

describe("a line as it was typed", () => {
  it.each([
    ["I1 = I2 + I3", "I_{\\mathrm{1}} = I_{\\mathrm{2}} + I_{\\mathrm{3}}"],
    [
      "(Va − 15 V)/4.7k + Va/3.3k = 8 mA",
      "(V_{\\mathrm{a}} - 15\\,\\mathrm{V})/4.7\\,\\mathrm{k} + V_{\\mathrm{a}}/3.3\\,\\mathrm{k} = 8\\,\\mathrm{mA}",
    ],
    ["I_R4*R4 = V(b)", "I_{\\mathrm{R4}}\\cdot R_{\\mathrm{4}} = V_{\\mathrm{b}}"],
    ["V(a, b) = 4.7 kΩ * Iy'", "V_{\\mathrm{a,b}} = 4.7\\,\\mathrm{k\\Omega } \\cdot  I_{\\mathrm{y}}'"],
    ["R1 || R2 = 2,5 ohm", "R_{\\mathrm{1}} \\parallel  R_{\\mathrm{2}} = 2{,}5\\,\\mathrm{\\Omega }"],
    ["Ieff = 2 A/sqrt(2)", "I_{\\mathrm{eff}} = 2\\,\\mathrm{A}/\\operatorname{sqrt}(2)"],
    ["V1 = 3∠45° V", "V_{\\mathrm{1}} = 3\\angle 45^{\\circ} V"],
  ])("%s is set as mathematics that KaTeX takes", (text, latex) => {
    expect(lineLatex(text)).toBe(latex);
    expect(() => katex.renderToString(latex, { throwOnError: true })).not.toThrow();
  });

  it.each(["", "I1 = \\frac{1}{2}", "I1 = 2^3", "{I1} = 2", "I1 = 5 # 2", "Iy = 1 € + 2 V"])(
    "%s stands as it is: nothing of it is guessed",
    (text) => {
      expect(lineLatex(text)).toBeNull();
    },
  );

  it("is mathematics that KaTeX takes, or none, whatever was typed", () => {
    const pieces = fc.constantFrom(
      ..."IVRabk12.,'′_()=+-−*/|∥∠°≈ Ωµm\\\\{}^$#%&~".split(""),
      "sqrt",
      "mA",
      "kΩ",
      "||",
      "V(a)",
    );
    const typed = fc.array(pieces, { maxLength: 25 }).map((each) => each.join(""));
    fc.assert(
      fc.property(typed, (text) => {
        const latex = lineLatex(text);
        if (latex !== null) katex.renderToString(latex, { throwOnError: true, strict: "ignore" });
      }),
      { numRuns: 500 },
    );
  });
});
