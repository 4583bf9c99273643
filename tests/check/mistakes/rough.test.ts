import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Candidates, candidatesOf } from "../../../shared/check/mistakes/candidates";
import { mayBe, roughOf } from "../../../shared/check/mistakes/rough";
import { RoughSolver } from "../../../shared/check/mistakes/roughSolver";
import { amountIn, type Candidate } from "../../../shared/check/mistakes/target";
import { type Circuit, nodeId, partId, type Wanted } from "../../../shared/circuit";
import { eachAlone } from "../../../shared/solve";
import { type CircuitJson, circuits, EVERY_PART } from "../../generators/circuits";
import { sinusoidalCircuits } from "../../generators/sinusoids";
import { circuitOf } from "../../solve/solved";

/** Figures to which doubles and exact numbers have to agree: fewer than rounding costs, more than any learner writes. */
const FIGURES = 9;

/** Every kind of thing that can be asked of a circuit: of each part, and of each pair of its first nodes. */
function questionsOf({ parts }: Circuit, elements: CircuitJson["elements"]): readonly Wanted[] {
  const nodes = [...new Set(elements.flatMap((element) => element.nodes))].slice(0, 4).map(nodeId);
  const ports = (
    ["voltage", "resistance", "impedance", "open-circuit-voltage", "short-circuit-current"] as const
  ).flatMap((kind) => nodes.slice(1).map((from): Wanted => ({ name: null, kind, from, to: nodes[0] as typeof from })));
  return [
    ...parts.flatMap(({ id, kind }): Wanted[] => [
      { name: null, kind: "power", of: id },
      { name: null, kind: "current", through: id, winding: "primary", direction: "backward" },
      ...(kind === "ideal-transformer"
        ? [{ name: null, kind: "current", through: id, winding: "secondary", direction: "forward" } as const]
        : []),
    ]),
    ...ports,
  ];
}

function expectAgreement(json: CircuitJson): void {
  const circuit = circuitOf(json);
  const solver = new RoughSolver();
  for (const wanted of questionsOf(circuit, json.elements)) {
    const exact = amountIn(circuit, wanted);
    if (exact === null) continue;
    const rough = solver.answer(circuit, wanted);
    const agrees = rough !== null && mayBe(rough, roughOf(exact), FIGURES);
    expect(agrees, `${JSON.stringify(wanted)}: ${JSON.stringify(rough)}`).toBe(true);
  }
}

describe("a rough answer", { timeout: 120_000 }, () => {
  it("is the exact one but for rounding, for every part that a constant circuit can have", () =>
    fc.assert(fc.property(circuits(EVERY_PART, 8), expectAgreement), { numRuns: 120 }));

  it("is the sum of the phasors, for circuits of several frequencies", () =>
    fc.assert(fc.property(sinusoidalCircuits(), expectAgreement), { numRuns: 120 }));
});

describe("the value that a mistake leads to", { timeout: 120_000 }, () => {
  const all = (candidates: Candidates | null): readonly Candidate[] =>
    candidates === null ? [] : [...candidates.wrong, ...candidates.inMeshes()];
  const expectNoneRuledOut = (json: CircuitJson): void => {
    const circuit = circuitOf(json);
    const [wanted] = circuit.wanted;
    if (wanted === undefined) return;
    const grouping = eachAlone(circuit);
    for (const sources of [null, ...grouping.slice(0, 2)]) {
      const target = { circuit, wanted, grouping, sources };
      const found = all(candidatesOf(target));
      for (const { mistake, rough, amount } of found) {
        const exact = amount();
        if (exact === null || rough === null) continue;
        expect(mayBe(rough, roughOf(exact), FIGURES), `${JSON.stringify([mistake, rough, roughOf(exact)])}`).toBe(true);
      }
      // Without doubles nothing is ruled out: what has a value then has one with them, too.
      const withValue = (candidates: readonly Candidate[]): readonly string[] =>
        candidates.flatMap(({ mistake, amount }) => (amount() === null ? [] : [JSON.stringify(mistake)]));
      expect(withValue(found)).toEqual(withValue(all(candidatesOf(target, null))));
    }
  };

  it("is never ruled out by its doubles, on circuits of every part", () =>
    fc.assert(fc.property(circuits(EVERY_PART, 6), expectNoneRuledOut), { numRuns: 30 }));

  it("is never ruled out by its doubles, on circuits of several frequencies", () =>
    fc.assert(fc.property(sinusoidalCircuits(), expectNoneRuledOut), { numRuns: 30 }));

  it("is known in doubles for all but few", () => {
    // Two sources, six resistors: nothing in it that doubles can't do.
    const circuit = circuitOf({
      elements: [
        { id: "V1", kind: "voltage-source", nodes: ["a", "0"], value: "12 V" },
        { id: "I1", kind: "current-source", nodes: ["0", "c"], value: "4 mA" },
        ...[
          ["a", "b"],
          ["b", "c"],
          ["c", "0"],
          ["b", "0"],
          ["a", "c"],
        ].map((nodes, i) => ({ id: `R${i + 1}`, kind: "resistor", nodes, value: `${i + 2} kΩ` })),
      ],
      reference: "0",
      wanted: [],
    });
    const wanted: Wanted = {
      name: "Ix",
      kind: "current",
      through: partId("R3"),
      winding: "primary",
      direction: "forward",
    };
    const grouping = eachAlone(circuit);
    for (const sources of [null, ...grouping]) {
      const wrong = candidatesOf({ circuit, wanted, grouping, sources })?.wrong ?? [];
      expect(wrong.length).toBeGreaterThan(50);
      expect(wrong.filter(({ rough }) => rough === null).length).toBeLessThan(3);
    }
  });
});
