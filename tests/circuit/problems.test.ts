import { describe, expect, it } from "vitest";
import { nodeId, partId, readCircuitFile } from "../../shared/circuit";
import { problemReport, type Report, solveReport } from "../../shared/solve";

// What is said of a circuit that is not as it should be: the code, the parts and nodes named, and the whole sentence.
// Numbers are worked by hand beside their case.

type Element = { readonly id: string; readonly kind: string; readonly nodes: readonly string[] };

const R = (id: string, a: string, b: string, value = "1 Ω") => ({ id, kind: "resistor", nodes: [a, b], value });
const V = (id: string, a: string, b: string, value = "9 V") => ({ id, kind: "voltage-source", nodes: [a, b], value });
const I = (id: string, a: string, b: string, value = "2 A") => ({ id, kind: "current-source", nodes: [a, b], value });
const L = (id: string, a: string, b: string, value = "1 H") => ({ id, kind: "inductor", nodes: [a, b], value });
const C = (id: string, a: string, b: string, value = "1 F") => ({ id, kind: "capacitor", nodes: [a, b], value });
const wire = (id: string, a: string, b: string) => ({ id, kind: "wire", nodes: [a, b] });
const opAmp = (id: string, inPlus: string, inMinus: string, out: string) => ({
  id,
  kind: "ideal-opamp",
  nodes: [inPlus, inMinus, out],
});

function reportOf(elements: readonly Element[], extra: object = {}): Report {
  const reading = readCircuitFile({ elements, reference: "0", wanted: [], ...extra });
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return solveReport(reading.value.circuit, { unanswerable: reading.value.unanswerable });
}

type Case = readonly [
  title: string,
  report: Report,
  severity: "fault" | "notice",
  code: string,
  parts: string[],
  text: string,
];

const wanted = (...items: object[]) => ({ wanted: items });

