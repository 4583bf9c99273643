import { describe, expect, it } from "vitest";
import { anything, value } from "./reading";

// Expected values are fractions in the coherent SI unit, worked by hand.

describe("numbers", () => {
  it("are read exactly, with either sign, in decimals, fractions and powers of ten", () => {
    expect(value("12", "V")).toBe("12");
    expect(value("0.1", "V")).toBe("1/10");
    expect(value(".5", "V")).toBe("1/2");
    expect(value("5.", "V")).toBe("5");
    expect(value("+5", "V")).toBe("5");
    expect(value("1/3", "A")).toBe("1/3");
    expect(value("1.5/4", "A")).toBe("3/8");
    expect(value("2.2e3", "Ω")).toBe("2200");
    expect(value("4.7E-9", "F")).toBe("47/10000000000");
    expect(value("5e+21", "Ω")).toBe("5000000000000000000000");
  });

  it("are not read through doubles: seventeen digits and more stay", () => {
    expect(value("0.1234567890123456789", "V")).toBe("1234567890123456789/10000000000000000000");
    expect(value("9007199254740993", "Ω")).toBe("9007199254740993");
  });

  it("may have their power of ten written out", () => {
    expect(value("2.2 × 10³ Ω", "Ω")).toBe("2200");
    expect(value("1 × 10⁻²⁰ V", "V")).toBe("1/100000000000000000000");
    expect(value("2.2*10^3 Ω", "Ω")).toBe("2200");
    expect(value("2·10^(-3) A", "A")).toBe("1/500");
    expect(value("1/3 × 10⁻³ A", "A")).toBe("1/3000");
    expect(value("10^3 Ω", "Ω")).toBe("1000");
    expect(value("10⁻³ A", "A")).toBe("1/1000");
  });

  it("take every minus that programs and people write", () => {
    for (const minus of ["-", "\u2212", "\u2013", "\u2010", "\u2011", "\ufe63", "\uff0d"]) {
      expect(value(`${minus}12 V`, "V")).toBe("-12");
    }
    expect(value("− 12 V", "V")).toBe("-12");
    expect(value("−1/3 A", "A")).toBe("-1/3");
  });

  it("have a comma as decimal mark wherever it cannot part thousands", () => {
    expect(value("3,3 kΩ", "Ω")).toBe("3300");
    expect(value("12,50 V", "V")).toBe("25/2");
    expect(value("1,2345 V", "V")).toBe("2469/2000");
    // A group of thousands does not start with 0 and has at most three digits before it.
    expect(value("0,125 A", "A")).toBe("1/8");
    expect(value(",125 A", "A")).toBe("1/8");
    expect(value("1234,567 V", "V")).toBe("1234567/1000");
    expect(value("1 234,567 V", "V")).toBe("1234567/1000");
  });

  it("may have spaces of any width between groups of three digits, as the SI Brochure writes them (from memory, 5.4.4)", () => {
    for (const space of [" ", "\u2009", "\u202f", "\u00a0", "\u2007"]) {
      expect(value(`12${space}000 Ω`, "Ω")).toBe("12000");
      expect(value(`1${space}234${space}567${space}Ω`, "Ω")).toBe("1234567");
    }
    expect(value("0.123 456 7 V", "V")).toBe("1234567/10000000");
  });
});

