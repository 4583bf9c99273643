import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Entry, readEntry } from "../../shared/check";
import { EXAMPLES } from "../../shared/examples";
import { type Rational, rational, toNumber, writeExact } from "../../shared/quantity";
import { circuits, EVERY_PART } from "../generators/circuits";
import { sinusoidalCircuits } from "../generators/sinusoids";
import type { RawCircuit } from "../independent/elements";
import { circuitOf } from "../solve/solved";
import { answersOf, asking, divided } from "./trying";

const place = { givens: new Map(), measure: "peak", unit: "1", name: "Q" } as const;

function entered(text: string): Entry {
  const reading = readEntry(text, place);
  if (!reading.ok) throw new Error(`${text}: ${JSON.stringify(reading.problem)}`);
  return reading.entry;
}

/** An expression and its value, worked out in doubles beside the text; null where it divides by 0. */
type Expression = { readonly text: string; readonly value: number };
const number = fc.integer({ min: 1, max: 99 }).map((n): Expression => ({ text: `${n}`, value: n }));
const { expression } = fc.letrec<{ expression: Expression }>((tie) => {
  const inside = tie("expression").map(({ text, value }): Expression => ({ text: `(${text})`, value }));
  const pair = fc.tuple(inside, inside);
  return {
    expression: fc.oneof(
      { maxDepth: 5 },
      number,
      pair.map(([a, b]) => ({ text: `${a.text} + ${b.text}`, value: a.value + b.value })),
      pair.map(([a, b]) => ({ text: `${a.text} − ${b.text}`, value: a.value - b.value })),
      pair.map(([a, b]) => ({ text: `${a.text}·${b.text}`, value: a.value * b.value })),
      pair.map(([a, b]) => ({ text: `${a.text}${b.text}`, value: a.value * b.value })),
      pair.map(([a, b]) => ({ text: `${a.text} / ${b.text}`, value: a.value / b.value })),
      pair.map(([a, b]) => ({ text: `${a.text} ∥ ${b.text}`, value: (a.value * b.value) / (a.value + b.value) })),
      inside.map((a) => ({ text: `−${a.text}`, value: -a.value })),
      inside.map((a) => ({ text: `${a.text}²`, value: a.value ** 2 })),
      inside.map((a) => ({ text: `abs${a.text}`, value: Math.abs(a.value) })),
    ),
  };
});

describe("an expression", () => {
  it("has the value that its operations give, exactly rational", () =>
    fc.assert(
      fc.property(expression, ({ text, value }) => {
        fc.pre(text.length <= 200 && Number.isFinite(value) && Math.abs(value) < 1e12);
        const reading = readEntry(text, place);
        // A difference that is 0 in one arithmetic may be rounding in the other, and then divides by it.
        fc.pre(reading.ok);
        if (!reading.ok || reading.entry.number.kind !== "exact") throw new Error("not exact");
        expect(toNumber(reading.entry.number.value)).toBeCloseTo(value, 6 - Math.ceil(Math.log10(Math.abs(value) + 1)));
      }),
      { numRuns: 2000 },
    ));

  it("binds ∥ tighter than products, and powers tighter than ∥", () => {
    const same = (a: string, b: string) => expect([a, entered(a).number]).toEqual([a, entered(b).number]);
    same("6 + 2 ∥ 2", "6 + (2 ∥ 2)");
    same("6·2 ∥ 2", "6·(2 ∥ 2)");
    same("6 / 2 ∥ 2", "6 / (2 ∥ 2)");
    same("2² ∥ 4", "(2²) ∥ 4");
    same("4 ∥ 2² ∥ 2", "4 ∥ 4 ∥ 2");
    same("2^-1 ∥ 1/2", "((1/2) ∥ 1)/2");
    same("−2 ∥ 2", "−(2 ∥ 2)");
    same("1/2 (3 + 1)", "2");
    same("6/(1 + 1) (3)", "1");
    same("√4 + 1", "3");
    same("−2²", "−4");
  });
});

const size = fc.tuple(fc.integer({ min: 1, max: 9999 }), fc.integer({ min: 1, max: 999 }), fc.boolean());
const value = size.map(([n, d, isNegative]): Rational => rational(BigInt(isNegative ? -n : n), BigInt(d)));

describe("a judgement", () => {
  it("accepts every quantity as it is written exactly", () => {
    const source = (text: string) => [
      { id: "V1", kind: "voltage-source", nodes: ["a", "0"], value: text },
      { id: "R1", kind: "resistor", nodes: ["a", "0"], value: "1 Ω" },
    ];
    const wanted = { name: "Va", quantity: "voltage", from: "a", to: "0" };
    fc.assert(
      fc.property(value, (volts) => {
        const text = writeExact(volts, "V");
        const judged = asking({ elements: source(text), wanted, acting: null });
        expect(judged(text)).toEqual({ outcome: "right" });
        expect(judged(writeExact(volts, "A"))).toMatchObject({ diagnosis: { code: "otherUnit" } });
        expect(judged(`−(${text})`)).toMatchObject({ diagnosis: { code: "signTurned" } });
        expect(judged(`1000·${text.includes("/") ? `(${text})` : text}`)).toMatchObject({ diagnosis: { power: 3 } });
      }),
    );
  });

  it("accepts what lies within half a unit of the last figure that counts, and nothing beyond", () => {
    const judged = asking(divided);
    // −1.81818… mA to three figures: from −1.82318… to −1.81318… mA.
    fc.assert(
      fc.property(fc.integer({ min: 1_750_000, max: 1_900_000 }), (nanoamperes) => {
        const isRight = Math.abs(nanoamperes - 1_818_181.8181) <= 5000;
        expect(judged(`−${nanoamperes} nA`).outcome).toBe(isRight ? "right" : "wrong");
      }),
    );
  });
});

describe("what the page shows of an answer, with its four figures, is accepted as that answer", () => {
  const expectAccepted = (json: RawCircuit) => {
    for (const { shown, judged } of answersOf(circuitOf(json))) {
      expect([shown.text, judged(shown.text)]).toEqual([shown.text, { outcome: "right" }]);
    }
  };

  it.each(EXAMPLES.map(({ id, json }) => [id, json] as const))("of %s", (_id, json) => {
    expectAccepted(json as RawCircuit);
  });

  it("of random constant circuits", () =>
    fc.assert(fc.property(circuits(EVERY_PART), expectAccepted), { numRuns: 150 }));

  it("of random circuits of several frequencies", () =>
    fc.assert(fc.property(sinusoidalCircuits(), expectAccepted), { numRuns: 150 }));
});
