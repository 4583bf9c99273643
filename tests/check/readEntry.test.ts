import { describe, expect, it } from "vitest";
import { givensOf, type Judgement, judgementText, readEntry, USUAL_RULES } from "../../shared/check";
import { circuitOf } from "../solve/solved";
import { asking, divided, everyWay, inTime, ladder, type Question, summed } from "./trying";

const said = (text: string, asked: Question = divided) => judgementText(asking(asked)(text));
const outcome = (judgement: Judgement) => judgement.outcome;

describe("what can't be read is no wrong answer, and is told in a sentence", () => {
  it.each([
    ["", "Nothing is written here. Write a number with its unit, or an expression such as 8 mA * R2/(R1 + R2)."],
    ["  =  ", "Nothing is written here. Write a number with its unit, or an expression such as 8 mA * R2/(R1 + R2)."],
    ["5 mA + 3 V", "A current (A) and a voltage (V) can't be added."],
    ["V1 − I1", "A voltage (V) and a current (A) can't be subtracted."],
    ["R1 ∥ 3 V", "A resistance (Ω) and a voltage (V) can't be put in parallel."],
    ["I1 + 2", "A current (A) and a pure number can't be added."],
    ["V1² + I1", "A quantity in V² and a current (A) can't be added."],
    ["V1/(R1 − 4 kΩ)", "This divides by zero."],
    ["0 Ω ∥ 0 Ω", "This divides by zero."],
    ["I1*R9/(R1+R2)", 'There is no part "R9" in this circuit, and it is no unit. Is R1 or R2 meant?'],
    ["I1*x", 'There is no part "x" in this circuit, and it is no unit.'],
    ["V(a)/R1", 'A value is made of numbers and parts alone: put the number in for "V(a)".'],
    ["(V1 − V(p, a))/R1", 'A value is made of numbers and parts alone: put the number in for "V(p, a)".'],
    ["Va/R1", 'A value is made of numbers and parts alone: put the number in for "Va".'],
    ["I1 − I_R1", 'A value is made of numbers and parts alone: put the number in for "I_R1".'],
    ["Vth/(Rth + R1)", 'A value is made of numbers and parts alone: put the number in for "Vth".'],
    ["exp(2) mA", '"exp" can\'t be used here. Functions are sqrt, sin, cos, abs, conj.'],
    ["sqrt 4 mA", '"sqrt" needs what it is of in parentheses.'],
    ["sqrt() mA", '"sqrt" needs what it is of in parentheses.'],
    ["sqrt(I1)", "The root of a current (A) has no unit."],
    ["sin(I1) mA", '"sin" is taken of an angle, such as 30°, and this is a current (A).'],
    ["I1*(R1/(R1+R2)", "A parenthesis is opened and not closed."],
    ["I1*R1)/R2", "A parenthesis is closed that was not opened."],
    ["I1 *", "The expression stops before it is complete."],
    ["I1 * / R1", '"/" stands where it can\'t.'],
    ["()", '")" stands where it can\'t.'],
    ["I1 ; 2", '";" has no meaning here.'],
    ["I1.R1", '"." has no meaning here.'],
    ['"a"', '""" has no meaning here.'],
    ["I1 = I2 = 3 mA", "Write the value alone, without an equals sign, or with the name of what is asked before it."],
    ["Iy = 3 mA", "Write the value alone, without an equals sign, or with the name of what is asked before it."],
    ["I1^I1", "An exponent is a whole number from −30 to 30."],
    ["2^99 mA", "An exponent is a whole number from −30 to 30."],
    ["2^0.5 mA", "An exponent is a whole number from −30 to 30."],
    ["1,234 mA", '"1,234" may be 1234 or 1.234. Write the one that is meant in that way.'],
    [
      "1.2.3 mA",
      '"1.2.3" has more than one comma or point. Use one decimal mark, and spaces or nothing between thousands.',
    ],
    ["5 mohmz", 'There is no part "mohmz" in this circuit, and it is no unit.'],
    ["1e99 A", '"1e99" has too large a power of ten: it may lie between −30 and 30.'],
    ["5 ∠ mA", 'Behind "∠" a phase is expected, such as 45°.'],
    ["((10^30)^30)^30 A", "A number in this grows beyond what is computed here."],
    [
      "cos(1000 t) cos(1000 t) A",
      "Functions of time can be added, and multiplied or divided by numbers, but not by one another.",
    ],
    [
      "1∠30° A + cos(1000 t) A",
      "A phasor and a function of time can't be in one expression. Write all of it in one of the two ways.",
    ],
    ["abs(cos(1000 t)) A", '"abs" can\'t be taken of a function of time here.'],
    [`${"1+".repeat(90)}1`, "This has too many numbers, names and signs: at most 120 are read."],
    [
      `${"(".repeat(30)}1${")".repeat(30)} mA`,
      "This has too many parentheses inside one another: at most 24 are read.",
    ],
    ["1".repeat(300), "This is too long: at most 200 characters are read."],
  ])("%s", (text, sentence) => {
    expect(outcome(asking(divided)(text))).toBe("unread");
    expect(said(text)).toBe(sentence);
  });

  it("names a part that has no value", () => {
    const withSwitch = [...ladder, { id: "S1", kind: "switch", nodes: ["p", "0"], state: "open" }];
    expect(said("V1*S1", { ...divided, elements: withSwitch })).toBe('"S1" is a part without a value of its own.');
  });
});

