import { describe, expect, it } from "vitest";
import { hideAnswers } from "../../../server/access";
import { readCircuitFile } from "../../../shared/circuit";
import { isShown, type ShownAnswers } from "../../../shared/messages";
import { type Report, solveReport } from "../../../shared/solve";

type Element = Record<string, unknown>;

function reportOf(elements: readonly Element[], wanted: readonly Element[], groups?: readonly string[][]): Report {
  const file = readCircuitFile({ elements, reference: "0", wanted });
  if (!file.ok) throw new Error("the test's circuit can't be read");
  return solveReport(file.value.circuit, groups ? { groups: groups as never } : {});
}

// By hand: V1 alone gives node b 10 V × 3/5 = 6 V; I1 alone 7 A × (2 Ω ∥ 3 Ω) = 7 A × 6/5 Ω = 8.4 V; both 14.4 V.
const TWO = [
  { id: "V1", kind: "voltage-source", nodes: ["a", "0"], value: "10 V" },
  { id: "R1", kind: "resistor", nodes: ["a", "b"], value: "2 Ω" },
  { id: "R3", kind: "resistor", nodes: ["b", "0"], value: "3 Ω" },
  { id: "I1", kind: "current-source", nodes: ["0", "b"], value: "7 A" },
];
const VB = { quantity: "voltage", name: "Vb", from: "b", to: "0" };
const shows = (answers: ShownAnswers) => (card: string) => isShown(answers, card);
const hiding = (...except: string[]) => shows({ shown: true, except });

describe("hidden answers", () => {
  it("are none where all is shown", () => {
    const report = reportOf(TWO, [VB]);
    expect(hideAnswers(report, hiding())).toEqual({ ...report, hidden: [] });
  });

  it("of an addend are its value, coefficient and sheet, and all notes; the rest stays", () => {
    const report = reportOf(TWO, [VB]);
    const filtered = hideAnswers(report, hiding("V1"));
    expect(filtered.hidden).toEqual(["V1"]);
    const [wanted] = filtered.wanted;
    expect(wanted?.addends.map(({ sources, value, coefficient }) => [sources, value?.text, coefficient?.text])).toEqual(
      [
        [["V1"], undefined, undefined],
        [["I1"], "8.4 V", "6/5 Ω × 7 A"],
      ],
    );
    expect(filtered.partials.map(({ sources }) => sources)).toEqual([["I1"]]);
    expect(wanted?.total?.text).toBe("14.4 V");
    expect(filtered.nodes).toEqual(report.nodes);
    expect(filtered.sources).toEqual(report.sources);
  });

  it("of the total take second method, components, sheet and power balance with them", () => {
    const filtered = hideAnswers(reportOf(TWO, [VB]), hiding("total"));
    expect(filtered).toMatchObject({ hidden: ["total"], nodes: [], parts: [], powerBalance: null });
    expect(filtered.wanted[0]).toMatchObject({ total: null, secondMethod: null, components: [], note: null });
    expect(filtered.wanted[0]?.addends.map(({ value }) => value?.text)).toEqual(["6 V", "8.4 V"]);
  });

  it("are all of them where nothing is shown but what is excepted", () => {
    const filtered = hideAnswers(reportOf(TWO, [VB]), shows({ shown: false, except: ["I1"] }));
    expect(filtered.hidden).toEqual(["V1", "total"]);
    expect(filtered.wanted[0]?.addends.map(({ value }) => value?.text)).toEqual([undefined, "8.4 V"]);
  });

  it("of the only source and of the total are one answer, and each hides the other", () => {
    const one = reportOf(TWO.slice(0, 3), [VB]);
    for (const card of ["V1", "total"]) {
      const filtered = hideAnswers(one, hiding(card));
      expect(filtered.hidden).toEqual(["V1", "total"]);
      // 10 V × 3/5.
      expect(JSON.stringify(filtered)).not.toContain('"6 V"');
    }
  });

  it("of a group of all sources hide the total, in whatever order it is named", () => {
    const groups = [["V1"], ["I1"], ["V1", "I1"]];
    const filtered = hideAnswers(reportOf(TWO, [VB], groups), hiding("I1+V1"));
    expect(filtered.hidden).toEqual(["I1+V1", "total"]);
    expect(filtered.wanted[0]?.total).toBeNull();
    expect(filtered.partials.map(({ sources }) => sources)).toEqual([["V1"], ["I1"]]);
  });

  it("of a power are its note too, which tells what each source would give alone", () => {
    const report = reportOf(TWO, [{ quantity: "power", name: "P3", through: "R3" }]);
    expect(report.wanted[0]?.note).toContain("with V1 alone");
    expect(hideAnswers(report, hiding("V1")).wanted[0]?.note).toBeNull();
  });

  it("leave a circuit without sources as it is", () => {
    const report = reportOf(TWO.slice(1, 3), [{ quantity: "resistance", name: "Rb", from: "b", to: "0" }]);
    expect(hideAnswers(report, hiding("V1")).wanted[0]?.total?.text).toBe("3 Ω");
  });
});

describe("an answer that was found though its card is hidden", () => {
  const NONE = shows({ shown: false, except: [] });
  const texts = ({ wanted }: ReturnType<typeof hideAnswers>) =>
    wanted.map(({ total, addends }) => [...addends.map(({ value }) => value?.text ?? null), total?.text ?? null]);

  it("is there, for the quantity that it was found for alone, without what else its card tells", () => {
    const va = { quantity: "voltage", name: "Va", from: "a", to: "0" };
    const filtered = hideAnswers(reportOf(TWO, [VB, va]), NONE, (wanted, card) => wanted === "Vb" && card === "V1");
    expect(texts(filtered)).toEqual([
      ["6 V", null, null],
      [null, null, null],
    ]);
    expect(filtered).toMatchObject({
      hidden: ["V1", "I1", "total"],
      partials: [],
      nodes: [],
      parts: [],
      powerBalance: null,
    });
  });

  it("of the total brings no second method, no components and no note", () => {
    const filtered = hideAnswers(reportOf(TWO, [VB]), NONE, (_, card) => card === "total");
    expect(texts(filtered)).toEqual([[null, null, "14.4 V"]]);
    expect(filtered.wanted[0]).toMatchObject({ secondMethod: null, components: [], note: null });
  });

  it("of the only source is the total's, too, and the other way about", () => {
    const one = reportOf(TWO.slice(0, 3), [VB]);
    for (const found of ["V1", "total"]) {
      expect(texts(hideAnswers(one, NONE, (_, card) => card === found))).toEqual([["6 V", "6 V"]]);
    }
  });
});
