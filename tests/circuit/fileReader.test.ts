import { describe, expect, it } from "vitest";
import {
  type Circuit,
  type CircuitFile,
  fileProblemText,
  readCircuitFile,
  readCircuitText,
} from "../../shared/circuit";

const R1 = { id: "R1", kind: "resistor", nodes: ["a", "b"], value: "2 kΩ" };

/** The file as read; fails the test with every sentence where it is refused. */
function read(json: unknown): CircuitFile {
  const reading = readCircuitFile(json);
  if (!reading.ok) throw new Error(reading.problems.map(fileProblemText).join("\n"));
  return reading.value;
}

/** The part that one element gives, beside R1 so that names can be used. */
function part(element: object, head: object = {}): Circuit["parts"][number] | undefined {
  return read({ ...head, elements: [R1, element] }).circuit.parts[1];
}

const n = (numerator: bigint, d = 1n) => ({ n: numerator, d });

describe("parts", () => {
  it("take exact values in coherent units, from text or from bare numbers", () => {
    expect(part({ ...R1, id: "R2", value: "4k7" })).toEqual({
      kind: "resistor",
      id: "R2",
      plus: "a",
      minus: "b",
      resistance: n(4700n),
    });
    expect(part({ ...R1, id: "R2", value: 0.1 })).toMatchObject({ resistance: n(1n, 10n) });
    expect(part({ ...R1, id: "R2", value: 2e21 })).toMatchObject({ resistance: n(2n * 10n ** 21n) });
    expect(part({ ...R1, id: "L1", kind: "inductor", value: "1/3 H" })).toMatchObject({ inductance: n(1n, 3n) });
    expect(part({ ...R1, id: "C1", kind: "capacitor", value: "22 µF" })).toMatchObject({
      capacitance: n(11n, 500000n),
    });
  });

  it("keep values that are zero or negative where others are to judge them", () => {
    expect(part({ ...R1, id: "R2", value: "0 Ω" })).toMatchObject({ resistance: n(0n) });
    expect(part({ ...R1, id: "R2", value: "−3 Ω" })).toMatchObject({ resistance: n(-3n) });
    expect(part({ ...R1, id: "C1", kind: "capacitor", value: "-1 µF" })).toMatchObject({
      capacitance: n(-1n, 1000000n),
    });
  });

  it("name their terminals in the order of the file", () => {
    expect(part({ id: "U1", kind: "ideal-opamp", nodes: ["0", "a", "b"] })).toMatchObject({
      inPlus: "0",
      inMinus: "a",
      out: "b",
    });
    expect(part({ id: "T1", kind: "ideal-transformer", nodes: ["a", "b", "c", "d"], ratio: "5/2" })).toMatchObject({
      primary: { plus: "a", minus: "b" },
      secondary: { plus: "c", minus: "d" },
      ratio: n(5n, 2n),
    });
    expect(part({ id: "I1", kind: "current-source", nodes: ["a", "b"], value: "1 A" })).toMatchObject({
      plus: "a",
      minus: "b",
    });
  });

  it("follow a voltage between nodes or the current of a part, forward unless said", () => {
    const control = { voltage: ["a", "b"] };
    expect(part({ id: "E1", kind: "vcvs", nodes: ["a", "b"], control, gain: 2.5 })).toMatchObject({
      control: { plus: "a", minus: "b" },
      gain: n(5n, 2n),
    });
    expect(part({ id: "G1", kind: "vccs", nodes: ["a", "b"], control, gain: "2 mA/V" })).toMatchObject({
      gain: n(1n, 500n),
    });
    expect(
      part({ id: "H1", kind: "ccvs", nodes: ["a", "b"], control: { current: "R1" }, gain: 4, gain_unit: "Ω" }),
    ).toMatchObject({ control: { part: "R1", direction: "forward" }, gain: n(4n) });
    const backward = { current: "R1", direction: "backward" };
    expect(part({ id: "F1", kind: "cccs", nodes: ["a", "b"], control: backward, gain: "3" })).toMatchObject({
      control: { part: "R1", direction: "backward" },
    });
  });

  it("may follow a part or a node that is not there, which is a problem of the circuit", () => {
    const element = { id: "F1", kind: "cccs", nodes: ["a", "b"], control: { current: "R9" }, gain: 3 };
    expect(part(element)).toMatchObject({ control: { part: "R9" } });
    const follower = { id: "E1", kind: "vcvs", nodes: ["a", "b"], control: { voltage: ["q", "b"] }, gain: 3 };
    expect(part(follower)).toMatchObject({ control: { plus: "q" } });
  });
});

