import { describe, expect, it } from "vitest";
import { readCircuitFile } from "../../shared/circuit";
import { type Report, reportText, solveReport } from "../../shared/solve";

function reportOf(json: object): Report {
  const reading = readCircuitFile({ reference: "0", ...json });
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return solveReport(reading.value.circuit);
}

const R = (id: string, a: string, b: string, value = "1 Ω") => ({ id, kind: "resistor", nodes: [a, b], value });
const V = (id: string, a: string, b: string, value: string) => ({ id, kind: "voltage-source", nodes: [a, b], value });
const I = (id: string, a: string, b: string, value: string) => ({ id, kind: "current-source", nodes: [a, b], value });
const L = (id: string, a: string, b: string, value: string) => ({ id, kind: "inductor", nodes: [a, b], value });

describe("the second method", () => {
  it("agrees that a sinusoid is 0 where one method finds 0 and the other what rounding leaves of it", () => {
    // At 2500 rad/s V1 is a short across I1, so nothing of I1 reaches R1, R2 and L1.
    const report = reportOf({
      elements: [
        R("R1", "0", "1"),
        L("L1", "0", "1", "1 mH"),
        R("R2", "1", "2"),
        V("V1", "2", "0", "1 V"),
        I("I1", "2", "0", "1/3 A ∠ 0° @ 2500 rad/s"),
      ],
      wanted: [{ quantity: "voltage", from: "2", to: "0" }],
    });
    expect(report.wanted[0]?.secondMethod).toMatchObject({ agrees: true, value: { text: "1 V" } });
    expect(report.wanted[0]?.addends.map(({ value }) => [value.text, value.mark, value.exact])).toEqual([
      ["1 V", "=", "1"],
      // A 0 found in doubles is never called exact.
      ["0 V", "≈", null],
    ]);
  });

  it("handles a source that follows a voltage across itself, and two that follow each other", () => {
    // E1 = 1/2·v(a) at b, E2 = 1/2·v(b) + … by hand: v(a) = 4 V, so v(b) = 2 V and v(c) = 1 V.
    const vcvs = (id: string, plus: string, minus: string, p: string, n: string) => ({
      id,
      kind: "vcvs",
      nodes: [plus, minus],
      control: { voltage: [p, n] },
      gain: "1/2",
    });
    const report = reportOf({
      elements: [
        V("V1", "a", "0", "4 V"),
        R("R1", "a", "0"),
        vcvs("E1", "b", "0", "a", "0"),
        R("R2", "b", "0"),
        vcvs("E2", "c", "0", "b", "0"),
        R("R3", "c", "b"),
      ],
      wanted: [{ quantity: "current", through: "R3", from: "b", to: "c" }],
    });
    expect(report.wanted[0]).toMatchObject({ total: { exact: "1" }, secondMethod: { agrees: true } });
  });

  it("is not claimed where loop analysis would be too large", () => {
    // 62 resistors side by side make 62 loops with the source, more than are taken.
    const many = Array.from({ length: 62 }, (_, i) => R(`R${i}`, "a", "0", "62 Ω"));
    const report = reportOf({
      elements: [V("V1", "a", "0", "5 V"), ...many],
      wanted: [{ quantity: "current", through: "V1", from: "0", to: "a" }],
    });
    expect(report.wanted[0]).toMatchObject({ total: { exact: "5" }, secondMethod: null });
    expect(reportText(report)).toContain("second method: none applies to this circuit");
  });
});

describe("the residual", () => {
  it("is 0 for constants and stated for phasors", () => {
    const constant = reportOf({ elements: [V("V1", "a", "0", "5 V"), R("R1", "a", "0")], wanted: [] });
    expect([constant.residual, reportText(constant).includes("residual")]).toEqual([0, false]);
    const phasor = reportOf({
      elements: [V("V1", "a", "0", "5 V ∠ 20° @ 50 Hz"), R("R1", "a", "b"), L("L1", "b", "0", "7 mH")],
      wanted: [],
    });
    expect(phasor.residual).toBeLessThan(1e-14);
    expect(reportText(phasor)).toMatch(/solved in doubles, with a relative residual of /);
  });
});
