import { describe, expect, it } from "vitest";
import { type EquationJudgement, equationPlace, equationText, judgeEquation } from "../../../shared/check/equations";
import { partId } from "../../../shared/circuit";
import { eachAlone } from "../../../shared/solve";
import type { RawCircuit } from "../../independent/elements";
import { circuitOf } from "../../solve/solved";
import { inTime, ladder, phasor } from "../trying";

// Expected values are worked by hand beside each case: common practice, no source.

function judging(
  { elements, wanted }: Pick<RawCircuit, "elements"> & { readonly wanted: readonly Readonly<Record<string, string>>[] },
  acting: readonly string[] | null = null,
  figures = 3,
): (text: string) => EquationJudgement {
  const circuit = circuitOf({ elements, reference: "0", wanted });
  const place = equationPlace(circuit, eachAlone(circuit), acting?.map(partId) ?? null);
  if (place === null) throw new Error("the circuit has no solution");
  return (text) => judgeEquation(text, place, { figures, seed: 1 });
}

// V1 = 10 V behind R1 = 4 kΩ, R2 = 7 kΩ and I1 = 5 mA into the node a; Ix in R2 from 0 to a.
// (10 − Va)/4 + 5 = Va/7 in mA: Va = 7.5 · 28/11 = 210/11 V; Ix = −30/11 mA; I(R1) = (10 − 210/11)/4 = −25/11 mA.
// V1 alone: Va = 70/11 V, Ix′ = −10/11 mA. I1 alone: Va = 140/11 V, Ix″ = −20/11 mA.
const wanted = [
  { name: "Ix", quantity: "current", through: "R2", from: "0", to: "a" },
  { name: "Vq", quantity: "voltage", from: "p", to: "a" },
  { name: "Pt", quantity: "power", through: "R2" },
];
const whole = judging({ elements: ladder, wanted });
const alone = judging({ elements: ladder, wanted }, ["I1"]);

