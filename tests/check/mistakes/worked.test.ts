import { describe, expect, it } from "vitest";
import { givensOf, readEntry } from "../../../shared/check";
import { type Explanation, explain, tellingQuestion } from "../../../shared/check/mistakes";
import { partId } from "../../../shared/circuit";
import { eachAlone, solveCircuit, unitOf } from "../../../shared/solve";
import { circuitOf } from "../../solve/solved";
import { inTime, ladder, phasor, type Question, resistance, summed } from "../trying";

// Expected values are worked by hand beside each case: common practice, no source.

/** The explanations of a text entered for a question, each as `code(parts)`, pairs joined by +. */
function explained(question: Question, text: string, figures = 3): readonly string[] {
  return explanations(question, text, figures).map(inShort);
}

function explanations(
  { elements, wanted: asked, acting }: Question,
  text: string,
  figures = 3,
): readonly Explanation[] {
  const circuit = circuitOf({ format: "addend-circuit", version: 1, elements, reference: "0", wanted: [asked] });
  const [wanted] = circuit.wanted;
  if (!wanted) throw new Error("nothing is asked");
  const { measure } = solveCircuit(circuit);
  const place = { givens: givensOf(circuit, measure), measure, unit: unitOf(wanted), name: String(wanted.name) };
  const reading = readEntry(text, place);
  if (!reading.ok) throw new Error(`${text} can't be read`);
  const sources = acting?.map(partId) ?? null;
  return explain({ circuit, wanted, grouping: eachAlone(circuit), sources }, reading.entry.number, figures, measure);
}

function inShort({ mistakes, addend }: Explanation): string {
  const each = mistakes.map(
    ({ code, parts, node }) => `${code}(${[...parts, ...(node === null ? [] : [`at ${node}`])].join()})`,
  );
  return `${each.join(" + ")}${addend === null ? "" : ` in ${addend.join()}`}`;
}

const first = (question: Question, text: string): string | undefined => explained(question, text)[0];

// V1 = 10 V behind R1 = 4 kΩ, R2 = 7 kΩ and I1 = 5 mA into the node a; Ix in R2 from 0 to a.
// V1 alone −10/11 mA, I1 alone −5 · 4/11 = −20/11 mA, together −30/11 mA.
const against = { name: "Ix", quantity: "current", through: "R2", from: "0", to: "a" };
const byI1: Question = { elements: ladder, wanted: against, acting: ["I1"] };
const byV1: Question = { elements: ladder, wanted: against, acting: ["V1"] };

/** A source behind R1 = 2 kΩ, then R2 = 6 kΩ beside R3. */
const divider = (source: string, r3: string) => [
  { id: "V1", kind: "voltage-source", nodes: ["p", "0"], value: source },
  { id: "R1", kind: "resistor", nodes: ["p", "a"], value: "2 kΩ" },
  { id: "R2", kind: "resistor", nodes: ["a", "0"], value: "6 kΩ" },
  { id: "R3", kind: "resistor", nodes: ["a", "0"], value: r3 },
];
const throughR3 = { name: "Ix", quantity: "current", through: "R3", from: "a", to: "0" };

