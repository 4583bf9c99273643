import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  absolute,
  compare,
  type Frequency,
  multiply,
  quantity,
  type Rational,
  rational,
  readQuantity,
  readSourceValue,
  type SourceValue,
  subtract,
  toNumber,
  type UnitSymbol,
  writeExact,
  writeFraction,
  writeQuantity,
  writeSourceValue,
  writeTimeSum,
} from "../../shared/quantity";
import { rationals } from "./reading";

const units = fc.constantFrom<UnitSymbol>("Ω", "S", "V", "A", "W", "F", "H", "Hz", "rad/s", "s", "°", "1");
const figures = fc.integer({ min: 1, max: 30 });

/** Decimals of up to 28 figures from 10⁻³⁰ to below 10³¹, either sign: what can be written, and read back. */
const decimals = fc
  .tuple(fc.bigInt(-(10n ** 28n), 10n ** 28n), fc.integer({ min: 0, max: 30 }))
  .map(([n, places]) => rational(n, 10n ** BigInt(places)))
  .filter(({ n, d }) => n === 0n || (n < 0n ? -n : n) * 10n ** 30n >= d);

/** Fractions of up to twelve digits above and below. */
const fractions = fc
  .tuple(fc.bigInt(-(10n ** 12n), 10n ** 12n), fc.bigInt(1n, 10n ** 12n))
  .map(([n, d]) => rational(n, d));

function read(text: string, unit: UnitSymbol): Rational {
  const reading = readQuantity(text, unit);
  if (!reading.ok) throw new Error(`"${text}" was refused: ${reading.problem.code}`);
  const { n, d } = reading.value.value;
  return { n, d };
}

describe("what is written reads back", () => {
  it("as the same number wherever the mark is =", () => {
    fc.assert(
      fc.property(decimals, units, figures, (number, unit, digits) => {
        const { text, mark } = writeQuantity(number, unit, { digits });
        fc.pre(mark === "=");
        expect(read(text, unit)).toEqual(number);
      }),
      { numRuns: 1000 },
    );
  });

  it("as a number within half a unit of the last figure, and another one, wherever the mark is ≈", () => {
    fc.assert(
      fc.property(fractions, units, figures, (number, unit, digits) => {
        const { text, mark } = writeQuantity(number, unit, { digits });
        const shown = read(text, unit);
        const error = absolute(subtract(shown, number));
        expect(mark === "=").toBe(error.n === 0n);
        // Half a unit of the last figure is at most half of 10^(1 − digits) of the number.
        const bound = multiply(absolute(number), rational(1n, 2n * 10n ** BigInt(digits - 1)));
        expect(compare(error, bound)).not.toBe(1);
      }),
      { numRuns: 1000 },
    );
  });

  it("as the same number where it is written as a fraction or exactly", () => {
    fc.assert(
      fc.property(fractions, units, (number, unit) => {
        expect(read(writeFraction(number, unit), unit)).toEqual(number);
        expect(read(writeExact(number, unit), unit)).toEqual(number);
      }),
      { numRuns: 500 },
    );
    fc.assert(
      fc.property(decimals, units, (number, unit) => {
        expect(read(writeExact(number, unit), unit)).toEqual(number);
      }),
      { numRuns: 500 },
    );
  });

  it("as the same source value", () => {
    const positive = fractions.filter(({ n }) => n > 0n);
    const frequencies = fc
      .tuple(positive, fc.constantFrom("Hz" as const, "rad/s" as const))
      .map(
        ([value, unit]): Frequency =>
          unit === "Hz" ? { unit, value: quantity(value, unit) } : { unit, value: quantity(value, unit) },
      );
    const sinusoids = fc.record({
      kind: fc.constant("sinusoid" as const),
      amplitude: fractions.map((value) => quantity(value, "A")),
      measure: fc.constantFrom("peak" as const, "rms" as const),
      phase: fractions.map((value) => quantity(value, "°")),
      frequency: frequencies,
    });
    const constants = fractions.map((value) => ({ kind: "dc" as const, value: quantity(value, "A") }));
    fc.assert(
      fc.property(fc.oneof<fc.Arbitrary<SourceValue<"A">>[]>(sinusoids, constants), (value) => {
        expect(readSourceValue(writeSourceValue(value, "A").text, "A")).toEqual({ ok: true, value });
      }),
      { numRuns: 500 },
    );
  });

  it("as one term of a sum in time, rounded as shown", () => {
    const exponents = fc.integer({ min: -6, max: 6 });
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9999 }),
        exponents,
        fc.integer({ min: -179, max: 179 }),
        (n, power, phase) => {
          const magnitude = n * 10 ** power;
          const { text } = writeTimeSum([{ omega: 377, magnitude, phaseDegrees: phase }], "V");
          const reading = readSourceValue(text, "V");
          if (!reading.ok || reading.value.kind !== "sinusoid") throw new Error(`"${text}" was refused`);
          expect(toNumber(reading.value.amplitude)).toBeCloseTo(magnitude, 9 - power);
          expect(toNumber(reading.value.phase)).toBe(phase);
          expect(toNumber(reading.value.frequency.value)).toBe(377);
        },
      ),
    );
  });

  it("numbers of any size are written without a failure", () => {
    fc.assert(
      fc.property(rationals, units, figures, (number, unit, digits) => {
        expect(writeQuantity(number, unit, { digits }).text).toMatch(/^−?\d/);
        expect(writeExact(number, unit)).toMatch(/^−?\d/);
      }),
    );
  });
});
