import { describe, expect, it } from "vitest";
import { countFound, foundIn, type KeptTry } from "../../../server/check";
import { readCircuitFile } from "../../../shared/circuit";
import { solveReport } from "../../../shared/solve";

// By hand: V1 alone gives node b 10 V × 3/5 = 6 V; I1 alone 7 A × (2 Ω ∥ 3 Ω) = 8.4 V; both 14.4 V = 72/5 V.
const ELEMENTS = [
  { id: "V1", kind: "voltage-source", nodes: ["a", "0"], value: "10 V" },
  { id: "R1", kind: "resistor", nodes: ["a", "b"], value: "2 Ω" },
  { id: "R3", kind: "resistor", nodes: ["b", "0"], value: "3 Ω" },
  { id: "I1", kind: "current-source", nodes: ["0", "b"], value: "7 A" },
];

function reportOf(wanted: readonly object[]) {
  const file = readCircuitFile({ elements: ELEMENTS, reference: "0", wanted });
  if (!file.ok) throw new Error("the test's circuit can't be read");
  return solveReport(file.value.circuit, {});
}
const VB = reportOf([{ quantity: "voltage", name: "Vb", from: "b", to: "0" }]);

const tried = (card: string, answer: string, outcome: "right" | "wrong" = "right", wanted = "Vb") => ({
  wanted,
  card,
  answer,
  judgement: (outcome === "right"
    ? { outcome }
    : { outcome, diagnosis: { code: "signTurned" } }) as KeptTry["judgement"],
});

describe("a card's value has been found", () => {
  it("by the newest try, where that is right by the very answer that the board has", () => {
    const isFound = foundIn(VB, [tried("V1", "6 V"), tried("I1", "42/5 V", "wrong"), tried("total", "71/5 V")]);
    expect(["V1", "I1", "total"].map((card) => isFound("Vb", card))).toEqual([true, false, false]);
    expect(isFound("Vc", "V1")).toBe(false);
  });

  it("of a quantity that the board asks for, and of no card that it hasn't", () => {
    const isFound = foundIn(VB, [tried("V1", "6 V", "right", "Vc"), tried("V9", "6 V")]);
    expect([isFound("Vc", "V1"), isFound("Vb", "V9")]).toEqual([false, false]);
  });

  it("of no equivalent: its one total stands for several numbers", () => {
    const report = reportOf([{ quantity: "thevenin", name: "Th", from: "b", to: "0" }]);
    const [asked] = report.wanted;
    expect(asked?.components.length).toBeGreaterThan(0);
    const answer = `${asked?.total?.exact} ${asked?.unit}`;
    expect(foundIn(report, [tried("total", answer, "right", "Th")])("Th", "total")).toBe(false);
    expect(countFound(report, [])).toEqual({ right: 0, cards: 0 });
  });

  it("and is counted among all cards that have one", () => {
    expect(countFound(VB, [])).toEqual({ right: 0, cards: 3 });
    expect(countFound(VB, [tried("V1", "6 V"), tried("total", "72/5 V")])).toEqual({ right: 2, cards: 3 });
  });
});
