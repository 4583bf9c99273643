import { describe, expect, it } from "vitest";
import {
  rational,
  type UnitSymbol,
  type WriteOptions,
  writeExact,
  writeFraction,
  writeNumber,
  writeQuantity,
} from "../../shared/quantity";

/** Mark and text on one line. */
function written(n: bigint, d: bigint, unit: UnitSymbol, options?: WriteOptions): string {
  const { mark, text } = writeQuantity(rational(n, d), unit, options);
  return `${mark} ${text}`;
}

describe("exact numbers", () => {
  it("have a prefix by thousands, a space before the unit and a true minus (SI Brochure: bipm.org/en/si/si_brochure/chapter5)", () => {
    expect(written(6n, 5000n, "A")).toBe("= 1.2 mA");
    expect(written(-11n, 2500n, "A")).toBe("= \u22124.4 mA");
    expect(written(4700n, 1n, "Ω")).toBe("= 4.7 kΩ");
    expect(written(12n, 1n, "V")).toBe("= 12 V");
    expect(written(1n, 5000n, "S")).toBe("= 200 µS");
    expect(written(22n, 1_000_000n, "F")).toBe("= 22 µF");
    expect(written(3n, 200n, "H")).toBe("= 15 mH");
    expect(written(2_200_000n, 1n, "Ω")).toBe("= 2.2 MΩ");
    expect(written(3n, 2n * 10n ** 9n, "s")).toBe("= 1.5 ns");
  });

  it("use each prefix from f to T, and change it exactly at a thousand", () => {
    const units = ["fV", "pV", "nV", "µV", "mV", "V", "kV", "MV", "GV", "TV"];
    for (const [i, unit] of units.entries()) {
      const scale = rational(10n ** BigInt(3 * i), 10n ** 15n);
      expect(written(scale.n, scale.d, "V")).toBe(`= 1 ${unit}`);
      expect(written(999n * scale.n, scale.d, "V")).toBe(`= 999 ${unit}`);
    }
  });

  it("have no unit, prefix or space where they are pure numbers, and no space before ° (NIST SP 811, 7.2)", () => {
    expect(written(30n, 1n, "°")).toBe("= 30°");
    expect(written(-73_7n, 20n, "°")).toBe("= −36.85°");
    expect(written(1n, 4n, "1")).toBe("= 0.25");
    expect(written(1n, 1000n, "1")).toBe("= 0.001");
    expect(written(100_000n, 1n, "1")).toBe("= 100000");
    expect(written(1000n, 1n, "rad/s")).toBe("= 1000 rad/s");
  });

  it("show no zeros that say nothing", () => {
    expect(written(5n, 1n, "V", { digits: 6 })).toBe("= 5 V");
    expect(written(50n, 1n, "V")).toBe("= 50 V");
    expect(written(0n, 1n, "V")).toBe("= 0 V");
    expect(written(0n, 1n, "1")).toBe("= 0");
    expect(written(0n, 1n, "°")).toBe("= 0°");
    expect(written(33n, 10n, "V")).toBe("= 3.3 V");
  });

  it("are marked ≈ where they are rounded, to four figures or as many as asked for", () => {
    expect(written(1n, 3n, "A")).toBe("≈ 333.3 mA");
    expect(written(2n, 3n, "A")).toBe("≈ 666.7 mA");
    expect(written(1n, 3n, "A", { digits: 2 })).toBe("≈ 330 mA");
    expect(written(-2n, 3n, "A", { digits: 6 })).toBe("≈ −666.667 mA");
    expect(written(2n, 7000n, "S")).toBe("≈ 285.7 µS");
    expect(written(123_456n, 1n, "V", { digits: 1 })).toBe("≈ 100 kV");
    expect(written(12_345n, 1n, "rad/s")).toBe("≈ 12350 rad/s");
    expect(written(12_345n, 1n, "V", { digits: 5 })).toBe("= 12.345 kV");
  });

  it("carry into the next prefix where rounding does", () => {
    expect(written(99_996n, 100_000n, "A")).toBe("≈ 1 A"); // 999.96 mA
    expect(written(99_994n, 100_000n, "A")).toBe("≈ 999.9 mA");
    expect(written(999_999n, 1n, "Ω")).toBe("≈ 1 MΩ");
    expect(written(-99_996n, 100_000n, "A")).toBe("≈ −1 A");
    expect(written(999_999_999_999n, 10n ** 6n, "V")).toBe("≈ 1 MV");
  });

  it("round a half away from zero", () => {
    expect(written(12_345n, 10_000n, "V")).toBe("≈ 1.235 V");
    expect(written(-12_345n, 10_000n, "V")).toBe("≈ −1.235 V");
    expect(written(12_344n, 10_000n, "V", { digits: 3 })).toBe("≈ 1.23 V");
  });

  it("have a power of ten beyond the prefixes", () => {
    expect(written(15n * 10n ** 17n, 1n, "Ω")).toBe("= 1.5 × 10¹⁸ Ω");
    expect(written(-1n, 10n ** 20n, "V")).toBe("= −1 × 10⁻²⁰ V");
    expect(written(10n ** 15n, 1n, "V")).toBe("= 1 × 10¹⁵ V");
    expect(written(999n * 10n ** 12n, 1n, "V")).toBe("= 999 TV");
    expect(written(1n, 10n ** 16n, "V")).toBe("= 1 × 10⁻¹⁶ V");
    expect(written(1n, 300_000n, "1")).toBe("≈ 3.333 × 10⁻⁶");
    expect(written(10n ** 400n, 3n, "V")).toBe("≈ 3.333 × 10³⁹⁹ V");
  });

  it("refuse a number of figures that makes no sense", () => {
    for (const digits of [0, -1, 2.5, 31, Number.NaN]) {
      expect(() => written(1n, 3n, "V", { digits })).toThrow(`a whole number from 1 to 30 is wanted, got ${digits}`);
    }
  });
});

