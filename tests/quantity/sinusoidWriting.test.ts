import { describe, expect, it } from "vitest";
import {
  type Frequency,
  integer,
  quantity,
  quantityProblemText,
  rational,
  readSourceValue,
  writePhasor,
  writeSinusoid,
  writeSourceValue,
  writeTimeSum,
} from "../../shared/quantity";

const hertz = (value: number): Frequency => ({ unit: "Hz", value: quantity(integer(value), "Hz") });
const radians = (n: bigint, d = 1n): Frequency => ({ unit: "rad/s", value: quantity(rational(n, d), "rad/s") });

/** What a source's text is written as once it has been read. */
function rewritten(text: string, unit: "V" | "A" = "V"): string {
  const reading = readSourceValue(text, unit);
  if (!reading.ok) throw new Error(quantityProblemText(reading.problem));
  const { mark, text: written } = writeSourceValue(reading.value, unit);
  return `${mark} ${written}`;
}

describe("source values", () => {
  it("are written exactly, in one way whatever way they came", () => {
    expect(rewritten("12")).toBe("= 12 V");
    expect(rewritten("0.0125", "A")).toBe("= 12.5 mA");
    expect(rewritten("1/3", "A")).toBe("= 1/3 A");
    expect(rewritten("5 cos(1000 t + 30°)")).toBe("= 5 V ∠ 30° @ 1000 rad/s");
    expect(rewritten("5 sin(2π·50 t)")).toBe("= 5 V ∠ −90° @ 50 Hz");
    expect(rewritten("20∠0° V rms @ 60 Hz")).toBe("= 20 V rms ∠ 0° @ 60 Hz");
    expect(rewritten("6m ∠ −45° @ 12345.678 rad/s", "A")).toBe("= 6 mA ∠ −45° @ 12345.678 rad/s");
    expect(rewritten("1/3 V ∠ 1/3° @ 1/3 kHz")).toBe("= 1/3 V ∠ 1/3° @ 1/3 kHz");
  });

  it("of sinusoids have a text of their own", () => {
    const sinusoid = {
      kind: "sinusoid",
      amplitude: quantity(integer(12), "V"),
      measure: "peak",
      phase: quantity(integer(30), "°"),
      frequency: hertz(50),
    } as const;
    expect(writeSinusoid(sinusoid, "V")).toEqual({ text: "12 V ∠ 30° @ 50 Hz", mark: "=" });
  });
});

describe("phasors", () => {
  const phasor = (magnitude: number, phaseDegrees: number, digits?: number) =>
    writePhasor({ magnitude, phaseDegrees, measure: "peak" }, "A", digits === undefined ? {} : { digits }).text;

  it("are a magnitude and a phase in degrees, with rms where it is one, always with ≈", () => {
    // 3 − j4 is 5 at −53.13°: tan⁻¹(4/3) = 53.1301°.
    expect(writePhasor({ magnitude: 0.005, phaseDegrees: -53.130102, measure: "peak" }, "A")).toEqual({
      text: "5 mA ∠ −53.13°",
      mark: "≈",
    });
    expect(writePhasor({ magnitude: 20, phaseDegrees: 0, measure: "rms" }, "V").text).toBe("20 V rms ∠ 0°");
    expect(writePhasor({ magnitude: 5000, phaseDegrees: 45, measure: "peak" }, "Ω").text).toBe("5 kΩ ∠ 45°");
  });

  it("round the phase to two decimals less than there are figures", () => {
    expect(phasor(0.016, -36.8699)).toBe("16 mA ∠ −36.87°");
    expect(phasor(0.016, -36.8699, 3)).toBe("16 mA ∠ −36.9°");
    expect(phasor(0.016, -36.8699, 2)).toBe("16 mA ∠ −37°");
    expect(phasor(0.016, -36.8699, 1)).toBe("20 mA ∠ −37°");
    expect(phasor(0.016, 1e-9, 30)).toBe("16 mA ∠ 0°");
  });

  it("have their phase above −180° and up to 180°, after rounding too", () => {
    expect(phasor(1, 270)).toBe("1 A ∠ −90°");
    expect(phasor(1, -180)).toBe("1 A ∠ 180°");
    expect(phasor(1, -179.999)).toBe("1 A ∠ 180°");
    expect(phasor(1, 179.999)).toBe("1 A ∠ 180°");
    expect(phasor(1, 725)).toBe("1 A ∠ 5°");
    expect(phasor(1, -0.0001)).toBe("1 A ∠ 0°");
  });

  it("of magnitude 0 have no phase", () => {
    expect(phasor(0, 30)).toBe("0 A");
  });

  it("throw where they are no numbers", () => {
    expect(() => phasor(Number.NaN, 0)).toThrow("a finite number is wanted, got NaN");
    expect(() => phasor(1, Number.NEGATIVE_INFINITY)).toThrow("a finite phase is wanted, got -Infinity");
  });
});

