import { describe, expect, it } from "vitest";
import { firstLines, I, type Part, R, rulesOf, textsOf, V, workingFor } from "./workedFor";

// Values worked by hand; the circuits are common practice, no source.

const TOGETHER = (...sources: string[]) => ({ groups: [sources] as never });

describe("a dependent source that follows another block", () => {
  // 8 mV across R2; 5 mS of it are 40 µA, up through R3 from 0: −80 mV.
  it("is a line in a chain: what it follows, what it drives", () => {
    const parts: Part[] = [
      V("V1", "s", "0", "10 mV"),
      R("R1", "s", "b", "1k"),
      R("R2", "b", "0", "4k"),
      ["G1", "vccs", ["c", "0"], null, { gain: "0.005", gain_unit: "S", control: { voltage: ["b", "0"] } }],
      R("R3", "c", "0", "2k"),
    ];
    const lines = firstLines(workingFor(parts, { name: "Vo", quantity: "voltage", at: "c" }));
    expect(rulesOf(lines)).toEqual(["voltage-division", "control", "ohm", "sign"]);
    expect(textsOf(lines)).toEqual([
      "V(b) = V1 · R2/(R1 + R2) = 10 mV · 4 kΩ/(1 kΩ + 4 kΩ) = 8 mV",
      "I(G1) = k(G1) · V(b) = 5 mS · 8 mV = 40 µA",
      "V(0, c) = I(G1) · R3 = 40 µA · 2 kΩ = 80 mV",
      "Vo = −V(0, c) = −80 mV",
    ]);
  });

  // 2 mA through R1; 3 kΩ of it are 6 V, and nothing is joined to them.
  it("needs nothing to drive", () => {
    const parts: Part[] = [
      V("V1", "s", "0", "10 V"),
      R("R1", "s", "0", "5k"),
      [
        "H1",
        "ccvs",
        ["c", "0"],
        null,
        { gain: "3000", gain_unit: "Ω", control: { current: "R1", direction: "forward" } },
      ],
    ];
    const lines = firstLines(workingFor(parts, { name: "Vo", quantity: "voltage", at: "c" }));
    expect(textsOf(lines)).toEqual(["I(R1) = V1/R1 = 10 V/(5 kΩ) = 2 mA", "Vo = k(H1) · I(R1) = 3 kΩ · 2 mA = 6 V"]);
  });
});

describe("sources that act together", () => {
  // V(a) = 10 mA · 200 Ω = 2 V, V(b) = 6 mA · 500 Ω = 3 V.
  it("in blocks of their own are worked block by block", () => {
    const parts = [
      I("I1", "0", "a", "10 mA"),
      R("R1", "a", "0", "200"),
      I("I2", "0", "b", "6 mA"),
      R("R2", "b", "0", "500"),
    ];
    const working = workingFor(parts, { name: "Vx", quantity: "voltage", from: "a", to: "b" }, TOGETHER("I1", "I2"));
    expect(textsOf(firstLines(working))).toEqual([
      "V(a) = I1 · R1 = 10 mA · 200 Ω = 2 V",
      "V(b) = I2 · R2 = 6 mA · 500 Ω = 3 V",
      "Vx = V(a) − V(b) = 2 V − 3 V = −1 V",
    ]);
  });
});