const CASES: readonly Case[] = [
  [
    "no part",
    reportOf([], { reference: null }),
    "fault",
    "noParts",
    [],
    "There is nothing to solve yet. Draw a source and a part that it drives.",
  ],
  [
    "no reference: the node where most terminals meet is taken, of equals the first by name",
    reportOf([V("V1", "b", "c"), R("R1", "b", "a"), R("R2", "a", "c"), R("R3", "a", "c")], { reference: null }),
    "notice",
    "noReference",
    [],
    "No reference node is marked, so node a is taken as 0 V. Mark another one to change that.",
  ],
  [
    "a section that nothing joins to the rest",
    reportOf([V("V1", "a", "0"), R("R1", "a", "0"), R("R8", "x", "y"), R("R9", "x", "y")]),
    "fault",
    "floatingSection",
    ["R8", "R9"],
    "R8 and R9 at nodes x and y are not joined to the rest of the circuit. Join them with a wire, or remove them.",
  ],
  [
    "a node between two capacitors at DC",
    reportOf([V("V1", "a", "0"), R("R1", "a", "0"), C("C1", "a", "b"), C("C2", "b", "0")]),
    "notice",
    "floatingSection",
    [],
    "Node b is held off from the rest by C1 and C2, so its voltage is not determined. All other answers stand.",
  ],
  [
    "the voltage of that node is asked for",
    reportOf(
      [V("V1", "a", "0"), R("R1", "a", "0"), C("C1", "a", "b"), C("C2", "b", "0")],
      wanted({ quantity: "voltage", from: "b", to: "0" }),
    ),
    "fault",
    "wantedUndetermined",
    [],
    "V(b, 0) is not determined by the circuit, since nothing ties its two nodes together. Ask for another quantity, or change the circuit.",
  ],
  [
    "a secondary that nothing else ties",
    reportOf([
      V("V1", "a", "0"),
      { id: "T1", kind: "ideal-transformer", nodes: ["a", "0", "s", "t"], ratio: 2 } as Element,
      R("R1", "s", "t"),
    ]),
    "notice",
    "isolatedSection",
    ["T1", "R1"],
    "Nodes s and t meet the rest only through a transformer, so their voltages are counted from node s.",
  ],
  [
    "a loose end",
    reportOf([V("V1", "a", "0"), R("R1", "a", "0"), R("R2", "a", "z")]),
    "notice",
    "danglingTerminal",
    ["R2"],
    "R2 has a loose end at node z, so no current can flow in it. Join that end, or remove R2.",
  ],
  [
    "both ends at one node",
    reportOf([V("V1", "a", "0"), R("R1", "a", "0"), R("R2", "a", "a")]),
    "notice",
    "shortedPart",
    ["R2"],
    "Both ends of R2 are at node a, so it has no voltage. Move one end, or remove it.",
  ],
  [
    "9 V beside 5 V: 9 − 5 = 4",
    reportOf([V("V1", "a", "0", "9 V"), V("V2", "a", "0", "5 V"), R("R1", "a", "0")]),
    "fault",
    "voltageSourceLoop",
    ["V1", "V2"],
    "V1 and V2 form a loop whose voltages add up to 4 V instead of 0 V. Change a value, or put a resistance into the loop.",
  ],
  [
    "9 V and 5 V in series beside 12 V: 9 + 5 − 12 = 2",
    reportOf([V("V1", "a", "0", "9 V"), V("V2", "b", "a", "5 V"), V("V3", "b", "0", "12 V"), R("R1", "a", "0")]),
    "fault",
    "voltageSourceLoop",
    ["V1", "V2", "V3"],
    "V1, V2 and V3 form a loop whose voltages add up to 2 V instead of 0 V. Change a value, or put a resistance into the loop.",
  ],
  [
    "two equal sources side by side",
    reportOf([V("V1", "a", "0"), V("V2", "a", "0"), R("R1", "a", "0")]),
    "fault",
    "voltageSourceLoop",
    ["V1", "V2"],
    "V1 and V2 form a loop of voltage sources and shorts. Their voltages agree, but their currents are not determined. Remove one, or put a resistance into the loop.",
  ],
  [
    "a source shorted by a wire",
    reportOf([V("V1", "a", "0"), wire("W1", "a", "0"), R("R1", "a", "0")]),
    "fault",
    "voltageSourceLoop",
    ["V1", "W1"],
    "V1 and W1 form a loop whose voltages add up to 9 V instead of 0 V. Change a value, or put a resistance into the loop.",
  ],
  [
    "a sinusoid beside a constant source",
    reportOf([V("V1", "a", "0", "9 V ∠ 0° @ 50 Hz"), V("V2", "a", "0"), R("R1", "a", "0")]),
    "fault",
    "voltageSourceLoop",
    ["V1", "V2"],
    "V1 and V2 form a loop of voltage sources and shorts, so their currents are not determined. Put a resistance into the loop.",
  ],
  [
    "2 A into a node and 3 A out of it by sources alone",
    reportOf([I("I1", "0", "a", "2 A"), I("I2", "a", "b", "3 A"), R("R1", "b", "0")]),
    "fault",
    "currentSourceCut",
    ["I1", "I2"],
    "I1 and I2 are the only ways for current to or from node a, and 1 A more flows out than in. Add a path for that current, or change a value.",
  ],
  [
    "2 A into a node and 2 A out of it by sources alone",
    reportOf([I("I1", "0", "a"), I("I2", "a", "b"), R("R1", "b", "0")]),
    "fault",
    "currentSourceCut",
    ["I1", "I2"],
    "I1 and I2 are the only ways for current to or from node a, so the voltage there is not determined. Add a path that is not a current source.",
  ],
  [
    "an op amp with nothing from its output to its inputs",
    reportOf([V("V1", "a", "0"), opAmp("U1", "a", "0", "o"), R("R1", "o", "0")]),
    "fault",
    "opAmpWithoutFeedback",
    ["U1"],
    "The output of U1 does not reach its inverting input, so nothing keeps its inputs equal. Give it a feedback path, for instance a resistor from the output to the inverting input.",
  ],
  [
    "an op amp with feedback to the wrong input",
    reportOf([V("V1", "a", "0"), R("R1", "a", "p"), R("R2", "p", "o"), opAmp("U1", "p", "0", "o")]),
    "notice",
    "opAmpPositiveFeedback",
    ["U1"],
    "U1 has feedback to its non-inverting input only. The equal-input rule gives the numbers shown, but a real amplifier would run to its limit: check which input the feedback goes to.",
  ],
  [
    "a source that follows a part that isn't there",
    reportOf([
      V("V1", "a", "0"),
      R("R1", "a", "0"),
      { id: "F1", kind: "cccs", nodes: ["0", "a"], control: { current: "R7" }, gain: 2 } as Element,
    ]),
    "fault",
    "controlMissing",
    ["F1"],
    "F1 follows R7, which is not in the circuit. Choose what it follows.",
  ],
  [
    "a source that follows the current of a wire beside another wire",
    reportOf([
      V("V1", "a", "0"),
      wire("W1", "a", "b"),
      wire("W2", "a", "b"),
      R("R1", "b", "0"),
      { id: "H1", kind: "ccvs", nodes: ["c", "0"], control: { current: "W1" }, gain: 2, gain_unit: "Ω" } as Element,
      R("R2", "c", "0"),
    ]),
    "fault",
    "controlUndetermined",
    ["H1"],
    "What H1 follows (W1) is not determined by the circuit. Tie it to the rest, or remove what bypasses it.",
  ],
  [
    // 1/1 Ω − 1 S = 0: the source cancels the resistor's conductance.
    "a gain that cancels the conductance at a node",
    reportOf([
      I("I1", "0", "a"),
      R("R1", "a", "0"),
      {
        id: "G1",
        kind: "vccs",
        nodes: ["0", "a"],
        control: { voltage: ["a", "0"] },
        gain: 1,
        gain_unit: "S",
      } as Element,
    ]),
    "fault",
    "singularEquations",
    ["G1"],
    "With G1 as it is, the equations have no single solution (seen at node a). Change a gain or a value, or a connection there.",
  ],
  [
    // ω = 1/√(LC) = 1 rad/s
    "a lossless pair at its resonance",
    reportOf([I("I1", "0", "a", "1 A ∠ 0° @ 1 rad/s"), L("L1", "a", "0"), C("C1", "a", "0")]),
    "fault",
    "singularEquations",
    ["I1", "L1", "C1"],
    "With I1, L1 and C1 as they are, the equations have no single solution at 1 rad/s (seen at node a). Change a gain or a value, or a connection there.",
  ],
  [
    "a resistor of 0 Ω",
    reportOf([V("V1", "a", "0"), R("R1", "a", "b", "0 Ω"), R("R2", "b", "0")]),
    "notice",
    "zeroResistance",
    ["R1"],
    "R1 has 0 Ω and is treated as a wire.",
  ],
  [
    "negative values",
    reportOf([V("V1", "a", "0", "−4 V"), R("R1", "a", "b", "-3 Ω"), R("R2", "b", "0")]),
    "notice",
    "negativeValue",
    ["V1", "R1"],
    "V1 and R1 have negative values. That is allowed; check that the sign is meant.",
  ],
  [
    "two wires side by side",
    reportOf([V("V1", "a", "0"), wire("W1", "a", "b"), wire("W2", "a", "b"), R("R1", "b", "0")]),
    "notice",
    "undeterminedCurrent",
    ["W1", "W2"],
    "W1 and W2 bypass each other without resistance, so how the current divides among them is not determined. All other answers stand.",
  ],
  [
    "the current of one of two wires side by side",
    reportOf(
      [V("V1", "a", "0"), wire("W1", "a", "b"), wire("W2", "a", "b"), R("R1", "b", "0")],
      wanted({ quantity: "current", through: "W1", from: "a", to: "b" }),
    ),
    "fault",
    "wantedUndetermined",
    ["W1", "W2"],
    "I(W1) is not determined by the circuit: W1 and W2 may share their current in any way. Ask for another quantity, or change the circuit.",
  ],
  [
    "the Norton equivalent of an ideal voltage source",
    reportOf([V("V1", "a", "0"), R("R1", "a", "0")], wanted({ quantity: "norton", from: "a", to: "0" })),
    "fault",
    "noEquivalent",
    [],
    "Norton(a, 0) does not exist: seen from those nodes the circuit is an ideal voltage source, with no resistance in series.",
  ],
  [
    "the matched load of a port without resistance",
    reportOf([V("V1", "a", "0"), R("R1", "a", "0")], wanted({ quantity: "maximum-power-load", from: "a", to: "0" })),
    "fault",
    "noEquivalent",
    [],
    "RL(a, 0) has no largest power: the resistance seen from those nodes is not positive.",
  ],
  [
    "a time constant",
    reportOf(
      [V("V1", "a", "0"), R("R1", "a", "b"), L("L1", "b", "0")],
      wanted({ quantity: "time-constant", through: "L1" }),
    ),
    "fault",
    "steadyStateOnly",
    [],
    "τ(L1) asks for a change in time. Only steady states are solved here: constant sources, or sinusoids that have been on for long.",
  ],
  [
    "an inductor with a constant source",
    reportOf([V("V1", "a", "0"), R("R1", "a", "b"), L("L1", "b", "0")]),
    "notice",
    "constantSteadyState",
    ["L1"],
    "For constant sources L1 is taken in the steady state: a capacitor carries no current, an inductor has no voltage.",
  ],
  [
    // Limits of extra-low voltage: IEC 61140, 50 V AC (rms) and 120 V DC. 2 A × 100 Ω = 200 V.
    "200 V across a resistor",
    reportOf([I("I1", "0", "a"), R("R1", "a", "0", "100 Ω")]),
    "notice",
    "beyondExtraLowVoltage",
    ["I1", "R1"],
    "I1 and R1 are at more than extra-low voltage (50 V AC or 120 V DC). These numbers are an exercise on paper and do not make a circuit safe to build or touch: follow local codes and leave such work to licensed people.",
  ],
];