describe("an equation of the whole circuit", () => {
  it.each([
    "(Va − 10 V)/4k + Va/7k = 5 mA",
    "(V_a - V1)/R1 + V_a/R2 - I1 = 0",
    "(V(a) − V1)/R1 + V(a)/R2 = I1",
    "(u_a − 10 V)/(4 kΩ) = 5 mA - U(a)/7k",
    "I(R2) = I(R1) + 5 mA",
    "I_R2 = IR1 + I1",
    "I2 = I(R1) + I1",
    "Ix = −30/11 mA",
    "Ix = −2.73 mA",
    "-2.727 mA = Ix",
    "V(a) = 210/11 V",
    "V(a, 0) = 19.1 V",
    "V(p, a) = V(R1)",
    "Vq = V1 − Va",
    "V(R1) = R1·I(R1)",
    "10 V = R1 I(R1) + R2 I(R2)",
    "Ix = Ix′ + Ix″",
    "Ix = Ix' + Ix''",
    "Ix′ = −10/11 mA",
    "Va = Va′ + Va″",
    "V_a″ = 140/11 V",
    "Pt = R2·Ix²",
    "Pt = R2 (30/11 mA)^2 = V(a)^2/R2",
    "2 Ix = 2(Ix′ + Ix″)",
    "Ix = I1 R1/(R1+R2) * (-1) − V1/(R1 + R2)",
  ])("%s is true", (text) => expect([text, whole(text)]).toEqual([text, { outcome: "true" }]));

  it.each([
    ["0 = 0", "givens"],
    ["R1 = 4k", "givens"],
    ["R1 + R2 = 11 kΩ", "givens"],
    ["2 mA = 2 mA", "givens"],
    ["V(0) = 0 V", "givens"],
    ["Va = Va", "identity"],
    ["Va − V(a) = 0", "identity"],
    ["V(a, p) = V_a − V_p", "identity"],
    ["Ix = −I(R2)", "identity"],
    ["(Va + Vp)·(Va − Vp) = Va² − Vp²", "identity"],
    ["0·Ix = 0", "identity"],
    ["Ix·R1/R1 = Ix = Ix", "identity"],
  ])("%s is true and says nothing: %s", (text, why) =>
    expect([text, whole(text)]).toEqual([text, { outcome: "trueButEmpty", why }]),
  );

  it("is useful where one of its links is", () => {
    expect(whole("0·Ix + Ix = Ix = −30/11 mA")).toEqual({ outcome: "true" });
  });

  it.each([
    ["Ix = 30/11 mA", { code: "sideTurned" }],
    ["Va/7k = (Va − 10 V)/4k + 5 mA", { code: "termTurned", term: "(Va − 10 V)/4k" }],
    ["I(R2) = I(R1) − 5 mA", { code: "termTurned", term: "5 mA" }],
    ["V1 = R1·I(R1) − R2·I(R2)", { code: "termTurned", term: "R2·I(R2)" }],
    ["Va/7k = I(R1) + I1 + 2 mA", { code: "termTooMuch", term: "2 mA" }],
    ["Va = 210/11 mV", { code: "powerOfTen", power: 3 }],
    ["Va = 5 mA", { code: "otherUnit" }],
    ["Ix = −2.75 mA", { code: "unequal", larger: "right", signs: "same" }],
    ["Ix = −2.7 mA", { code: "unequal", larger: "left", signs: "same" }],
    ["Va = −1 V", { code: "unequal", larger: "left", signs: "opposite" }],
    ["Ix = 0", { code: "notNothing", side: "left" }],
    ["0 A = Ix", { code: "notNothing", side: "right" }],
    ["Ix = −30/11 mA = −31/11 mA", { code: "unequal", larger: "right", signs: "same" }],
  ])("%s is false", (text, diagnosis) =>
    expect([text, whole(text)]).toMatchObject([text, { outcome: "false", diagnosis }]),
  );

  it("takes numbers with as many figures as count to be rounded, and shorter ones and given ones as they stand", () => {
    // 2.73 mA stands for 2.725 to 2.735 mA.
    expect(whole("Ix + 2.73 mA = 0").outcome).toBe("true");
    expect(whole("Ix + 2.74 mA = 0").outcome).toBe("false");
    expect(whole("Ix + 2.7 mA = 0").outcome).toBe("false");
    expect(judging({ elements: ladder, wanted }, null, 2)("Ix + 2.7 mA = 0").outcome).toBe("true");
    // So does a number with a prefix alone: 4k ∥ 7k is 28/11 kΩ, about 2.545k.
    expect(whole("Ix + 2.73m = 0").outcome).toBe("true");
    expect(whole("Ix + 2.74m = 0").outcome).toBe("false");
    expect(whole("V1·R2/(R1 + R2) = 10 V·2.545k/R1").outcome).toBe("trueButEmpty");
    // The two roundings together may be off by a hundredth.
    expect(whole("I(R2) − I(R1) = 2.73 mA + 2.27 mA").outcome).toBe("true");
  });
});

describe("a false equation with short names that may have been meant otherwise", () => {
  it("says what they were read as: a source by its value, and else the current in the resistor of that number", () => {
    // At a, I(R2) = I(R1) + I1.
    expect(equationText(whole("I1 = I2 + I_R1"))).toBe(
      "Not true of this circuit, but it would be with the other sign before I_R1. " +
        "Read here: I1 as the source I1 and I2 as the current in R2. " +
        "The current in a part is written as I_R1; mesh currents have no names here.",
    );
    const taken = (text: string) => {
      const judgement = whole(text);
      return judgement.outcome === "false" ? judgement.taken?.map(({ name, as, part }) => [name, as, part]) : null;
    };
    expect(taken("10 V = R1·i1 + R2·(i1 − i2)")).toEqual([
      ["i1", "value", "I1"],
      ["i2", "current", "R2"],
    ]);
    expect(taken("I2 = 2 I2")).toEqual([["I2", "current", "R2"]]);
    expect(taken("I_1 = I2")).toEqual([
      ["I_1", "current", "R1"],
      ["I2", "current", "R2"],
    ]);
  });

  it("says nothing of sources, of names that are longer, and of addends", () => {
    for (const text of ["I_R1 = I1", "I(R2) = IR1", "Ix = Ix′", "V(a) = 2 V", "I2′ = 3 mA"]) {
      expect([text, whole(text).outcome]).toEqual([text, "false"]);
      expect([text, whole(text)]).not.toHaveProperty([1, "taken"]);
    }
  });
});