describe("sinusoids", () => {
  const source = { id: "V1", kind: "voltage-source", nodes: ["a", "b"] };

  it("are cosines of a peak amplitude at phase 0 unless said", () => {
    expect(part({ ...source, amplitude: "10 V", omega: "1000 rad/s" })).toMatchObject({
      voltage: {
        kind: "sinusoid",
        amplitude: n(10n),
        measure: "peak",
        phase: n(0n),
        frequency: { unit: "rad/s", value: n(1000n) },
      },
    });
  });

  it("given as sines lag the cosine by 90°", () => {
    // sin(ωt + 30°) = cos(ωt − 60°)
    expect(part({ ...source, amplitude: "1 V", phase: "30°", frequency: "50 Hz", waveform: "sin" })).toMatchObject({
      voltage: { phase: n(-60n), frequency: { unit: "Hz", value: n(50n) } },
    });
  });

  it("may be one text", () => {
    const current = { ...source, id: "I1", kind: "current-source", value: "5 cos(1000 t + 30°) mA" };
    expect(part(current)).toMatchObject({ current: { kind: "sinusoid", amplitude: n(1n, 200n), phase: n(30n) } });
  });

  it("are rms where the file says so for all, unless one says otherwise itself", () => {
    const rms = { amplitude_kind: "rms" };
    const fields = { amplitude: "10 V", frequency: "50 Hz" };
    expect(part({ ...source, ...fields }, rms)).toMatchObject({ voltage: { measure: "rms" } });
    expect(part({ ...source, value: "10 V ∠ 0° @ 50 Hz" }, rms)).toMatchObject({ voltage: { measure: "rms" } });
    expect(part({ ...source, ...fields, measure: "peak" }, rms)).toMatchObject({ voltage: { measure: "peak" } });
    expect(part({ ...source, ...fields, measure: "rms" })).toMatchObject({ voltage: { measure: "rms" } });
  });
});

describe("a wanted current", () => {
  const elements = [
    R1,
    { id: "U1", kind: "ideal-opamp", nodes: ["0", "a", "o"] },
    { id: "T1", kind: "ideal-transformer", nodes: ["a", "0", "b", "c"], ratio: 2 },
    { id: "W1", kind: "wire", nodes: ["b", "b"] },
  ];
  const wanted = (change: object) => read({ elements, wanted: [{ quantity: "current", ...change }] }).circuit.wanted[0];

  it("is forward from a part's first node, and backward from its second", () => {
    expect(wanted({ through: "R1", from: "a", to: "b" })).toEqual({
      name: null,
      kind: "current",
      through: "R1",
      winding: "primary",
      direction: "forward",
    });
    expect(wanted({ through: "R1", from: "b", to: "a" })).toMatchObject({ direction: "backward" });
  });

  it("is told by either end alone, by direction, or else is forward", () => {
    expect(wanted({ through: "R1", from: "b" })).toMatchObject({ direction: "backward" });
    expect(wanted({ through: "R1", to: "a" })).toMatchObject({ direction: "backward" });
    expect(wanted({ through: "R1", direction: "backward" })).toMatchObject({ direction: "backward" });
    expect(wanted({ through: "R1", from: null, to: null })).toMatchObject({ direction: "forward" });
  });

  it("of an op amp goes out of its output unless said, its inner end bearing the op amp's id", () => {
    expect(wanted({ through: "U1", from: "U1", to: "o" })).toMatchObject({ direction: "backward" });
    expect(wanted({ through: "U1", from: "o", to: "U1" })).toMatchObject({ direction: "forward" });
    expect(wanted({ through: "U1" })).toMatchObject({ direction: "backward" });
  });

  it("of a transformer is that of the winding whose nodes are named, else of the primary", () => {
    expect(wanted({ through: "T1", from: "c", to: "b" })).toMatchObject({
      winding: "secondary",
      direction: "backward",
    });
    expect(wanted({ through: "T1", from: "a", to: "0" })).toMatchObject({ winding: "primary", direction: "forward" });
    expect(wanted({ through: "T1", winding: "secondary" })).toMatchObject({
      winding: "secondary",
      direction: "forward",
    });
    expect(wanted({ through: "T1" })).toMatchObject({ winding: "primary", direction: "forward" });
  });

  it("in a part with both ends on one node is told by direction, else forward", () => {
    expect(wanted({ through: "W1", from: "b", to: "b" })).toMatchObject({ direction: "forward" });
    expect(wanted({ through: "W1", direction: "backward" })).toMatchObject({ direction: "backward" });
  });
});

