import { describe, expect, it } from "vitest";
import { readStretch, shownValue } from "../../shared/board";

describe("the unit decides the part", () => {
  it.each([
    ["3.3k", "resistor"],
    ["470", "resistor"],
    ["4R7", "resistor"],
    ["3.3 kΩ", "resistor"],
    ["9 V", "voltage-source"],
    ["−12 V", "voltage-source"],
    ["5 cos(1000 t + 30°) V", "voltage-source"],
    ["5 mA", "current-source"],
    ["1/3 A", "current-source"],
    ["8 mA ∠ −45° @ 1000 rad/s", "current-source"],
    ["22 uF", "capacitor"],
    ["15 mH", "inductor"],
  ])("%s is a %s", (text, kind) => expect(readStretch(text)).toEqual({ make: "part", kind, value: text }));

  it("nothing typed is a wire", () => expect(readStretch("  ")).toEqual({ make: "wire" }));

  it("a unit that no part has is refused, and so is what cannot be read", () => {
    expect(readStretch("2 S")).toEqual({ make: "nothing", because: "noPartInUnit", unit: "S" });
    expect(readStretch("plenty")).toMatchObject({ make: "nothing", because: "unreadable" });
  });
});

describe("on the drawing", () => {
  it("a value is written as the SI Brochure has it", () => {
    expect(shownValue("resistor", "3.3k")).toBe("3.3 kΩ");
    expect(shownValue("current-source", "5mA")).toBe("5 mA");
    expect(shownValue("voltage-source", "-12V")).toBe("−12 V");
  });

  it("a value with no short decimal, or that cannot be read, stays as typed", () => {
    expect(shownValue("current-source", "1/3 A")).toBe("1/3 A");
    expect(shownValue("resistor", "5 mA")).toBe("5 mA");
  });
});