describe("an equation of one source alone", () => {
  it("has the other sources at 0", () => {
    expect(alone("(Va − V1)/R1 + Va/R2 = I1").outcome).toBe("true");
    expect(alone("Va/R1 + Va/R2 = I1").outcome).toBe("true");
    expect(alone("Va = 140/11 V").outcome).toBe("true");
    expect(alone("Ix = −20/11 mA").outcome).toBe("true");
    expect(alone("Ix″ = −20/11 mA").outcome).toBe("true");
    expect(alone("(Va − 10 V)/R1 + Va/R2 = I1").outcome).toBe("false");
    expect(alone("V1 = 0").outcome).toBe("trueButEmpty");
  });
});

describe("an equation of sinusoids", () => {
  // 10 V / (3 + 4j) kΩ = 2 mA ∠ −53.13° = 1.2 − 1.6j mA; the inductor has 4j kΩ.
  const steady = judging({ elements: phasor.elements, wanted: [phasor.wanted] });
  it.each([
    "Iz = 2∠−53.13° mA",
    "Iz = 2∠-53.1° mA",
    "Iz = 1.2 mA − j1.6 mA",
    "V1 = (R1 + j4k)·Iz",
    "V(a) = Z(L1)·I(L1)",
    "V1 = R1·Iz + V_a",
    "Iz = 2 cos(1000 t − 53.13°) mA",
    "abs(Iz) = 2 mA",
    "Iz = 1.2 − j1.6 mA",
    "V1 = (3 + j4 kΩ)·Iz",
    "V(a) = -(-j4 kΩ)·Iz",
  ])("%s is true of phasors", (text) => expect([text, steady(text)]).toEqual([text, { outcome: "true" }]));

  it("is false with the phase turned", () => {
    expect(steady("Iz = 2∠53.13° mA")).toMatchObject({ diagnosis: { code: "unequal", larger: null } });
    expect(steady("V1 = R1·Iz − V_a")).toMatchObject({ diagnosis: { code: "termTurned", term: "V_a" } });
    expect(steady("conj(Iz) = Iz").outcome).toBe("false");
  });

  // 3 A + 2.5 cos(100π t + 30°) A
  const mixed = judging({ elements: inTime.elements, wanted: [inTime.wanted] });
  it.each([
    "It = 3 A + 2.5 cos(100π t + 30°) A",
    "It = 3 A + 2.50 cos(314 t + 30°) A",
    "V(R1) = 2 Ω·It",
    "It = It′ + It″",
  ])("%s is true in time", (text) => expect([text, mixed(text)]).toEqual([text, { outcome: "true" }]));
  it("is false without one of its terms", () => expect(mixed("It = 2.5 cos(100π t + 30°) A").outcome).toBe("false"));
});

describe("an equation that can't be read", () => {
  it.each([
    ["", "empty", 0],
    ["Va", "equalsMissing", 0],
    ["Va = ", "sideMissing", 4],
    ["= Va", "sideMissing", 0],
    ["Va = 3 V = ", "sideMissing", 10],
    ["Va + X7 = 3 V", "unknownName", 5],
    ["Va = V(x)", "unknownQuantity", 5],
    ["3 mA + I(R9) = 0", "unknownQuantity", 7],
    ["Va = 3 # 4", "unknownCharacter", 7],
    ["Va = (3 V", "notClosed", 5],
    ["V = 15 V", "unknownQuantity", 0],
    ["3 mA = A", "unknownQuantity", 7],
    ["Va + 3 mA = 0", "unitsDiffer", 0],
    ["Ix = Ix‴", "noAddend", 5],
    ["a = b = c = d = e = f = g = h = i", "tooManySides", 0],
    [`${"1+".repeat(110)}1 = 2`, "tooLong", 0],
  ])("%s says why and where", (text, code, at) => {
    expect([text, whole(text)]).toMatchObject([text, { outcome: "unread", problem: { code }, at }]);
  });

  it("never gives the value of a hidden quantity in what is said", () => {
    const texts = ["Ix = 1 mA", "R2·Ix = 1 V", "Va = 1 mV", "Ix = −2.5 mA", "Ix = 2 mA + 1 mA", "Ix/2 = Va"];
    for (const text of texts) expect(equationText(whole(text))).not.toMatch(/2\.7|2,7|19\.|30\/11|times the right/);
  });
});