describe("a problem", () => {
  it.each(CASES)("is told of %s", (_title, report, severity, code, parts, text) => {
    const found = report.problems.filter((problem) => problem.code === code);
    expect(found.map((problem) => [problem.severity, problem.parts, problem.text])).toEqual([[severity, parts, text]]);
  });

  it("that is a fault of one section leaves the answers of the rest", () => {
    const asked = wanted({ quantity: "current", through: "R1", from: "a", to: "0" });
    const report = reportOf([V("V1", "a", "0"), R("R1", "a", "0"), R("R8", "x", "y"), R("R9", "x", "y")], asked);
    expect(report.wanted[0]?.total?.text).toBe("9 A");
    expect(report.nodes.find(({ node }) => node === "x")?.voltage).toBeNull();
  });

  it("that leaves no single solution leaves no answer at all, whatever the values are", () => {
    for (const second of ["9 V", "5 V", "0 V"]) {
      const report = reportOf([V("V1", "a", "0"), V("V2", "a", "0", second), R("R1", "a", "0")]);
      expect(report.nodes).toEqual([]);
      expect(report.powerBalance).toBeNull();
    }
  });

  it("of a wanted quantity names what is missing", () => {
    expect(problemReport({ code: "wantedUnknownPart", wanted: "Iy", part: partId("R5") }).text).toBe(
      "Iy asks for R5, which is not in the circuit. Choose another part.",
    );
    expect(problemReport({ code: "wantedUnknownNode", wanted: "Vq", node: nodeId("q") }).text).toBe(
      "Vq asks for node q, which is not in the circuit. Choose another node.",
    );
  });
});