describe("a wrong addend", () => {
  it("has nothing said of it where it is right", () => {
    expect(explained(byI1, "-20/11 mA")).toEqual([]);
    expect(explained(byI1, "-1.82 mA")).toEqual([]);
  });

  it("against the reference direction is a turned sign", () => {
    expect(first(byI1, "20/11 mA")).toBe("signTurned()");
    expect(first(byI1, "1.82 mA")).toBe("signTurned()");
  });

  it("with the own resistance on top, −5 mA · 7/11, is a division turned round", () => {
    expect(first(byI1, "-35/11 mA")).toBe("divisionTurned(R2,R1)");
    expect(first(byI1, "-5 mA * R2/(R1 + R2)")).toBe("divisionTurned(R2,R1)");
  });

  it("of half the current is an even split", () => {
    expect(first(byI1, "-2.5 mA")).toBe("evenSplit(R2,R1)");
  });

  it("that is the whole −5 mA has the voltage source as an open", () => {
    expect(first(byI1, "-5 mA")).toBe("voltageSourceOpened(V1)");
    expect(explained(byI1, "-5 mA")).toContain("undivided(R2,R1)");
  });

  it("to two figures is not explained by mistakes that lead to many values, which agree by chance", () => {
    // 20 V behind R1 = 2 kΩ, R2 = 6 kΩ, then R3 = 5 kΩ: 15 V behind 1.5 kΩ, 30/13 mA in R3, about 2.31 mA.
    const question = { elements: divider("20 V", "5 kΩ"), wanted: throughR3, acting: ["V1"] };
    // R1 · i1 + R2 · (i1 + i2) = 20 V and R2 · (i2 − i1) + R3 · i2 = 0 V: i2 = 30/31 mA.
    expect(first(question, "0.968 mA")).toBe("mutualTermTurned(R2)");
    expect(explained(question, "0.97 mA", 2)).toEqual([]);
    expect(explained(question, "4.2 mA", 2)[0]).toBe("undivided(R3,R2)");
  });

  it("that is the whole current, or voltage, was not divided", () => {
    // 12 V behind R1 = 2 kΩ, then R2 = 6 kΩ beside R3 = 3 kΩ, which are 2 kΩ: 3 mA in all, 2 mA of it in R3; 6 V across.
    const fed = divider("12 V", "3 kΩ");
    expect(first({ elements: fed, wanted: throughR3, acting: ["V1"] }, "3 mA")).toBe("undivided(R3,R2)");
    const across = { name: "Va", quantity: "voltage", at: "a" };
    expect(first({ elements: fed, wanted: across, acting: ["V1"] }, "12 V")).toBe("undivided(R2,R3,R1)");
  });

  it("that is the total, −30/11 mA, has the other source on", () => {
    expect(first(byI1, "-30/11 mA")).toBe("sourceLeftOn(V1)");
    expect(first(byV1, "-30/11 mA")).toBe("sourceLeftOn(I1)");
  });

  it("of 0 has the current source as a short beside R2", () => {
    expect(first(byV1, "0 mA")).toBe("currentSourceShorted(I1)");
  });

  it("a thousand times too large is a slip of a prefix", () => {
    expect(first(byI1, "-20/11 A")).toBe("prefixSlip()");
  });

  it("of two mistakes names both: an even split, and the wrong sign, +5/2 mA", () => {
    expect(first(byI1, "2.5 mA")).toBe("evenSplit(R2,R1) + signTurned()");
  });

  it("that is the current around a mesh, 35/11 mA in R1, is told so", () => {
    expect(first(byI1, "35/11 mA")).toBe("meshForBranch()");
  });

  it("that no mistake leads to is left without an explanation", () => {
    expect(explained(byI1, "-1.7777 mA")).toEqual([]);
  });
});

describe("a wrong total", () => {
  it("of one addend alone has the other forgotten", () => {
    expect(first(summed, "-10/11 mA")).toBe("addendForgotten(I1)");
  });

  it("of −10/11 + 20/11 has the sign of one addend turned, and the reversed source said beside it", () => {
    const found = explained(summed, "10/11 mA");
    expect(found[0]).toBe("addendSignTurned(I1)");
    expect(found).toContain("polarityTurned(I1)");
  });

  it("with one addend twice is told so: −30/11 − 20/11", () => {
    expect(first(summed, "-50/11 mA")).toBe("sourceCountedTwice(I1)");
  });

  it("rightly added up from an addend with a mistake names the mistake and its addend: −10/11 − 35/11", () => {
    expect(first(summed, "-45/11 mA")).toBe("divisionTurned(R2,R1) in I1");
  });

  it("with both addends' signs turned is the opposite reference direction", () => {
    expect(first(summed, "30/11 mA")).toBe("signsIgnored(V1,I1)");
    expect(explained(summed, "30/11 mA")).toContain("signTurned()");
  });
});

describe("a wrong power", () => {
  // 6 V and 4 V in series over 2 Ω: 10²/2 = 50 W; one by one 18 W and 8 W.
  const series: Question = {
    elements: [
      { id: "V1", kind: "voltage-source", nodes: ["a", "0"], value: "6 V" },
      { id: "V2", kind: "voltage-source", nodes: ["b", "a"], value: "4 V" },
      { id: "R1", kind: "resistor", nodes: ["b", "0"], value: "2 Ω" },
    ],
    wanted: { name: "P1", quantity: "power", through: "R1" },
    acting: null,
  };

  it("of 18 W + 8 W has the powers added", () => {
    expect(first(series, "26 W")).toBe("powersAdded(V1,V2)");
    expect(explained(series, "50 W")).toEqual([]);
  });
});

describe("a wrong mean power", () => {
  // 10 V peak over 5 Ω: 10²/(2 · 5) = 10 W.
  const wave: Question = {
    elements: [
      { id: "V1", kind: "voltage-source", nodes: ["a", "0"], value: "10 V ∠ 0° @ 50 Hz" },
      { id: "R1", kind: "resistor", nodes: ["a", "0"], value: "5 Ω" },
    ],
    wanted: { name: "P1", quantity: "power", through: "R1" },
    acting: null,
  };

  it("of 20 W takes the peak value for the rms value", () => {
    expect(first(wave, "20 W")).toBe("peakAndRms()");
    expect(explained(wave, "10 W")).toEqual([]);
  });
});