describe("fractions", () => {
  it("have the prefix that makes them shortest", () => {
    const fraction = (n: bigint, d: bigint, unit: UnitSymbol) => writeFraction(rational(n, d), unit);
    expect(fraction(3n, 7000n, "S")).toBe("3/7 mS");
    expect(fraction(1n, 3n, "A")).toBe("1/3 A");
    expect(fraction(-1n, 3n, "A")).toBe("−1/3 A");
    expect(fraction(3n, 2500n, "A")).toBe("6/5 mA");
    expect(fraction(2000n, 3n, "Ω")).toBe("2/3 kΩ");
    expect(fraction(12n, 1n, "V")).toBe("12 V");
    expect(fraction(100n, 1n, "V")).toBe("100 V");
    expect(fraction(5000n, 1n, "Ω")).toBe("5 kΩ");
    expect(fraction(2n, 3n, "1")).toBe("2/3");
    expect(fraction(1n, 3000n, "1")).toBe("1/3000");
    expect(fraction(1n, 3n, "°")).toBe("1/3°");
    expect(fraction(0n, 1n, "V")).toBe("0 V");
  });

  it("stand for exact numbers only where a short decimal does not", () => {
    const exact = (n: bigint, d: bigint, unit: UnitSymbol) => writeExact(rational(n, d), unit);
    expect(exact(1n, 80n, "A")).toBe("12.5 mA");
    expect(exact(123_456_789n, 1000n, "V")).toBe("123.456789 kV");
    expect(exact(1n, 3n, "A")).toBe("1/3 A");
    expect(exact(-2000n, 3n, "Ω")).toBe("−2/3 kΩ");
    expect(exact(1n, 2n ** 14n, "V")).toBe("61.03515625 µV");
    expect(exact(1_234_567_890_123_456_789n, 10n ** 18n, "V")).toBe("1.234567890123456789 V");
  });
});

describe("doubles", () => {
  it("are written like exact numbers, always with ≈", () => {
    expect(writeNumber(0.0123456, "A")).toEqual({ text: "12.35 mA", mark: "≈" });
    expect(writeNumber(5, "V")).toEqual({ text: "5 V", mark: "≈" });
    expect(writeNumber(-0.99999, "A")).toEqual({ text: "−1 A", mark: "≈" });
    expect(writeNumber(1e-20, "V")).toEqual({ text: "1 × 10⁻²⁰ V", mark: "≈" });
    expect(writeNumber(-36.8698976, "°")).toEqual({ text: "−36.87°", mark: "≈" });
    // More than 15 figures would show the double's binary digits.
    expect(writeNumber(0.016, "A", { digits: 30 })).toEqual({ text: "16 mA", mark: "≈" });
    expect(writeNumber(1 / 3, "1", { digits: 2 })).toEqual({ text: "0.33", mark: "≈" });
  });

  it("have no minus before a zero", () => {
    expect(writeNumber(0, "V").text).toBe("0 V");
    expect(writeNumber(-0, "V").text).toBe("0 V");
  });

  it("throw where they are no numbers, since nothing may be shown then", () => {
    expect(() => writeNumber(Number.NaN, "V")).toThrow("a finite number is wanted, got NaN");
    expect(() => writeNumber(Number.POSITIVE_INFINITY, "V")).toThrow(RangeError);
  });
});
