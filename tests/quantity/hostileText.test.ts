import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  greatestCommonDivisor,
  type QuantityProblem,
  quantityProblemText,
  type Rational,
  readAnyQuantity,
  readQuantity,
  readSourceValue,
} from "../../shared/quantity";

// Letters and signs that mean something somewhere in the grammar, so that random texts get far into it.
const pieces = [
  ..."0123456789.,+-−/ ·*×@∠<()πt°ΩµuKkMmGTnpfFRLVASHWesxjJ%⁻³²′½∞\u00a0\u2009\u0000",
  ..."cos(|sin(|rms|peak|rad|rad/s|Hz|deg|pi|2π·|10^|e3|1/3|3k3|12 V| t + 30°)|@ 50 Hz|∠ 30°|1,234".split("|"),
];
const nearlyQuantities = fc.array(fc.constantFrom(...pieces), { maxLength: 25 }).map((parts) => parts.join(""));
const texts = fc.oneof(
  { weight: 4, arbitrary: nearlyQuantities },
  { weight: 1, arbitrary: fc.string({ unit: "binary", maxLength: 130 }) },
);

// At most three factors, each of 40 digits over 40 and a power of ten of 30, and one prefix: no integer is larger.
const LARGEST = 10n ** 250n;

function expectSound({ n, d }: Rational): void {
  expect(d > 0n && greatestCommonDivisor(n, d) === 1n).toBe(true);
  expect(d < LARGEST && n < LARGEST && -n < LARGEST).toBe(true);
}

function expectSentence(problem: QuantityProblem): void {
  expect(quantityProblemText(problem)).toMatch(/\.$|\?$/);
  expect(quantityProblemText(problem)).not.toMatch(/undefined|NaN\b.*wanted|\[object/);
}

describe("any text whatever", () => {
  it("is read as a sound quantity or refused with a sentence, and never throws", () => {
    fc.assert(
      fc.property(texts, (text) => {
        const plain = readQuantity(text, "Ω");
        if (plain.ok) expectSound(plain.value.value);
        else expectSentence(plain.problem);
        const source = readSourceValue(text, "V");
        if (!source.ok) expectSentence(source.problem);
        else if (source.value.kind === "dc") expectSound(source.value.value);
        else [source.value.amplitude, source.value.phase, source.value.frequency.value].forEach(expectSound);
        const anything = readAnyQuantity(text);
        if (!anything.ok) expectSentence(anything.problem);
      }),
      { numRuns: 3000 },
    );
  });

  it("that a part accepts is accepted where the unit decides, as the same number", () => {
    fc.assert(
      fc.property(nearlyQuantities, (text) => {
        const plain = readQuantity(text, "Ω");
        fc.pre(plain.ok);
        const anything = readAnyQuantity(text);
        if (!anything.ok || anything.value.kind !== "quantity") throw new Error(`"${text}" was refused`);
        expect(anything.value.value).toEqual(plain.ok && plain.value.value);
        expect(["Ω", null]).toContain(anything.value.unit);
      }),
      { numRuns: 200, maxSkipsPerRun: 2000 },
    );
  });
});

describe("text made to be slow", () => {
  const slow = {
    "spaces between digits": "1 ".repeat(60),
    "points and digits": "1.1".repeat(40),
    slashes: "1/".repeat(60),
    "an open product": `cos(${"2π".repeat(55)}`,
    "a product of many factors": `cos(${"(9)".repeat(35)} t)`,
    "letters of no unit": "5 ".concat("m".repeat(118)),
    "a word that is nearly a function": "5".concat("co".repeat(59)),
    "superscripts without an end": `1 × 10${"⁹".repeat(110)}`,
    "a megabyte": "9".repeat(1_000_000),
  };
  for (const [name, text] of Object.entries(slow)) {
    it(`is refused within a moment: ${name}`, () => {
      // A thousand readings: a few milliseconds where the time is linear, hours where a pattern backtracks.
      for (let i = 0; i < 1000; i++) {
        expect(readSourceValue(text, "V").ok).toBe(false);
        expect(readQuantity(text, "V").ok).toBe(false);
      }
    });
  }
});
