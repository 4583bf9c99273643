import { describe, expect, it } from "vitest";
import { readQuantity } from "../../shared/quantity";
import { anything, problem, sentence, sourceSentence } from "./reading";

describe("the wrong unit", () => {
  it("is refused with the unit found and the unit wanted, in words", () => {
    expect(sentence("5 mA", "Ω")).toBe('"5 mA" is a current (A); a resistance in ohms (Ω) is wanted.');
    expect(sentence("9 V", "A")).toBe('"9 V" is a voltage (V); a current in amperes (A) is wanted.');
    expect(sentence("1 kΩ", "S")).toBe('"1 kΩ" is a resistance (Ω); a conductance in siemens (S) is wanted.');
    expect(sentence("2 V", "1")).toBe('"2 V" is a voltage (V); a pure number is wanted.');
    expect(sentence("2 V/V", "S")).toBe('"2 V/V" is a pure number; a conductance in siemens (S) is wanted.');
    expect(sentence("5 V", ["Hz", "rad/s"])).toBe(
      '"5 V" is a voltage (V); a frequency in hertz (Hz) or an angular frequency in radians per second (rad/s) is wanted.',
    );
  });

  it("is told by code and data, so that others can word it", () => {
    expect(problem("5 mA", "Ω")).toEqual({ code: "wrongUnit", text: "5 mA", found: "A", wanted: ["Ω"] });
  });

  it("is refused inside a source as well, and quotes the frequency alone where the fault is in it", () => {
    expect(sourceSentence("5 Ω")).toBe('"5 Ω" is a resistance (Ω); a voltage in volts (V) is wanted.');
    expect(sourceSentence("5 cos(10 t) A")).toBe('"5 cos(10 t) A" is a current (A); a voltage in volts (V) is wanted.');
    expect(sourceSentence("5 V ∠ 0° @ 3 s")).toBe(
      '"3 s" is a time (s); a frequency in hertz (Hz) or an angular frequency in radians per second (rad/s) is wanted.',
    );
    expect(anything("5 cos(3 t) Ω")).toBe(
      '"5 cos(3 t) Ω" is a resistance (Ω); a voltage in volts (V) or a current in amperes (A) is wanted.',
    );
  });

  it("is missed where a bare number could have one of several", () => {
    expect(sentence("50", ["Hz", "rad/s"])).toBe(
      '"50" has no unit where a frequency in hertz (Hz) or an angular frequency in radians per second (rad/s) is wanted. Write the unit after the number.',
    );
    expect(anything("5 cos(3 t)")).toBe(
      '"5 cos(3 t)" has no unit where a voltage in volts (V) or a current in amperes (A) is wanted. Write the unit after the number.',
    );
  });
});

describe("numbers that are none, or may be two", () => {
  it("have a comma that may part thousands", () => {
    expect(sentence("1,234", "V")).toBe('"1,234" may be 1234 or 1.234. Write the one that is meant in that way.');
    expect(sentence("12,345 V", "V")).toBe(
      '"12,345 V": "12,345" may be 12345 or 12.345. Write the one that is meant in that way.',
    );
    expect(sentence("−1,234e3 V", "V")).toContain('"1,234" may be 1234 or 1.234.');
  });

  it("have more than one mark", () => {
    for (const text of ["1,234.5", "1.234,5", "1,234,567", "1.234.567", "1.2.3", "1,2,3"]) {
      expect(sentence(text, "V")).toBe(
        `"${text}" has more than one comma or point. Use one decimal mark, and spaces or nothing between thousands.`,
      );
    }
  });

  it("have a space where no groups of three are parted", () => {
    for (const text of ["1 00", "1 1/2", "1234 567", "12 34", "0.1 2", "3.12 345"]) {
      expect(sentence(text, "V")).toContain("has a space inside a number. Spaces may only part groups of three digits");
    }
  });

  it("do not begin as numbers do", () => {
    expect(sentence("abc", "V")).toBe('"abc" has "abc" where a number is expected. Write one such as 3.3 or 1/3.');
    expect(sentence("1/", "V")).toBe('"1/" stops where a number is expected. Write one such as 3.3 or 1/3.');
    expect(sentence("--5", "V")).toBe('"--5" has "-5" where a number is expected. Write one such as 3.3 or 1/3.');
    expect(sentence("½ A", "A")).toContain('has "½ A" where a number is expected.');
    expect(sentence("NaN", "V")).toContain("where a number is expected");
    expect(sentence("∞", "V")).toContain("where a number is expected");
  });

  it("divide by zero", () => {
    expect(sentence("1/0 A", "A")).toBe('"1/0 A" divides by zero.');
    expect(sentence("1/0.0 A", "A")).toBe('"1/0.0 A" divides by zero.');
    expect(sourceSentence("5 V ∠ π/0 @ 1 Hz")).toContain("divides by zero");
  });

  it("are missing", () => {
    expect(sentence("", "Ω")).toBe("Nothing is written here; a resistance in ohms (Ω) is wanted.");
    expect(sentence(" \t\u00a0", "Ω")).toBe("Nothing is written here; a resistance in ohms (Ω) is wanted.");
    expect(anything("")).toBe("Nothing is written here; a number is wanted.");
  });

  it("are larger than anything electrical", () => {
    expect(sentence("1e31 V", "V")).toBe('"1e31 V" has too large a power of ten: it may lie between −30 and 30.');
    expect(sentence("1e-31", "V")).toContain("too large a power of ten");
    expect(sentence("1e999999999999", "V")).toContain("too large a power of ten");
    expect(sentence("1 × 10³¹ V", "V")).toContain("too large a power of ten");
    expect(sentence(`${"9".repeat(41)} V`, "V")).toContain("has too many digits: at most 40 are read in one number.");
    expect(sentence(`R${"9".repeat(41)}`, "Ω")).toContain("has too many digits");
    expect(sentence("1".repeat(121), "V")).toBe(`"${"1".repeat(40)}…" is too long: at most 120 characters are read.`);
  });
});

