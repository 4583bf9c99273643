import { complex } from "mathjs";
import { describe, expect, it } from "vitest";
import { exact } from "../independent/elements";
import { expectPrinted, expectPrintedPhasor } from "./printed";

// The comparison itself: half a unit of the last printed digit passes, a hair more does not.

const fraction = (text: string) => exact.fraction(text);

describe("a printed number", () => {
  it("of 3 significant figures, 1.67 V, takes 1.675 V and refuses 1.6751 V", () => {
    expectPrinted(fraction("1.675"), "1.67 V", "3 significant figures");
    expect(() => expectPrinted(fraction("1.6751"), "1.67 V", "3 significant figures")).toThrow();
  });
  it("of 2 decimals, 373.33 µA, takes 373.335 µA and refuses 373.336 µA", () => {
    expectPrinted(fraction("0.000373335"), "373.33 µA", "2 decimals");
    expect(() => expectPrinted(fraction("0.000373336"), "373.33 µA", "2 decimals")).toThrow();
  });
  it("that is exact takes the same rational only", () => {
    expectPrinted(fraction("256/39"), "256/39 A", "exact");
    expect(() => expectPrinted(fraction("256000000000000001/39000000000000000"), "256/39 A", "exact")).toThrow();
  });
  it("has a sign", () => {
    expect(() => expectPrinted(fraction("3.44"), "-3.44 V", "3 significant figures")).toThrow();
  });
});

describe("a printed phasor", () => {
  const phasor = (magnitude: number, degrees: number) => {
    const angle = (degrees * Math.PI) / 180;
    return complex(magnitude * Math.cos(angle), magnitude * Math.sin(angle));
  };
  it("20.5 mA ∠-34.8° takes half a unit in magnitude and in angle, and no more", () => {
    expectPrintedPhasor(phasor(20.549e-3, -34.751), "20.5 mA ∠-34.8°", "3 significant figures");
    expect(() => expectPrintedPhasor(phasor(20.56e-3, -34.8), "20.5 mA ∠-34.8°", "3 significant figures")).toThrow();
    expect(() => expectPrintedPhasor(phasor(20.5e-3, -34.74), "20.5 mA ∠-34.8°", "3 significant figures")).toThrow();
  });
  it("has an angle that may differ by whole turns, not by half ones", () => {
    expectPrintedPhasor(phasor(13.91, -161.6), "13.91 V ∠198.4°", "4 significant figures");
    expect(() => expectPrintedPhasor(phasor(13.91, 18.4), "13.91 V ∠198.4°", "4 significant figures")).toThrow();
  });
  it("may be printed by real and imaginary part", () => {
    expectPrintedPhasor(complex(-2.3529, 2.3529), "-2.353 + j2.353 A", "3 decimals");
    expect(() => expectPrintedPhasor(complex(-2.3529, -2.3529), "-2.353 + j2.353 A", "3 decimals")).toThrow();
  });
  it("of 0 V refuses a small voltage of any phase", () => {
    expectPrintedPhasor(complex(0, 1e-13), "0 V", "exact");
    expect(() => expectPrintedPhasor(complex(0, 1e-6), "0 V", "exact")).toThrow();
  });
});