describe("feedback of an op amp", () => {
  it("may run through the current of a source that holds its output", () => {
    // U1 keeps node m at 0 V; H1 makes m 1 Ω times the current of V1, so V1 carries 0 A and U1 nothing either.
    const report = reportOf([
      opAmp("U1", "0", "m", "o"),
      { id: "H1", kind: "ccvs", nodes: ["m", "0"], control: { current: "V1" }, gain: 1, gain_unit: "Ω" } as Element,
      V("V1", "o", "0"),
    ]);
    expect(report.problems).toEqual([]);
    expect(report.parts.find(({ part }) => part === "V1")?.current?.exact).toBe("0");
  });
});

describe("extra-low voltage", () => {
  const isWarned = (report: Report): boolean => report.problems.some(({ code }) => code === "beyondExtraLowVoltage");

  it.each([
    ["120 V", false],
    ["121 V", true],
    ["50 V rms ∠ 0° @ 50 Hz", false],
    ["51 V rms ∠ 0° @ 50 Hz", true],
    // 70.7 V peak is 49.99 V rms, 70.8 V peak is 50.06 V rms.
    ["70.7 V ∠ 0° @ 50 Hz", false],
    ["70.8 V ∠ 0° @ 50 Hz", true],
  ])("ends at the limits of IEC 61140: %s is beyond: %s", (value, expected) => {
    expect(isWarned(reportOf([V("V1", "a", "0", value), R("R1", "a", "0", "1 kΩ")]))).toBe(expected);
  });
});