describe("units and prefixes", () => {
  it("go from f to T by thousands", () => {
    // SI Brochure, 9th ed., table 7 (from memory).
    const powers = { T: 12, G: 9, M: 6, k: 3, m: -3, µ: -6, n: -9, p: -12, f: -15 };
    for (const [prefix, power] of Object.entries(powers)) {
      const expected = power > 0 ? `1${"0".repeat(power)}` : `1/1${"0".repeat(-power)}`;
      expect(value(`1 ${prefix}V`, "V")).toBe(expected);
    }
  });

  it("tell M from m and S from s", () => {
    expect(value("1 MΩ", "Ω")).toBe("1000000");
    expect(value("1 mΩ", "Ω")).toBe("1/1000");
    expect(anything("1 S")).toBe("1 S");
    expect(anything("1 s")).toBe("1 s");
    expect(anything("1 ms")).toBe("1/1000 s");
    expect(anything("1 mS")).toBe("1/1000 S");
    expect(anything("1 MS")).toBe("1000000 S");
    expect(anything("1 fF")).toBe("1/1000000000000000 F");
  });

  it("may touch the number, and a bare prefix or number takes the unit wanted", () => {
    expect(value("47mA", "A")).toBe("47/1000");
    expect(value("3.3k", "Ω")).toBe("3300");
    expect(value("3.3 k", "Ω")).toBe("3300");
    expect(value("5m", "A")).toBe("1/200");
    expect(value("2/3 kΩ", "Ω")).toBe("2000/3");
    expect(value("100k", "1")).toBe("100000");
    expect(value("30", "°")).toBe("30");
  });

  it("may be written with either µ, with u, with either Ω, in letters, and with K for k", () => {
    const farads = "11/500000"; // 22·10⁻⁶
    for (const micro of ["\u00b5", "\u03bc", "u"]) expect(value(`22 ${micro}F`, "F")).toBe(farads);
    for (const ohm of ["\u03a9", "\u2126", "ohm", "Ohm", "ohms", "Ohms"]) {
      expect(value(`3.3 k${ohm}`, "Ω")).toBe("3300");
    }
    expect(value("4.7 KΩ", "Ω")).toBe("4700");
    expect(value("4.7K", "Ω")).toBe("4700");
    expect(value("9v", "V")).toBe("9");
    expect(value("5 ma", "A")).toBe("1/200");
    expect(value("2 mho", "S")).toBe("2");
    expect(value("30 deg", "°")).toBe("30");
    expect(value("30º", "°")).toBe("30");
  });

  it("may be a quotient of volts and amperes, as gains of dependent sources are", () => {
    expect(value("2 V/A", "Ω")).toBe("2");
    expect(value("2 V/mA", "Ω")).toBe("2000");
    expect(value("5 mA/V", "S")).toBe("1/200");
    expect(value("4 V/V", "1")).toBe("4");
    expect(value("4 A/A", "1")).toBe("4");
  });

  it("decide what a text is where nothing is wanted beforehand; a bare number or prefix has none", () => {
    expect(anything("3.3 kΩ")).toBe("3300 Ω");
    expect(anything("9 V")).toBe("9 V");
    expect(anything("5 mA")).toBe("1/200 A");
    expect(anything("22uF")).toBe("11/500000 F");
    expect(anything("15 mH")).toBe("3/200 H");
    expect(anything("0.5 S")).toBe("1/2 S");
    expect(anything("2 W")).toBe("2 W");
    expect(anything("50 Hz")).toBe("50 Hz");
    expect(anything("2 krad/s")).toBe("2000 rad/s");
    expect(anything("30°")).toBe("30 °");
    expect(anything("3.3k")).toBe("3300 bare");
    expect(anything("12")).toBe("12 bare");
    expect(anything("3k3")).toBe("3300 Ω");
    expect(anything("5 cos(3 t) mA")).toBe("1/200 peak 0° 3 rad/s in A");
    expect(anything("12 V ∠ 30° @ 50 Hz")).toBe("12 peak 30° 50 Hz in V");
  });
});

describe("the letter code of IEC 60062", () => {
  it("puts a letter in the place of the decimal mark of a resistance", () => {
    // Examples of https://en.wikipedia.org/wiki/IEC/EN_60062.
    expect(value("R47", "Ω")).toBe("47/100");
    expect(value("4R7", "Ω")).toBe("47/10");
    expect(value("470R", "Ω")).toBe("470");
    expect(value("4K7", "Ω")).toBe("4700");
    expect(value("47K", "Ω")).toBe("47000");
    expect(value("47K3", "Ω")).toBe("47300");
    expect(value("470K", "Ω")).toBe("470000");
    expect(value("4M7", "Ω")).toBe("4700000");
    // L for 10⁻³ and G for 10⁹: https://probsee.com/p/RKM_code
    expect(value("4L7", "Ω")).toBe("47/10000");
    expect(value("10L", "Ω")).toBe("1/100");
    expect(value("2G2", "Ω")).toBe("2200000000");
    // The small k of the SI, as everybody types it.
    expect(value("3k3", "Ω")).toBe("3300");
    expect(value("2M2", "Ω")).toBe("2200000");
    expect(value("K47", "Ω")).toBe("470");
  });

  it("has p n µ m F for capacitances", () => {
    // Letters of https://wikisum.wiki/wiki/RKM_code
    expect(value("4n7", "F")).toBe("47/10000000000");
    expect(value("p33", "F")).toBe("33/100000000000000");
    expect(value("4p7", "F")).toBe("47/10000000000000");
    expect(value("2u2", "F")).toBe("11/5000000");
    expect(value("2µ2", "F")).toBe("11/5000000");
    expect(value("2\u03bc2", "F")).toBe("11/5000000");
    expect(value("1m5", "F")).toBe("3/2000");
    expect(value("1F5", "F")).toBe("3/2");
  });

  it("may have a sign, and its unit behind it once more", () => {
    expect(value("−3k3", "Ω")).toBe("-3300");
    expect(value("3k3 Ω", "Ω")).toBe("3300");
    expect(value("3k3Ω", "Ω")).toBe("3300");
    expect(value("4R7 ohm", "Ω")).toBe("47/10");
    // F may be the farad or a tolerance of 1 %: 4.7 nF either way.
    expect(value("4n7F", "F")).toBe("47/10000000000");
  });

  it("is one of ohms or farads where the unit decides", () => {
    expect(anything("4K7")).toBe("4700 Ω");
    expect(anything("4M7")).toBe("4700000 Ω");
    expect(anything("4m7")).toBe("47/10000 F");
    expect(anything("470R")).toBe("470 Ω");
  });
});
