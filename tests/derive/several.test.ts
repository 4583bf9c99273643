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

  // 3 mA in and 1 mA out at a: 2 mA, of which 3/4 go through the 1 kΩ.
  it("and feed the same two nodes with currents add up", () => {
    const parts = [
      I("I1", "0", "a", "3 mA"),
      I("I2", "a", "0", "1 mA"),
      R("R1", "a", "0", "1k"),
      R("R2", "a", "0", "3k"),
    ];
    const asked = { name: "Ix", quantity: "current", through: "R1", from: "a", to: "0" };
    const lines = firstLines(workingFor(parts, asked, TOGETHER("I1", "I2")));
    expect(rulesOf(lines)).toEqual(["add-sources", "current-division"]);
    expect(textsOf(lines)).toEqual([
      "Is = I1 − I2 = 3 mA − 1 mA = 2 mA",
      "Ix = Is · R2/(R1 + R2) = 2 mA · 3 kΩ/(1 kΩ + 3 kΩ) = 1.5 mA",
    ]);
    expect(lines.map(({ parts: lit }) => lit)).toEqual([
      ["I1", "I2"],
      ["R1", "R2"],
    ]);
  });

  // 9 V + 3 V = 12 V over 1 kΩ and 2 kΩ ∥ (1 kΩ + 1 kΩ) = 1 kΩ: 6 V, halved once more.
  it("and stand in a row with voltages add up", () => {
    const parts = [
      V("V1", "a", "m", "9 V"),
      V("V2", "m", "0", "3 V"),
      R("R1", "a", "b", "1k"),
      R("R2", "b", "0", "2k"),
      R("R3", "b", "c", "1k"),
      R("R4", "c", "0", "1k"),
    ];
    const asked = { name: "Ix", quantity: "current", through: "R1", from: "a", to: "b" };
    const lines = firstLines(workingFor(parts, asked, TOGETHER("V1", "V2")));
    expect(rulesOf(lines)).toEqual(["add-sources", "series", "parallel", "ohm"]);
    expect(textsOf(lines)[0]).toBe("Vs = V1 + V2 = 9 V + 3 V = 12 V");
    expect(textsOf(lines).at(-1)).toMatch(/^Ix = Vs\/.* = 6 mA$/);
  });

  // 12 V against 3 V over 1 kΩ + 2 kΩ: 3 mA; 3 V + 2 kΩ · 3 mA = 9 V.
  it("in one loop drive one current", () => {
    const parts = [
      V("V1", "a", "0", "12 V"),
      R("R1", "a", "b", "1k"),
      R("R2", "b", "c", "2k"),
      V("V2", "c", "0", "3 V"),
    ];
    const current = { name: "Ix", quantity: "current", through: "R2", from: "c", to: "b" };
    expect(textsOf(firstLines(workingFor(parts, current, TOGETHER("V1", "V2"))))).toEqual([
      "Ix = (V2 − V1)/(R1 + R2) = (3 V − 12 V)/(1 kΩ + 2 kΩ) = −3 mA",
    ]);
    const voltage = { name: "Vx", quantity: "voltage", at: "b" };
    expect(textsOf(firstLines(workingFor(parts, voltage, TOGETHER("V1", "V2"))))).toEqual([
      "I(R1) = (V1 − V2)/(R1 + R2) = (12 V − 3 V)/(1 kΩ + 2 kΩ) = 3 mA",
      "Vx = V1 − I(R1) · R1 = 12 V − 3 mA · 1 kΩ = 9 V",
    ]);
  });

  // 2 V and 3 V face each other over 200 + 300 + 500 Ω: −1 mA (shared/examples/README.md, tank-level-sensor).
  it("as currents beside resistances become voltages of one loop", () => {
    const parts = [
      I("I1", "0", "a", "10 mA"),
      R("R1", "a", "0", "200"),
      R("R2", "a", "b", "300"),
      R("R3", "b", "0", "500"),
      I("I2", "0", "b", "6 mA"),
    ];
    const asked = { name: "Iq", quantity: "current", through: "R2", from: "a", to: "b" };
    const lines = firstLines(workingFor(parts, asked, TOGETHER("I1", "I2")));
    expect(rulesOf(lines)).toEqual(["source-transformation", "source-transformation", "voltage-law"]);
    expect(textsOf(lines).at(-1)).toMatch(/= −1 mA$/);
  });
});

// 12 V = 2 Ω · I + 1.5 · (4 Ω · I) + 4 Ω · I = 12 Ω · I.
it("a dependent voltage in one loop is put in by what it follows", () => {
  const parts: Part[] = [
    V("V1", "a", "0", "12 V"),
    R("R1", "a", "b", "2"),
    ["E1", "vcvs", ["b", "c"], null, { gain: "1.5", control: { voltage: ["c", "0"] } }],
    R("R2", "c", "0", "4"),
  ];
  const asked = { name: "Ix", quantity: "current", through: "R2", from: "c", to: "0" };
  const lines = firstLines(workingFor(parts, asked));
  expect(rulesOf(lines)).toEqual(["control", "voltage-law", "solution"]);
  expect(textsOf(lines)[0]).toBe("V(c) = R2 · Ix:  V(c) = 4 Ω · Ix");
  expect(textsOf(lines).at(-1)).toBe("Ix = 1 A");
});

describe("an ideal transformer", () => {
  // n = 3: 18 Ω and 24 V are 2 Ω and 8 V on the secondary; half of it over 2 Ω.
  const parts: Part[] = [
    V("V1", "p", "0", "24 V cos(10 t)"),
    R("R1", "p", "w", "18"),
    ["T1", "ideal-transformer", ["w", "0", "s", "0"], null, { ratio: "3" }],
    R("R2", "s", "0", "2"),
  ];

  it("is left out once one side is referred to the other, where nothing is wanted", () => {
    const lines = firstLines(workingFor(parts, { name: "Vx", quantity: "voltage", at: "s" }));
    expect(rulesOf(lines)).toEqual(["referral", "voltage-division"]);
    expect(lines[0]?.parts).toEqual(["T1", "V1", "R1"]);
    expect(textsOf(lines).at(-1)).toMatch(/≈ 4 V ∠ 0°$/);
  });

  // 2 Ω are 18 Ω on the primary: 24 V over 36 Ω.
  it("shows its load to the source", () => {
    const asked = { name: "Ix", quantity: "current", through: "R1", from: "p", to: "w" };
    const lines = firstLines(workingFor(parts, asked));
    expect(rulesOf(lines)).toEqual(["referral", "ohm"]);
    expect(textsOf(lines)).toEqual([
      "R2p = n(T1)² · R2 = 3² · 2 Ω ≈ 18 Ω",
      "Ix = V1/(R1 + R2p) = (24 V ∠ 0°)/(18 Ω + 18 Ω) ≈ 666.7 mA ∠ 0°",
    ]);
  });

  it("shows a resistance at a port on the other side", () => {
    const bare = [...parts.slice(1)];
    const working = workingFor(bare, { name: "Rx", quantity: "resistance", from: "p", to: "0" });
    expect(rulesOf(working.total.lines)).toEqual(["referral", "series"]);
    expect(working.total.result?.text).toBe("36 Ω");
  });
});
