import { describe, expect, it } from "vitest";
import type { RawElement } from "./elements";
import { portResistance, shortCircuitCurrent } from "./port";
import { dcNetwork, omegasOf, phasorNetwork, sourcesOf } from "./tableau";

// The second opinion is itself held against small circuits worked by hand, one a kind of part.

const two = (kind: string, id: string, from: string, to: string, value: string): RawElement => ({
  id,
  kind,
  nodes: [from, to],
  value,
});
const R = (id: string, from: string, to: string, value: string) => two("resistor", id, from, to, value);
const V = (id: string, from: string, to: string, value: string) => two("voltage-source", id, from, to, value);
const I = (id: string, from: string, to: string, value: string) => two("current-source", id, from, to, value);

function solveDc(elements: readonly RawElement[], acting = sourcesOf({ elements })) {
  const answer = dcNetwork({ elements, reference: "0" })?.answer(acting);
  if (!answer) throw new Error("singular");
  return {
    node: (name: string) => answer.node(name).toFraction(),
    current: (branch: string) => answer.current(branch).toFraction(),
    voltage: (branch: string) => answer.voltage(branch).toFraction(),
  };
}

describe("constant sources", () => {
  it("divide 9 V over 1 Ω and 2 Ω into 3 V and 6 V; the source's own current runs from minus to plus", () => {
    const answer = solveDc([V("V1", "a", "0", "9 V"), R("R1", "a", "b", "1 Ω"), R("R2", "b", "0", "2 Ω")]);
    expect([answer.voltage("R1"), answer.node("b"), answer.current("V1")]).toEqual(["3", "6", "-3"]);
  });
  it("push a current out of a current source's second node", () =>
    expect(solveDc([I("I1", "0", "a", "5 mA"), R("R1", "a", "0", "3 kΩ")]).node("a")).toBe("15"));
  it("are zeroed unless they act: a voltage source to a short, a current source to an open", () => {
    const elements = [
      V("V1", "a", "0", "6 V"),
      R("R1", "a", "b", "2 Ω"),
      I("I1", "0", "b", "3 A"),
      R("R2", "b", "0", "2 Ω"),
    ];
    expect(solveDc(elements, ["V1"]).node("b")).toBe("3");
    expect(solveDc(elements, ["I1"]).node("b")).toBe("3");
    expect(solveDc(elements).node("b")).toBe("6");
  });
  it("see an inductor as a short and a capacitor as an open", () => {
    const elements = [
      V("V1", "a", "0", "4 V"),
      two("inductor", "L1", "a", "b", "1 mH"),
      R("R1", "b", "0", "2 Ω"),
      two("capacitor", "C1", "b", "0", "1 µF"),
    ];
    const answer = solveDc(elements);
    expect([answer.current("L1"), answer.current("C1"), answer.voltage("C1")]).toEqual(["2", "0", "4"]);
  });
});

describe("dependent sources", () => {
  const feed = [V("V1", "a", "0", "2 V"), R("R1", "a", "0", "4 Ω"), R("R2", "b", "0", "5 Ω")];
  const voltage = { voltage: ["a", "0"] };
  const current = { current: "R1" };
  it.each([
    ["vcvs of gain 3", { kind: "vcvs", control: voltage, gain: 3 }, "6"],
    ["ccvs of 4 Ω", { kind: "ccvs", control: current, gain: 4, gain_unit: "Ω" }, "2"],
    ["vccs of 1/2 S", { kind: "vccs", control: voltage, gain: "1/2", gain_unit: "S" }, "-5"],
    ["cccs of gain 2", { kind: "cccs", control: current, gain: 2 }, "-5"],
    ["cccs that follows backward", { kind: "cccs", control: { ...current, direction: "backward" }, gain: 2 }, "5"],
  ])("%s, from b to 0 on 5 Ω", (_, dependent, expected) =>
    expect(solveDc([...feed, { id: "D1", nodes: ["b", "0"], ...dependent }]).node("b")).toBe(expected),
  );
  it("stay on while every source is zeroed: 10 Ω beside a vccs of −1/20 S is seen as 20 Ω", () => {
    const source = { id: "G1", kind: "vccs", nodes: ["a", "0"], control: { voltage: ["a", "0"] }, gain: "-1/20" };
    const circuit = { elements: [R("R1", "a", "0", "10 Ω"), source], reference: "0" };
    expect(portResistance(circuit, "a", "0")?.toFraction()).toBe("20");
  });
  it("can make the equations singular, whatever the sources: 10 Ω beside a vccs of −1/10 S", () => {
    const source = { id: "G1", kind: "vccs", nodes: ["a", "0"], control: { voltage: ["a", "0"] }, gain: "-1/10" };
    for (const value of ["0 A", "1 A"]) {
      expect(dcNetwork({ elements: [I("I1", "0", "a", value), R("R1", "a", "0", "10 Ω"), source] })).toBeNull();
    }
  });
});

