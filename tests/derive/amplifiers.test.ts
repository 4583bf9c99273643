import { describe, expect, it } from "vitest";
import { firstLines, type Part, R, rulesOf, textsOf, V, workingFor } from "./workedFor";

// Closed forms worked by hand; common practice, no source.

const OP_AMP = (plusIn: string, minusIn: string, out: string): Part => [
  "U1",
  "ideal-opamp",
  [plusIn, minusIn, out],
  null,
];
const OUTPUT = { name: "Vo", quantity: "voltage", at: "o" };
const BOTH = { groups: [["V1", "V2"]] as never };

describe("an op amp with two sources on", () => {
  const subtractor = (r4: string): Part[] => [
    V("V1", "a", "0", "1 V"),
    V("V2", "b", "0", "2 V"),
    R("R1", "a", "n", "1k"),
    R("R2", "n", "o", "2k"),
    R("R3", "b", "p", "1k"),
    R("R4", "p", "0", r4),
    OP_AMP("p", "n", "o"),
  ];

  it("amplifies their difference where both inputs divide alike", () => {
    const lines = firstLines(workingFor(subtractor("2k"), OUTPUT, BOTH));
    expect(lines.map(({ rule }) => rule)).toEqual([{ kind: "op-amp", form: "difference" }]);
    expect(textsOf(lines)).toEqual(["Vo = R2/R1 · (V2 − V1) = 2 kΩ/(1 kΩ) · (2 V − 1 V) = 2 V"]);
  });

  // 1 V at the input, three times it less twice 1 V.
  it("takes what the one input gives less what the other does where they don't", () => {
    const lines = firstLines(workingFor(subtractor("1k"), OUTPUT, BOTH));
    expect(rulesOf(lines)).toEqual(["voltage-division", "op-amp"]);
    expect(textsOf(lines).at(-1)).toBe(
      "Vo = V(p) · (1 + R2/R1) − V1 · R2/R1 = 1 V · (1 + 2 kΩ/(1 kΩ)) − 1 V · 2 kΩ/(1 kΩ) = 1 V",
    );
  });

  // −(1 V · 2/1 + 2 V · 2/4).
  it("sums them at an inverting input", () => {
    const parts = [
      V("V1", "a", "0", "1 V"),
      V("V2", "b", "0", "2 V"),
      R("R1", "a", "n", "1k"),
      R("R2", "b", "n", "4k"),
      R("R3", "n", "o", "2k"),
      OP_AMP("0", "n", "o"),
    ];
    const lines = firstLines(workingFor(parts, OUTPUT, BOTH));
    expect(lines.map(({ rule }) => rule)).toEqual([{ kind: "op-amp", form: "summing" }]);
    expect(textsOf(lines)[0]).toMatch(/= −3 V$/);
  });

  // The mean of 1 V and 3 V.
  it("takes their mean at a non-inverting one", () => {
    const parts = [
      V("V1", "a", "0", "1 V"),
      V("V2", "b", "0", "3 V"),
      R("R1", "a", "p", "1k"),
      R("R2", "b", "p", "1k"),
      OP_AMP("p", "o", "o"),
    ];
    const lines = firstLines(workingFor(parts, OUTPUT, BOTH));
    expect(rulesOf(lines)).toEqual(["current-law", "op-amp"]);
    expect(textsOf(lines)).toEqual([
      "V(p) = (V1/R1 + V2/R2)/(1/R1 + 1/R2) = (1 V/(1 kΩ) + 3 V/(1 kΩ))/(1/(1 kΩ) + 1/(1 kΩ)) = 2 V",
      "Vo = V(p) = 2 V",
    ]);
  });
});
