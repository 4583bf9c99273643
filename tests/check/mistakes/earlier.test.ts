import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { givensOf, judgeZeroing, readEntry, type ZeroingJudgement } from "../../../shared/check";
import { type EarlierValue, followsText, type MistakeBooks, mistakeBooks } from "../../../shared/check/mistakes";
import type { EnteredNumber } from "../../../shared/check/value";
import { type Circuit, partId } from "../../../shared/circuit";
import { rational } from "../../../shared/quantity";
import { eachAlone, measureOf, unitOf } from "../../../shared/solve";
import { circuitOf } from "../../solve/solved";
import { inTime, ladder, phasor, type Question, summed } from "../trying";

// Expected values are worked by hand beside each case: common practice, no source.

type Desk = {
  readonly circuit: Circuit;
  readonly books: MistakeBooks;
  readonly number: (text: string) => EnteredNumber;
  readonly earlier: (values: Readonly<Record<string, string>>) => readonly EarlierValue[];
  readonly follows: (text: string, values: Readonly<Record<string, string>>, sources?: readonly string[]) => unknown;
  readonly explained: (
    text: string,
    values: Readonly<Record<string, string>>,
    options?: { readonly sources?: readonly string[]; readonly zeroing?: ZeroingJudgement },
  ) => readonly string[];
};

function desk({ elements, wanted: asked }: Pick<Question, "elements" | "wanted">): Desk {
  const circuit = circuitOf({ elements, reference: "0", wanted: [asked] });
  const [wanted] = circuit.wanted;
  if (!wanted) throw new Error("nothing is asked");
  const measure = measureOf(circuit);
  const place = { givens: givensOf(circuit, measure), measure, unit: unitOf(wanted), name: String(wanted.name) };
  const books = mistakeBooks({ circuit, wanted, grouping: eachAlone(circuit) });
  const number = (text: string): EnteredNumber => {
    const reading = readEntry(text, place);
    if (!reading.ok) throw new Error(`${text} can't be read`);
    return reading.entry.number;
  };
  const earlier = (values: Readonly<Record<string, string>>): readonly EarlierValue[] =>
    Object.entries(values).map(([ids, text]) => ({ sources: ids.split(" ").map(partId), entered: number(text) }));
  const bookOf = (sources: readonly string[] | undefined) => books.of(sources?.map(partId) ?? null);
  return {
    circuit,
    books,
    number,
    earlier,
    follows: (text, values, sources) => bookOf(sources)?.follows(number(text), 3, measure, earlier(values)),
    explained: (text, values, { sources, zeroing = null } = {}) =>
      (bookOf(sources)?.explain(number(text), 3, measure, { addends: earlier(values), zeroing }) ?? []).map(
        ({ mistakes, addend }) =>
          mistakes.map(({ code, parts }) => `${code}(${parts.join()})`).join(" + ") +
          (addend ? ` in ${addend.join()}` : ""),
      ),
  };
}

// V1 alone −10/11 mA = −0.909 mA, I1 alone −20/11 mA = −1.818 mA, together −30/11 mA = −2.727 mA.
const { follows, explained, circuit } = desk(summed);