describe("what is known of a wrong value is told in a sentence", () => {
  it.each([
    ["1.82 mA", "The size is right, the sign is turned round."],
    ["-1.82", "The unit is missing: a current in amperes (A) is wanted."],
    ["-1.82 V", "This is a voltage (V); a current in amperes (A) is wanted."],
    ["V1*V1", "This is a quantity in V²; a current in amperes (A) is wanted."],
    ["-1.8 mA", "This is right to 2 significant figures; 3 count."],
    ["-1.82 A", "The digits are right, but the value is 1000 times too large: look at the prefixes."],
    [
      "1.82 µA",
      "The digits are right, but the value is 1000 times too small: look at the prefixes. The sign is turned round, too.",
    ],
    ["-5/2 mA", "The sign is right, the size is 1.38 times the right one."],
    ["I1*R2/(R1+R2)", "The sign is turned round, and the size is 1.75 times the right one."],
    ["-1 mA", "The sign is right, the size is 0.55 times the right one."],
    ["0 A", "The answer is not 0."],
    ["2j mA", "This is a phasor; the answer is a plain number."],
  ])("%s", (text, sentence) => expect(said(text)).toBe(sentence));

  it("names the parts of a sum in time", () => {
    expect(said("3 A + 5 cos(100π t + 30°) A", inTime)).toBe("Wrong, missing or too much: the part at 314.2 rad/s.");
    expect(said("2.5 cos(100π t + 30°) A + cos(5 t) A", inTime)).toBe(
      "Wrong, missing or too much: the constant part, the part at 5 rad/s.",
    );
    expect(said("5.5 A∠30°", inTime)).toBe(
      "This is a phasor; the answer is a sum in time, such as 5 V + 2 cos(1000 t) V.",
    );
  });

  it("says nothing of an answer that is 0 but that another is not it", () => {
    const balanced = {
      ...summed,
      elements: ladder.map((each) => (each.id === "I1" ? { ...each, value: "-2.5 mA" } : each)),
    };
    expect(said("1 mA", balanced)).toBe("This is not the answer.");
    expect(said("V1/R1 − 2.5 mA", balanced)).toBe("Right.");
  });
});

describe("the settings of a problem", () => {
  it("count as many significant figures as they say", () => {
    const to = (figures: number) => (text: string) => outcome(asking(divided, { ...USUAL_RULES, figures })(text));
    expect(["−1.8 mA", "−1.82 mA", "−1.818 mA", "−2 mA"].map(to(2))).toEqual(["right", "right", "right", "wrong"]);
    expect(["−1.82 mA", "−1.818 mA", "−1.8182 mA", "−20/11 mA"].map(to(5))).toEqual([
      "wrong",
      "wrong",
      "right",
      "right",
    ]);
  });

  it("may take a value without its unit in the unit that is asked for", () => {
    const judged = asking(divided, { ...USUAL_RULES, units: "assumed" });
    expect(judged("−0.00182")).toEqual({ outcome: "right" });
    expect(judged("−1.82m")).toEqual({ outcome: "right" });
    expect(judged("-1.82")).toMatchObject({ diagnosis: { code: "powerOfTen", power: 3 } });
    expect(judged("-1.82 V")).toMatchObject({ diagnosis: { code: "otherUnit" } });
  });
});

it("a part's name goes before a unit of the same letters", () => {
  const renamed = ladder.map((each) => (each.id === "R2" ? { ...each, id: "R" } : each));
  const asked = {
    elements: renamed,
    wanted: { name: "Ix", quantity: "current", through: "R", from: "0", to: "a" },
    acting: ["I1"],
  };
  for (const text of everyWay(["−I1 R1/(R1 + R)", "-I1*R1/(R1+ 1 R)", "−I1·R1/(R1+r)"])) {
    expect([text, outcome(asking(asked)(text))]).toEqual([text, "right"]);
  }
});

describe("the figures that a number is written with", () => {
  const givens = givensOf(circuitOf({ elements: ladder, reference: "0" }), "peak");
  const figures = (text: string): number | null => {
    const reading = readEntry(text, { givens, measure: "peak", unit: "A", name: "Ix" });
    if (!reading.ok) throw new Error(`${text} can't be read`);
    return reading.entry.figures;
  };

  it("count zeros at its end behind a decimal mark", () => {
    expect(["−3.510 mA", "3,50 mA", "Ix = 0.0250 A", "0.500mA", "1.00 mA"].map(figures)).toEqual([4, 3, 3, 3, 3]);
  });

  it("are not known of a number without a mark, nor of an expression or a phasor", () => {
    expect(["1800 µA", "3 mA", "1.50 mA + 2.5 mA", "3.510∠30° mA", "V1/R1", "20.0/11 mA"].map(figures)).toEqual(
      Array.from({ length: 6 }, () => null),
    );
  });
});

it("a sign before j changes nothing of what is behind it", () => {
  const givens = givensOf(circuitOf({ elements: ladder, reference: "0" }), "peak");
  const imaginary = (text: string) => {
    const reading = readEntry(text, { givens, measure: "peak", unit: "V", name: "Va" });
    const value = reading.ok && reading.entry.number.kind === "complex" ? reading.entry.number.value : null;
    if (value === null || value.re !== 0) throw new Error(`${text} is no imaginary number`);
    return value.im;
  };
  // j · (3/2) · 5 = j7.5, as 1/2 R1 is half of R1; and 1/(−j4) = j0.25, where all of −j4 divides.
  for (const [text, size] of [
    ["j3/2 (5)", 7.5],
    ["j50", 50],
    ["j3/2", 1.5],
    ["j3/2 + j1", 2.5],
  ] as const) {
    expect([text, imaginary(text)]).toEqual([text, size]);
  }
  for (const [text, size] of [
    ["−j3/2 (5)", -7.5],
    ["0 − j3/2 (5)", -7.5],
    ["−j50", -50],
    ["−j3/2", -1.5],
    ["1/−j4", 0.25],
  ] as const) {
    expect([text, imaginary(text)]).toEqual([text, size]);
  }
});