describe("units that are none", () => {
  it("are quoted, with those that differ in capitals alone", () => {
    expect(sentence("5 mhz", "Hz")).toBe(
      '"5 mhz": "mhz" is not a unit known here. Capitals matter: is MHz or mHz meant?',
    );
    expect(sentence("5 hz", "Hz")).toBe('"5 hz": "hz" is not a unit known here. Capitals matter: is Hz meant?');
    expect(sentence("5 furlongs", "V")).toBe(
      '"5 furlongs": "furlongs" is not a unit known here. Units are Ω, S, V, A, W, F, H, Hz, rad/s, s and °, with prefixes from f to T.',
    );
    // e is a power of ten only with digits behind it.
    expect(sentence("5e", "V")).toContain('"e" is not a unit known here');
    // The prefix of a volt's micro sign is quoted as it was typed.
    expect(sentence("5 µX", "V")).toContain('"µX" is not a unit known here');
  });

  it("have two prefixes", () => {
    expect(sentence("5 mµF", "F")).toBe('"5 mµF": "mµF" has two prefixes. Use one, such as n for a thousandth of µ.');
    expect(sentence("5 kk", "Ω")).toContain("has two prefixes");
  });

  it("have a prefix where the SI has none", () => {
    expect(sentence("5 m°", "°")).toContain('"m°" is not a unit known here');
    expect(sourceSentence("5∠0° k @ 50 Hz")).toBe(
      '"5∠0° k @ 50 Hz" has a prefix without a unit. Write both together, such as mA.',
    );
  });

  it("stand where something else is left over", () => {
    expect(sentence("5 V x", "V")).toBe('"5 V x": "x" is not understood here.');
    expect(sentence("5 V 3", "V")).toBe('"5 V 3": "3" is not understood here.');
    expect(sentence("5 %", "1")).toBe('"5 %": "%" is not understood here.');
    expect(sentence("3.3k3", "Ω")).toBe('"3.3k3": "3" is not understood here.');
  });
});

describe("the letter code", () => {
  it("has no second prefix behind it: that letter is a tolerance (F 1 %, K 10 %: en.wikipedia.org/wiki/IEC/EN_60062)", () => {
    expect(sentence("4K7K", "Ω")).toBe(
      '"4K7K" ends in "K", which in the letter code of resistors and capacitors is a tolerance. Leave it out: "4K7".',
    );
    expect(problem("4R7J", "Ω")).toMatchObject({ code: "toleranceLetter", letter: "J", rest: "4R7" });
    expect(problem("4R7F", "Ω")).toMatchObject({ code: "toleranceLetter", letter: "F", rest: "4R7" });
    expect(problem("470RK", "Ω")).toMatchObject({ code: "toleranceLetter", letter: "K", rest: "470R" });
    expect(problem("100nJ", "F")).toMatchObject({ code: "toleranceLetter", letter: "J", rest: "100n" });
    expect(problem("2µ2K", "F")).toMatchObject({ code: "toleranceLetter", letter: "K", rest: "2µ2" });
    expect(problem("−4K7M", "Ω")).toMatchObject({ code: "toleranceLetter", letter: "M" });
  });

  it("is for ohms and farads alone, each with its own letters", () => {
    expect(sentence("4m7 H", "H")).toBe(
      '"4m7 H": "4m7" is in the letter code of resistors (R, K, M, G, L) and capacitors (p, n, µ, m, F). Write a decimal point, a prefix and the unit, such as 4.7 mH.',
    );
    expect(problem("4m7", "H")).toMatchObject({ code: "letterCodeUnit", found: "4m7" });
    expect(problem("4m7", "Ω")).toMatchObject({ code: "letterCodeUnit" });
    expect(problem("4k7", "F")).toMatchObject({ code: "letterCodeUnit" });
    expect(problem("3k3 kΩ", "Ω")).toMatchObject({ code: "letterCodeUnit" });
    expect(problem("3k3k", "Ω")).toMatchObject({ code: "letterCodeUnit" });
  });
});