describe("other wanted quantities", () => {
  const wanted = (entry: object) => read({ elements: [R1], reference: "b", wanted: [entry] }).circuit.wanted[0];

  it("are voltages between nodes, across a part, or at a node to the reference node", () => {
    const voltage = { name: "Vq", kind: "voltage", from: "a", to: "b" };
    expect(wanted({ name: "Vq", quantity: "voltage", from: "a", to: "b", through: null })).toEqual(voltage);
    expect(wanted({ name: "Vq", quantity: "voltage", across: "R1" })).toEqual(voltage);
    expect(wanted({ name: "Vq", quantity: "voltage", at: "a" })).toEqual(voltage);
  });

  it("are powers and what is asked of a port", () => {
    expect(wanted({ quantity: "power", through: "R1", from: null })).toEqual({ name: null, kind: "power", of: "R1" });
    expect(wanted({ quantity: "maximum-power-load", from: "a", to: "b" })).toEqual({
      name: null,
      kind: "maximum-power-load",
      from: "a",
      to: "b",
    });
  });

  it("of an instant, or a time constant, are kept apart as what a steady state cannot answer", () => {
    const file = read({
      elements: [R1, { id: "L1", kind: "inductor", nodes: ["b", "a"], value: "2 H", initial: "0 A" }],
      wanted: [
        { quantity: "current", through: "R1", time: "2 s", answer: "1 A", rounded_to: "0.1 A" },
        { quantity: "power", through: "R1", time: null },
        { name: "Tz", quantity: "time-constant", through: "L1" },
        { quantity: "voltage", from: "a", to: "b", time: 0 },
      ],
    });
    expect(file.circuit.wanted).toEqual([{ name: null, kind: "power", of: "R1" }]);
    expect(file.unanswerable).toEqual([
      { index: 0, name: "I(R1)", reason: "instant", asked: { quantity: "current", through: "R1", time: "2 s" } },
      { index: 2, name: "Tz", reason: "timeConstant", asked: { name: "Tz", quantity: "time-constant", through: "L1" } },
      { index: 3, name: "V(a, b)", reason: "instant", asked: { quantity: "voltage", from: "a", to: "b", time: 0 } },
    ]);
  });
});

describe("a file", () => {
  it("may leave out all but its elements", () => {
    expect(read({ elements: [] })).toEqual({
      title: null,
      statement: null,
      circuit: { parts: [], reference: null, wanted: [] },
      drawing: null,
      unanswerable: [],
      groups: [],
    });
  });

  it("has a drawing where it gives any position", () => {
    const drawn = { from: [0, 0], to: [4, 0] };
    const opAmp = { id: "U1", kind: "ideal-opamp", nodes: ["0", "a", "b"], drawn: { at: [9, 2], turn: 90 } };
    const elements = [{ ...R1, drawn }, opAmp, { ...R1, id: "R2" }];
    expect(read({ elements }).drawing).toEqual({
      placements: [
        { part: "R1", shape: "line", ...drawn },
        { part: "U1", shape: "body", at: [9, 2], turn: 90, flip: false },
      ],
      wires: [],
      reference: null,
    });
    const wires = [
      [
        [0, 0],
        [0, 4],
        [4, 4],
      ],
    ];
    expect(read({ elements: [R1], drawing: { wires, reference: [2, 4] } }).drawing).toEqual({
      placements: [],
      wires,
      reference: [2, 4],
    });
  });

  it("may start with a byte order mark, as some editors save it", () => {
    expect(readCircuitText('\uFEFF{"elements": []}')).toMatchObject({ ok: true });
  });

  it("may be nested a hundred thousand deep where it is passed over, and is refused in words elsewhere", () => {
    const deep = `${"[".repeat(100_000)}${"]".repeat(100_000)}`;
    expect(readCircuitText(`{"elements": [], "note": ${deep}}`)).toMatchObject({ ok: true });
    expect(readCircuitText(`{"elements": ${deep}}`)).toMatchObject({ ok: false, problems: [{ code: "wrongType" }] });
    expect(readCircuitText("[".repeat(100_000))).toMatchObject({ ok: false, problems: [{ code: "notJson" }] });
  });

  it("with thousands of unknown names gets every problem, and suggestions for the first hundred alone", () => {
    const misspelt = { quantity: "power", through: "r1" };
    const reading = readCircuitFile({ elements: [R1], wanted: new Array(5000).fill(misspelt) });
    const nearest = reading.ok ? [] : reading.problems.map((problem) => "nearest" in problem && problem.nearest);
    expect(nearest).toEqual([...new Array(100).fill("R1"), ...new Array(4900).fill(null)]);
  });

  it("leaves the prototypes of objects as they were, whatever its fields are called", () => {
    readCircuitText(
      '{"elements": [{"__proto__": {"polluted": 1}, "kind": "constructor"}], "__proto__": {"polluted": 1}}',
    );
    expect(Object.hasOwn(Object.prototype, "polluted")).toBe(false);
  });
});