describe("other parts", () => {
  it("inverting amplifier, 1 kΩ and 5 kΩ: 2 V gives −10 V, and the output takes in 2 mA", () => {
    const amplifier = { id: "U1", kind: "ideal-opamp", nodes: ["0", "m", "o"] };
    const answer = solveDc([V("V1", "i", "0", "2 V"), R("R1", "i", "m", "1 kΩ"), R("R2", "m", "o", "5 kΩ"), amplifier]);
    expect([answer.node("o"), answer.current("U1")]).toEqual(["-10", "1/500"]);
  });
  it("transformer 2 : 1 with 3 Ω is 12 Ω at the primary, its secondary tied to nothing else", () => {
    const transformer = { id: "T1", kind: "ideal-transformer", nodes: ["a", "0", "s", "t"], ratio: 2 };
    const answer = solveDc([V("V1", "a", "0", "24 V"), transformer, R("R1", "s", "t", "3 Ω")]);
    expect([answer.current("T1 primary"), answer.current("T1 secondary"), answer.voltage("R1")]).toEqual([
      "2",
      "-4",
      "12",
    ]);
  });
  it("open switch, closed switch and wire", () => {
    const elements = [
      V("V1", "a", "0", "6 V"),
      { id: "S1", kind: "switch", nodes: ["a", "b"], state: "closed" },
      R("R1", "b", "c", "3 Ω"),
      { id: "W1", kind: "wire", nodes: ["c", "0"] },
      { id: "S2", kind: "switch", nodes: ["b", "0"], state: "open" },
    ];
    const answer = solveDc(elements);
    expect([answer.current("S1"), answer.current("W1"), answer.current("S2")]).toEqual(["2", "2", "0"]);
  });
  it("a wire between the nodes of a port carries its short-circuit current", () => {
    const circuit = { elements: [V("V1", "a", "0", "6 V"), R("R1", "a", "b", "3 Ω")], reference: "0" };
    expect(shortCircuitCurrent(circuit, "b", "0", ["V1"])?.toFraction()).toBe("2");
  });
});

describe("singular circuits have no network", () => {
  it.each([
    ["two voltage sources in parallel, equal ones too", [V("V1", "a", "0", "5 V"), V("V2", "a", "0", "5 V")]],
    ["a current source without a way back", [I("I1", "0", "a", "1 A")]],
    ["two wires side by side", [V("V1", "a", "0", "1 V"), R("R1", "a", "b", "1 Ω"), ...wires("W1", "W2")]],
  ])("%s", (_, elements) => expect(dcNetwork({ elements, reference: "0" })).toBeNull());
});

function wires(...ids: string[]): RawElement[] {
  return ids.map((id) => ({ id, kind: "wire", nodes: ["b", "0"] }));
}

describe("sinusoids", () => {
  // 10 V at 1000 rad/s on 3 Ω in series with 4 mH: Z = 3 + j4 Ω, I = 10/(3 + j4) = 1.2 − j1.6 A.
  const source = { id: "V1", kind: "voltage-source", nodes: ["a", "0"], amplitude: "10 V", omega: "1000 rad/s" };
  const load = [R("R1", "a", "b", "3 Ω"), two("inductor", "L1", "b", "0", "4 mH")];
  it("10 V on 3 + j4 Ω drives 1.2 − j1.6 A", () => {
    const current = phasorNetwork({ elements: [source, ...load], reference: "0" }, 1000)
      ?.answer(["V1"])
      .current("R1");
    expect(current?.re).toBeCloseTo(1.2, 12);
    expect(current?.im).toBeCloseTo(-1.6, 12);
  });
  it("sin runs 90° behind cos, and a phase adds to it: sin with +90° is cos", () => {
    const shifted = { ...source, waveform: "sin", phase: "90°" };
    const current = phasorNetwork({ elements: [shifted, ...load], reference: "0" }, 1000)
      ?.answer(["V1"])
      .current("R1");
    expect(current?.re).toBeCloseTo(1.2, 12);
    expect(current?.im).toBeCloseTo(-1.6, 12);
  });
  it("act at their own frequency only", () => {
    const elements = [
      { ...source, omega: undefined, frequency: "50 Hz" },
      I("I1", "0", "b", "1 A"),
      ...load,
    ] as RawElement[];
    expect(omegasOf({ elements })).toEqual([0, 2 * Math.PI * 50]);
    expect(phasorNetwork({ elements, reference: "0" }, 1000)?.answer(["V1", "I1"]).current("R1").toPolar().r).toBe(0);
  });
});