describe("sums in time", () => {
  it("join constants and cosines with their signs", () => {
    const terms = [
      { omega: 0, magnitude: 5, phaseDegrees: 0 },
      { omega: 10, magnitude: 15, phaseDegrees: 0 },
      { omega: 20, magnitude: 0.002, phaseDegrees: 30 },
      { omega: 30, magnitude: 3, phaseDegrees: -53.1301 },
    ];
    expect(writeTimeSum(terms, "V")).toEqual({
      text: "5 V + 15 cos(10 t) V + 2 cos(20 t + 30°) mV + 3 cos(30 t − 53.13°) V",
      mark: "≈",
    });
  });

  it("turn a phase of 180°, a negative magnitude or a negative constant into a minus sign", () => {
    expect(writeTimeSum([{ omega: 0, magnitude: 5, phaseDegrees: 180 }], "V").text).toBe("−5 V");
    expect(writeTimeSum([{ omega: 0, magnitude: -5, phaseDegrees: 0 }], "V").text).toBe("−5 V");
    expect(writeTimeSum([{ omega: 2, magnitude: 5, phaseDegrees: -180 }], "V").text).toBe("−5 cos(2 t) V");
    const mixed = [
      { omega: 0, magnitude: 1, phaseDegrees: 0 },
      { omega: 2, magnitude: 5, phaseDegrees: 180 },
      { omega: 3, magnitude: -4, phaseDegrees: 0 },
      { omega: 4, magnitude: -4, phaseDegrees: 90 },
    ];
    expect(writeTimeSum(mixed, "A").text).toBe("1 A − 5 cos(2 t) A − 4 cos(3 t) A + 4 cos(4 t − 90°) A");
  });

  it("write 2π times hertz where the frequency was given in hertz, and ω as it was given", () => {
    const term = (frequency: Frequency | null, omega: number) =>
      writeTimeSum([{ omega, magnitude: 5, phaseDegrees: -30, frequency }], "V").text;
    expect(term(hertz(50), 314.159)).toBe("5 cos(2π·50 t − 30°) V");
    expect(term(radians(12_345_678n), 12_345_678)).toBe("5 cos(12345678 t − 30°) V");
    expect(term(radians(1n, 3n), 1 / 3)).toBe("5 cos((1/3) t − 30°) V");
    expect(term(null, 12_345.5)).toBe("5 cos(12345.5 t − 30°) V");
  });

  it("leave out terms of magnitude 0, and are 0 where nothing is left", () => {
    expect(writeTimeSum([], "V").text).toBe("0 V");
    expect(writeTimeSum([{ omega: 2, magnitude: 0, phaseDegrees: 10 }], "V").text).toBe("0 V");
    const terms = [
      { omega: 0, magnitude: 0, phaseDegrees: 0 },
      { omega: 2, magnitude: 3, phaseDegrees: 0 },
    ];
    expect(writeTimeSum(terms, "V").text).toBe("3 cos(2 t) V");
  });

  it("throw where a term is no number", () => {
    expect(() => writeTimeSum([{ omega: 2, magnitude: Number.NaN, phaseDegrees: 0 }], "V")).toThrow(RangeError);
    expect(() => writeTimeSum([{ omega: Number.NaN, magnitude: 1, phaseDegrees: 0 }], "V")).toThrow(RangeError);
  });
});