describe("a total that rightly sums earlier values", () => {
  it("follows from them where one is wrong, and names the one that is to be mended", () => {
    expect(follows("10/11 mA", { V1: "-10/11 mA", I1: "20/11 mA" })).toEqual([["I1"]]);
    expect(follows("-4.41 mA", { V1: "-0.909 mA", I1: "-3.5 mA" })).toEqual([["I1"]]);
    expect(follows("3.5 mA", { V1: "1.5 mA", I1: "2 mA" })).toEqual([["V1"], ["I1"]]);
  });

  it("is such a sum within the rounding of what was entered, and no further", () => {
    // −0.909 and −3.18 stand for −0.9095 to −0.9085 and −3.185 to −3.175.
    expect(follows("-4.09 mA", { V1: "-0.909 mA", I1: "-3.18 mA" })).toEqual([["I1"]]);
    expect(follows("-4.08 mA", { V1: "-0.909 mA", I1: "-3.18 mA" })).toEqual([["I1"]]);
    expect(follows("-4.07 mA", { V1: "-0.909 mA", I1: "-3.18 mA" })).toBe(null);
    // Fractions and short numbers stand for themselves.
    expect(follows("5/11 mA", { V1: "-10/11 mA", I1: "15/11 mA" })).toEqual([["I1"]]);
    expect(follows("0.46 mA", { V1: "-10/11 mA", I1: "15/11 mA" })).toBe(null);
  });

  it("is nothing to say of where it is right, no sum of them, or not all of them are there", () => {
    expect(follows("-30/11 mA", { V1: "-10/11 mA", I1: "20/11 mA" })).toBe(null);
    expect(follows("1 mA", { V1: "-10/11 mA", I1: "20/11 mA" })).toBe(null);
    expect(follows("20/11 mA", { I1: "20/11 mA" })).toBe(null);
    expect(follows("30/11 mA", { V1: "10/11 mA", I1: "20/11 mA", "V1 I1": "1 mA" })).toBe(null);
  });

  it("names none where all are right and only rounding is in the way", () => {
    // V1 alone 5.0275 V, I1 alone −5 V: to three figures 27.5 mV is left of them, and 30 mV of the rounded ones.
    const close = desk({
      elements: [
        { id: "V1", kind: "voltage-source", nodes: ["p", "0"], value: "10.055 V" },
        { id: "R1", kind: "resistor", nodes: ["p", "a"], value: "1 kΩ" },
        { id: "R2", kind: "resistor", nodes: ["a", "0"], value: "1 kΩ" },
        { id: "I1", kind: "current-source", nodes: ["a", "0"], value: "10 mA" },
      ],
      wanted: { name: "Va", quantity: "voltage", from: "a", to: "0" },
    });
    expect(close.follows("0.03 V", { V1: "5.03 V", I1: "-5 V" })).toEqual([]);
    expect(close.follows("0.0275 V", { V1: "5.0275 V", I1: "-5 V" })).toBe(null);
    expect(followsText([])).toMatch(/carry more figures/);
  });

  it("may be a group's, and of phasors and functions of time", () => {
    const three = desk({
      elements: [...ladder, { id: "I2", kind: "current-source", nodes: ["0", "a"], value: "11 mA" }],
      wanted: summed.wanted,
    });
    // I2 alone −11 · 4/11 = −4 mA.
    expect(three.follows("2 mA", { I1: "-2 mA", I2: "4 mA" }, ["I1", "I2"])).toEqual([["I1"], ["I2"]]);
    expect(three.follows("1.09 mA", { V1: "-0.909 mA", "I1 I2": "2 mA" })).toEqual([["I1", "I2"]]);
    const time = desk(inTime);
    expect(time.follows("3 A - 2.5 cos(100π t + 30°) A", { V1: "3 A", V2: "-2.5 cos(100π t + 30°) A" })).toEqual([
      ["V2"],
    ]);
    const waves = desk({
      elements: [
        ...phasor.elements,
        { id: "V2", kind: "voltage-source", nodes: ["q", "0"], value: "5 V ∠ 0° @ 1000 rad/s" },
        { id: "R2", kind: "resistor", nodes: ["q", "a"], value: "3 kΩ" },
      ],
      wanted: phasor.wanted,
    });
    expect(waves.follows("3 mA", { V1: "1 mA + j2 mA", V2: "2 mA - j2 mA" })).toEqual([["V1"], ["V2"]]);
  });

  it("is said in one sentence that names what is to be mended", () => {
    expect(followsText([[partId("V2")], [partId("I1"), partId("I2")]])).toBe(
      "This follows from the values before it. Still to be mended: the addend of V2 and the addend of I1 and I2.",
    );
  });

  // Sevenths of a milliampere: fractions, so that nothing of them is rounded.
  const sevenths = fc.integer({ min: -7, max: 7 }).filter((n) => n % 7 !== 0);
  it("follows whatever the two values are, and nothing else does", () =>
    fc.assert(
      fc.property(sevenths, sevenths, fc.integer({ min: 3, max: 9 }), (a, b, off) => {
        const total = desk(summed).books.of(null);
        const value = (n: number, d: number): EnteredNumber => ({
          kind: "exact",
          value: rational(BigInt(n), BigInt(d)),
        });
        const earlier = [
          { sources: [partId("V1")], entered: value(a, 7000) },
          { sources: [partId("I1")], entered: value(b, 7000) },
        ];
        expect(total?.follows(value(a + b, 7000), 3, "peak", earlier)).not.toBe(null);
        if (a + b !== 0) expect(total?.follows(value((a + b) * (10 + off), 70_000), 3, "peak", earlier)).toBe(null);
      }),
    ));
});