describe("a wrong resistance", () => {
  // Seen from a: 4 kΩ ∥ 7 kΩ = 28/11 kΩ.
  it("of 11 kΩ has a parallel pair added", () => {
    expect(first(resistance, "11 kΩ")).toBe("parallelAsSeries(R1,R2)");
  });

  it("of 7 kΩ has the voltage source as an open, of 0 the current source as a short", () => {
    expect(first(resistance, "7 kΩ")).toBe("sourcesLeftOnInEquivalent(V1)");
    expect(first(resistance, "0 Ω")).toBe("sourcesLeftOnInEquivalent(I1)");
  });

  it("of 1/4 + 1/7 kΩ is a sum of reciprocals", () => {
    expect(first(resistance, "11/28 kΩ")).toBe("sumOfReciprocals(R1,R2)");
  });

  it("of the other sign is not explained by a mistake that changes nothing", () => {
    // R3 lies across V1, which is a short when looking in.
    const held = [...ladder, { id: "R3", kind: "resistor", nodes: ["p", "0"], value: "2 kΩ" }];
    expect(explained({ ...resistance, elements: held }, "-28/11 kΩ")).toEqual([]);
  });

  it("of twice the size is no sum over the sources", () => {
    expect(explained(resistance, "56/11 kΩ")).toEqual([]);
  });

  it("of both parts with the other sign is not explained by the phase of a source that is zeroed", () => {
    // Seen from a: 3 kΩ ∥ j4 kΩ = (1.92 + 1.44j) kΩ.
    const wanted = { name: "Zx", quantity: "impedance", from: "a", to: "0" };
    expect(explained({ ...phasor, wanted }, "-1.92 kΩ - j1.44 kΩ")).toEqual([]);
  });
});

describe("a wrong phasor", () => {
  // 10 V / (3 + 4j) kΩ = 2 mA ∠ −53.13°.
  it("with the sign of its phase turned is named by what turns it", () => {
    expect(explained(phasor, "2∠53.13° mA")).toEqual(
      expect.arrayContaining(["conjugated()", "reactanceSignTurned(L1)"]),
    );
  });

  it("of 10/7 mA has the reactance added like a resistance", () => {
    expect(first(phasor, "10/7 mA")).toBe("reactanceAsResistance(L1)");
  });

  it("of 2/√2 mA mixes peak and rms, of 4 mA counts from trough to crest", () => {
    expect(first(phasor, "1.41421∠-53.13° mA")).toBe("peakAndRms()");
    expect(first(phasor, "4∠-53.13° mA")).toBe("peakToPeak()");
  });

  it("of rms values counts from trough to crest with 2√2 times as much, and not with twice", () => {
    // 10 V rms give 2 mA rms, which are 2 · 2√2 mA = 5.657 mA from trough to crest.
    const elements = phasor.elements.map((each) =>
      each.kind === "voltage-source" ? { ...each, value: "10 V rms ∠ 0° @ 1000 rad/s" } : each,
    );
    expect(first({ ...phasor, elements }, "5.657∠-53.13° mA")).toBe("peakToPeak()");
    expect(explained({ ...phasor, elements }, "4∠-53.13° mA")).not.toContain("peakToPeak()");
  });

  it("of a source with a phase, as if it had none, leaves that out", () => {
    // 10 V ∠ 30° gives 2 mA ∠ −23.13°.
    const elements = phasor.elements.map((each) =>
      each.kind === "voltage-source" ? { ...each, value: "10 V ∠ 30° @ 1000 rad/s" } : each,
    );
    expect(first({ ...phasor, elements }, "2∠-53.13° mA")).toBe("sourcePhaseMissing(V1)");
  });

  it("at 2π times the frequency takes radians per second for hertz: 10 V/(3000 + 25133j) Ω", () => {
    expect(first(phasor, "0.39508∠-83.193° mA")).toBe("hertzAsRadians()");
  });
});

describe("a wrong sum in time", () => {
  // 3 A + 2.5 cos(100π t + 30°) A
  it("without its constant has an addend forgotten", () => {
    expect(first(inTime, "2.5 cos(314.159 t + 30°) A")).toBe("addendForgotten(V1)");
  });
});

describe("two explanations of one value", () => {
  it("are told apart by a question", () => {
    const [a, b] = explanations(summed, "10/11 mA");
    if (!a || !b) throw new Error("expected two explanations");
    expect(tellingQuestion(a, b)).toBe(
      "Two ways lead to this value. Did you take the addend of I1 with the other sign, or did you take I1 with its polarity turned round?",
    );
  });
});
