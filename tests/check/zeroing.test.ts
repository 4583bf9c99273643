import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { judgeZeroing, type ZeroingDecision } from "../../shared/check";
import { mistakeWords } from "../../shared/check/mistakes";
import { type PartId, partId } from "../../shared/circuit";
import { eachAlone } from "../../shared/solve";
import { circuits, RESISTORS_AND_SOURCES } from "../generators/circuits";
import type { RawElement } from "../independent/elements";
import { circuitOf } from "../solve/solved";

const V = (id: string, value: string): RawElement => ({ id, kind: "voltage-source", nodes: [id, "0"], value });
const I = (id: string, value: string): RawElement => ({ id, kind: "current-source", nodes: ["0", id], value });
const R = (id: string, node: string): RawElement => ({ id, kind: "resistor", nodes: [node, "0"], value: "1 kΩ" });

const circuit = circuitOf({
  elements: [
    V("V1", "9 V"),
    V("V2", "0 V"),
    I("I1", "5 mA"),
    I("I2", "0 A"),
    {
      id: "G1",
      kind: "vccs",
      nodes: ["g", "0"],
      gain: "2 mS",
      control: { voltage: ["I1", "0"] },
    },
    {
      id: "E1",
      kind: "vcvs",
      nodes: ["e", "0"],
      gain: "0",
      control: { voltage: ["I1", "0"] },
    },
    ...["V1", "V2", "I1", "I2", "g", "e"].map((node, i) => R(`R${i + 1}`, node)),
  ],
  reference: "0",
  wanted: [],
});

const judged = (acting: string, decided: Readonly<Record<string, ZeroingDecision>>) =>
  judgeZeroing(
    circuit,
    acting.split(" ").filter(Boolean).map(partId),
    new Map(Object.entries(decided).map(([id, decision]) => [partId(id), decision])),
  );
const faults = (...all: readonly (readonly [source: string, code: string])[]) => ({
  outcome: "wrong",
  faults: all.map(([source, code]) => ({ source, mistake: { code, parts: [source], node: null } })),
});

describe("the zeroing of sources", () => {
  it("is right with voltage sources as shorts, current sources as opens, and dependent ones kept", () => {
    expect(judged("V1", { I1: "open", V2: "short", I2: "open" })).toEqual({ outcome: "right" });
    expect(judged("I1", { V1: "short", V2: "short", I2: "open", G1: "kept" })).toEqual({ outcome: "right" });
    expect(judged("V1 I1", { V1: "kept" })).toEqual({ outcome: "right" });
    expect(judged("", { V1: "short", I1: "open" })).toEqual({ outcome: "right" });
  });

  it("counts what the place becomes: a source of 0 V that is kept is a short, one of 0 A an open", () => {
    expect(judged("V1", { I1: "open", V2: "kept", I2: "kept" })).toEqual({ outcome: "right" });
    expect(judged("V2", { V1: "short", I1: "open", V2: "short" })).toEqual({ outcome: "right" });
    expect(judged("V1", { I1: "open", E1: "short" })).toEqual({ outcome: "right" });
  });

  it("takes a source of which nothing was decided as kept", () => {
    expect(judged("V1", {})).toEqual(faults(["I1", "sourceLeftOn"]));
    expect(judged("I1", {})).toEqual(faults(["V1", "sourceLeftOn"]));
  });

  it("names for each source at fault what was done to it, in the circuit's order", () => {
    expect(judged("", { I1: "short", V1: "open", V2: "open", I2: "short" })).toEqual(
      faults(
        ["V1", "voltageSourceOpened"],
        ["V2", "voltageSourceOpened"],
        ["I1", "currentSourceShorted"],
        ["I2", "currentSourceShorted"],
      ),
    );
    expect(judged("V1", { V1: "short", I1: "open" })).toEqual(faults(["V1", "actingZeroed"]));
    expect(judged("V1", { V1: "open", I1: "open" })).toEqual(faults(["V1", "actingZeroed"]));
    expect(judged("V1", { I1: "open", G1: "open" })).toEqual(faults(["G1", "dependentZeroed"]));
    expect(judged("V1", { I1: "open", G1: "short", E1: "open" })).toEqual(
      faults(["G1", "dependentZeroed"], ["E1", "dependentZeroed"]),
    );
  });

  it("has three rungs for every fault", () => {
    const all = [judged("V1", { V1: "open", G1: "open" }), judged("", { I1: "short", V1: "open" }), judged("V1", {})];
    for (const judgement of all) {
      if (judgement.outcome !== "wrong") throw new Error("expected faults");
      for (const { mistake } of judgement.faults) {
        const { where, principle, fix } = mistakeWords(mistake);
        expect(new Set([where, principle, fix]).size).toBe(3);
      }
    }
  });

  it("judges nothing where something is decided of what is no source", () => {
    expect(judged("V1", { R1: "short" })).toEqual({ outcome: "unread", unknown: ["R1"] });
    expect(judged("G1 X9", { V7: "open" })).toEqual({ outcome: "unread", unknown: ["G1", "X9", "V7"] });
  });

  const decision = fc.constantFrom<ZeroingDecision>("kept", "short", "open");

  it("is right on random circuits exactly where every place has the law that the addend's circuit gives it", () =>
    fc.assert(
      fc.property(
        circuits({ ...RESISTORS_AND_SOURCES, dependentSources: true }, 5),
        fc.array(decision),
        (json, made) => {
          const drawn = circuitOf(json);
          const [own = []] = eachAlone(drawn);
          const sources = json.elements
            .filter(({ kind }) => /source|^[vc]c[vc]s$/.test(kind))
            .map(({ id }) => partId(id));
          const decisions = new Map(sources.map((id, i): [PartId, ZeroingDecision] => [id, made[i] ?? "kept"]));
          const kindOf = (id: PartId) => json.elements.find((element) => element.id === id)?.kind;
          const isSet = (id: PartId): boolean => {
            const as = decisions.get(id);
            if (own.includes(id) || !/source/.test(kindOf(id) ?? "")) return as === "kept";
            return as === (kindOf(id) === "voltage-source" ? "short" : "open");
          };
          const judgement = judgeZeroing(drawn, own, decisions);
          // Sources of 0 V or 0 A aside, which random circuits have few of.
          const hasZero = json.elements.some(({ value, gain }) => /^-?0\b(?!\.)/.test(String(value ?? gain)));
          fc.pre(!hasZero);
          expect(judgement.outcome === "right").toBe(sources.every(isSet));
          if (judgement.outcome === "wrong") {
            expect(judgement.faults.map(({ source }) => source)).toEqual(sources.filter((id) => !isSet(id)));
          }
        },
      ),
    ));
});
