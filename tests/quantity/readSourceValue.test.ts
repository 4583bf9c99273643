import { describe, expect, it } from "vitest";
import { source } from "./reading";

// On one line: amplitude, measure, phase of the cosine, frequency.

describe("constants", () => {
  it("are what a number with or without its unit is", () => {
    expect(source("12 V")).toBe("dc 12");
    expect(source("−12")).toBe("dc -12");
    expect(source("1/3 A", "A")).toBe("dc 1/3");
    expect(source("5m", "A")).toBe("dc 1/200");
  });
});

describe("phasors with their frequency", () => {
  it("keep the frequency in the unit given", () => {
    expect(source("12 V ∠ 30° @ 50 Hz")).toBe("12 peak 30° 50 Hz");
    expect(source("8 mA ∠ −45° @ 1000 rad/s", "A")).toBe("1/125 peak -45° 1000 rad/s");
    expect(source("12 V ∠ 30° @ 2 kHz")).toBe("12 peak 30° 2000 Hz");
    expect(source("12 V ∠ 30° @ 10 krad/s")).toBe("12 peak 30° 10000 rad/s");
    expect(source("12 V ∠ 30° @ 1/3 Hz")).toBe("12 peak 30° 1/3 Hz");
  });

  it("are peak values unless rms is said, before or behind the phase or last", () => {
    expect(source("20 V rms ∠ 0° @ 60 Hz")).toBe("20 rms 0° 60 Hz");
    expect(source("20Vrms∠0°@60Hz")).toBe("20 rms 0° 60 Hz");
    expect(source("20∠0° V rms @ 60 Hz")).toBe("20 rms 0° 60 Hz");
    expect(source("20 V ∠ 0° @ 60 Hz rms")).toBe("20 rms 0° 60 Hz");
    expect(source("20 V (rms) ∠ 0° @ 60 Hz")).toBe("20 rms 0° 60 Hz");
    expect(source("20 V RMS ∠ 0° @ 60 Hz")).toBe("20 rms 0° 60 Hz");
    expect(source("20 V peak ∠ 0° @ 60 Hz")).toBe("20 peak 0° 60 Hz");
  });

  it("have their phase in degrees, also without the sign °, or as a fraction of π", () => {
    expect(source("5 V ∠ 22.5° @ 1 Hz")).toBe("5 peak 45/2° 1 Hz");
    expect(source("5 V ∠ 30 deg @ 1 Hz")).toBe("5 peak 30° 1 Hz");
    expect(source("5 V ∠ -30 @ 1 Hz")).toBe("5 peak -30° 1 Hz");
    expect(source("5 V ∠ 1/3° @ 1 Hz")).toBe("5 peak 1/3° 1 Hz");
    expect(source("5 V ∠ π/4 @ 1 Hz")).toBe("5 peak 45° 1 Hz");
    expect(source("5 V ∠ −3π/4 rad @ 1 Hz")).toBe("5 peak -135° 1 Hz");
    expect(source("5 V ∠ 0.5 pi @ 1 Hz")).toBe("5 peak 90° 1 Hz");
    expect(source("5 V ∠ 0 rad @ 1 Hz")).toBe("5 peak 0° 1 Hz");
  });

  it("may have their unit behind the phase, < for ∠, and no phase at all, which is 0°", () => {
    expect(source("20∠15° mA @ 60 Hz", "A")).toBe("1/50 peak 15° 60 Hz");
    expect(source("20 < 15° V @ 60 Hz")).toBe("20 peak 15° 60 Hz");
    expect(source("20 ∠ 15° @ 60 Hz")).toBe("20 peak 15° 60 Hz");
    expect(source("12 V @ 50 Hz")).toBe("12 peak 0° 50 Hz");
    expect(source("12 V rms @ 50 Hz")).toBe("12 rms 0° 50 Hz");
  });
});

describe("functions of time", () => {
  it("are cosines with ω in rad/s before t and the phase in degrees behind it", () => {
    expect(source("5 cos(1000 t + 30°) V")).toBe("5 peak 30° 1000 rad/s");
    expect(source("5cos(1000t+30°)V")).toBe("5 peak 30° 1000 rad/s");
    expect(source("5 V cos(1000 t − 30 deg)")).toBe("5 peak -30° 1000 rad/s");
    expect(source("5*cos(1000*t) V")).toBe("5 peak 0° 1000 rad/s");
    expect(source("5 · cos(10³ t + π/3) V")).toBe("5 peak 60° 1000 rad/s");
    expect(source("5 cos(2·10^4 t) V")).toBe("5 peak 0° 20000 rad/s");
    expect(source("5 cos(1000 rad/s · t) V")).toBe("5 peak 0° 1000 rad/s");
  });

  it("have a sine as the cosine 90° behind", () => {
    // sin x = cos(x − 90°)
    expect(source("5 sin(1000t) V")).toBe("5 peak -90° 1000 rad/s");
    expect(source("5 sin(1000t + 90°) V")).toBe("5 peak 0° 1000 rad/s");
    expect(source("5 Sin(1000t − 45°) V")).toBe("5 peak -135° 1000 rad/s");
  });

  it("are kept in hertz where 2π or another multiple of π is written out", () => {
    expect(source("5 cos(2π·50 t) V")).toBe("5 peak 0° 50 Hz");
    expect(source("5 cos(2π 50 t − 30°) V")).toBe("5 peak -30° 50 Hz");
    expect(source("5 cos(2*pi*50*t) V")).toBe("5 peak 0° 50 Hz");
    expect(source("5 cos(2π(50)t) V")).toBe("5 peak 0° 50 Hz");
    expect(source("5 cos(2π·1.5 kHz · t) V")).toBe("5 peak 0° 1500 Hz");
    expect(source("5 cos(100π t) V")).toBe("5 peak 0° 50 Hz");
    expect(source("5 cos(2πt) V")).toBe("5 peak 0° 1 Hz");
    // π/4 rad/s is an eighth of a turn a second.
    expect(source("5 cos(π/4 t) V")).toBe("5 peak 0° 1/8 Hz");
  });

  it("may do without an amplitude, which is 1, and with a negative one", () => {
    expect(source("cos(t) V")).toBe("1 peak 0° 1 rad/s");
    expect(source("-cos(2 t) V")).toBe("-1 peak 0° 2 rad/s");
    expect(source("−5 cos(2 t) V")).toBe("-5 peak 0° 2 rad/s");
    expect(source("1/3 cos((2/3) t) A", "A")).toBe("1/3 peak 0° 2/3 rad/s");
  });

  it("may be of rms amplitude, and of prefixed units before or behind", () => {
    expect(source("5 V rms cos(2 t)")).toBe("5 rms 0° 2 rad/s");
    expect(source("5 cos(2 t) mA rms", "A")).toBe("1/200 rms 0° 2 rad/s");
    expect(source("5 mV cos(2 t)")).toBe("1/200 peak 0° 2 rad/s");
  });
});