describe("sinusoids", () => {
  it("are not the value of a part", () => {
    expect(sentence("12 V ∠ 30° @ 50 Hz", "Ω")).toBe(
      '"12 V ∠ 30° @ 50 Hz" is a sinusoid; a resistance in ohms (Ω) is wanted.',
    );
    expect(problem("5 cos(10 t) V", "V")).toMatchObject({ code: "sinusoidNotWanted" });
    expect(problem("5 V rms", "V")).toMatchObject({ code: "sinusoidNotWanted" });
  });

  it("have a frequency", () => {
    const missing = "is a sinusoid without a frequency. Add one, such as @ 50 Hz or @ 1000 rad/s.";
    for (const text of ["12 V ∠ 30°", "12 V rms", "12 V ∠ 30° @", "12 ∠ 30° V rms"]) {
      expect(sourceSentence(text)).toBe(`"${text}" ${missing}`);
    }
    expect(sourceSentence("12 V ∠ 30° @ 50")).toContain('"50" has no unit where a frequency in hertz (Hz)');
  });

  it("have a frequency above zero", () => {
    for (const text of ["12 V ∠ 30° @ 0 Hz", "12 V ∠ 0° @ −50 Hz", "5 cos(0 t) V", "5 cos(−10 t) V"]) {
      expect(sourceSentence(text)).toBe(
        `"${text}": the frequency of a sinusoid is greater than zero. Write a constant as a number with its unit.`,
      );
    }
  });

  it("have a phase that is an exact number of degrees", () => {
    const radians =
      "a phase is written in degrees (30°) or as a fraction of π (π/6), because other numbers of radians are no exact number of degrees.";
    expect(sourceSentence("12 V ∠ 0.5 rad @ 50 Hz")).toBe(`"12 V ∠ 0.5 rad @ 50 Hz": ${radians}`);
    expect(sourceSentence("5 cos(3 t + 0.5 rad) V")).toBe(`"5 cos(3 t + 0.5 rad) V": ${radians}`);
    expect(sourceSentence("5 cos(3 t + 0.5) V")).toBe(
      '"5 cos(3 t + 0.5) V": the phase has no unit. Write ° after it, as in cos(1000 t + 30°).',
    );
  });

  it("have number times t in their parentheses", () => {
    const faulty = [
      "cos 3t",
      "cos(wt)",
      "cos(3)",
      "cos(3 t",
      "cos(50 Hz t)",
      "cos(ππ t)",
      "cos(2π·3·4 t)",
      "cos(2·3·4·5 t)",
      "cos(3 time)",
      "cos()",
    ];
    for (const text of faulty) {
      expect(sourceSentence(`5 ${text}`)).toBe(
        `"5 ${text}": in the parentheses goes a number times t, then a phase: cos(1000 t + 30°), or cos(2π·50 t + 30°) for hertz.`,
      );
    }
  });

  it("say their unit and rms once", () => {
    expect(sourceSentence("5 V cos(3 t) V")).toBe('"5 V cos(3 t) V" has its unit twice. Write it once.');
    expect(sourceSentence("5 V rms ∠ 0° peak @ 50 Hz")).toBe(
      '"5 V rms ∠ 0° peak @ 50 Hz": "peak @ 50 Hz" is not understood here.',
    );
  });

  it("come one at a time, and not added to a constant", () => {
    for (const text of ["5 V + 15 cos(10 t) V", "5 + 3", "2 cos(t) V − 3 cos(2 t) V"]) {
      expect(sourceSentence(text)).toBe(
        `"${text}" is a sum; one constant or one sinusoid is wanted. Give each term a part of its own.`,
      );
    }
    expect(sentence("3+2", "Ω")).toContain("is a sum;");
  });
});

it("a text is quoted as it was typed, without the spaces around it", () => {
  const reading = readQuantity("  −5 \u00b5A ", "Ω");
  expect(reading).toEqual({
    ok: false,
    problem: { code: "wrongUnit", text: "−5 \u00b5A", found: "A", wanted: ["Ω"] },
  });
});