describe("where two mistakes lead to one value, the earlier lines decide", () => {
  it("for the slip in the sum, where all addends were right", () => {
    // −10/11 + 20/11.
    expect(explained("10/11 mA", {})).toContain("polarityTurned(I1)");
    expect(explained("10/11 mA", { V1: "-10/11 mA", I1: "-20/11 mA" })).toEqual(["addendSignTurned(I1)"]);
  });

  it("against the source whose addend was right, where only that was entered", () => {
    expect(explained("10/11 mA", { I1: "-1.82 mA" })).not.toContain("polarityTurned(I1)");
    expect(explained("10/11 mA", { V1: "-10/11 mA" })).toContain("polarityTurned(I1)");
    // −10/11 − 35/11: the division was turned round in the addend of I1.
    expect(explained("-45/11 mA", {})[0]).toBe("divisionTurned(R2,R1) in I1");
    expect(explained("-45/11 mA", { V1: "-0.909 mA" })[0]).toBe("divisionTurned(R2,R1) in I1");
  });

  it("for a slip in adding up the values that were entered, right or not", () => {
    // I1 found as −35/11 mA, the division turned round; then the sign of V1 turned in the sum: 10/11 − 35/11.
    expect(explained("-25/11 mA", { V1: "-10/11 mA", I1: "-35/11 mA" })).toEqual(["addendSignTurned(V1)"]);
    expect(explained("-35/11 mA", { V1: "-10/11 mA", I1: "-35/11 mA" })).toEqual(["addendForgotten(V1)"]);
    expect(explained("45/11 mA", { V1: "-10/11 mA", I1: "-35/11 mA" })).toEqual([
      "signsIgnored(V1,I1)",
      "signTurned()",
    ]);
  });

  it("by the zeroing, where that was judged", () => {
    const judged = (made: "short" | "open") => judgeZeroing(circuit, [partId("I1")], new Map([[partId("V1"), made]]));
    // −5 mA: all of I1 flows in R2, since V1 is an open, or since R1 was left out.
    const codes = explained("-5 mA", {}, { sources: ["I1"] });
    expect(codes).toEqual(expect.arrayContaining(["voltageSourceOpened(V1)", "partDropped(R1)"]));
    expect(explained("-5 mA", {}, { sources: ["I1"], zeroing: judged("open") })).toEqual(["voltageSourceOpened(V1)"]);
    expect(explained("-5 mA", {}, { sources: ["I1"], zeroing: judged("short") })).not.toContain(
      "voltageSourceOpened(V1)",
    );
  });

  it("keeps the explanations where the earlier lines contradict all of them", () => {
    // Rightly zeroed, and yet the value of the other source left on: nothing else explains it.
    const right = judgeZeroing(circuit, [partId("I1")], new Map([[partId("V1"), "short" as const]]));
    expect(explained("-30/11 mA", {}, { sources: ["I1"], zeroing: right })).toEqual(["sourceLeftOn(V1)"]);
  });
});
