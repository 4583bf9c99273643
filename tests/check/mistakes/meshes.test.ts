import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Explanation, explain } from "../../../shared/check/mistakes";
import { type Form, type MeshEquations, meshEquations } from "../../../shared/check/mistakes/meshes";
import { withoutWires } from "../../../shared/check/mistakes/reduction";
import { amountIn } from "../../../shared/check/mistakes/target";
import type { Circuit, Wanted } from "../../../shared/circuit";
import { add, negate, type Rational, rational } from "../../../shared/quantity";
import { eachAlone } from "../../../shared/solve";
import { exactArithmetic } from "../../../shared/solve/arithmetic";
import { circuits, RESISTORS_AND_SOURCES } from "../../generators/circuits";
import type { RawElement } from "../../independent/elements";
import { circuitOf } from "../../solve/solved";

/** What mesh equations without a mistake give; null where they have no single solution. */
function rightly({ order, laws, others, asked }: MeshEquations): Rational | null {
  const all: readonly Form[] = [...laws, ...others];
  const side = new Map(all.map(({ constant }, row) => [row, negate(constant)] as const));
  const found = exactArithmetic.solve({ order, rows: all.map(({ terms }) => terms), rightHandSides: [side] });
  return found.ok ? add(found.solution(0, [...asked.terms]), asked.constant) : null;
}

describe("mesh equations without a mistake", { timeout: 60_000 }, () => {
  it("have the solver's answer, whichever face is the outer one", () => {
    let compared = 0;
    fc.assert(
      fc.property(circuits({ ...RESISTORS_AND_SOURCES, dependentSources: true, switchesAndWires: true }, 8), (json) => {
        const circuit = circuitOf(json);
        for (const wanted of circuit.wanted) {
          const right = amountIn(circuit, wanted)?.constant;
          if (right?.numbers !== "exact") continue;
          const bare = withoutWires(circuit, wanted);
          for (const equations of meshEquations(bare.circuit, bare.wanted)) {
            const found = rightly(equations);
            if (found === null) continue;
            compared += 1;
            expect(found).toEqual(right.value);
          }
        }
      }),
      { numRuns: 200 },
    );
    expect(compared).toBeGreaterThan(100);
  });
});

// V1 = 12 V behind R1 = 2 kΩ, R2 = 3 kΩ with R4 = 1 kΩ across, V2 = 9 V behind R3 = 6 kΩ: meshes of V1, R1, R2, R4 and of
// V2, R3, R2, R4. With both currents counted down R2, in mA: 6 m1 + 4 m2 = 12 and 4 m1 + 10 m2 = 9, so that
// m1 = (120 − 36)/44 = 21/11, m2 = (54 − 48)/44 = 3/22 and I(R2) = 45/22.
const two: readonly RawElement[] = [
  { id: "V1", kind: "voltage-source", nodes: ["p", "0"], value: "12 V" },
  { id: "R1", kind: "resistor", nodes: ["p", "a"], value: "2 kΩ" },
  { id: "R2", kind: "resistor", nodes: ["a", "b"], value: "3 kΩ" },
  { id: "R4", kind: "resistor", nodes: ["b", "0"], value: "1 kΩ" },
  { id: "R3", kind: "resistor", nodes: ["q", "a"], value: "6 kΩ" },
  { id: "V2", kind: "voltage-source", nodes: ["q", "0"], value: "9 V" },
];

function explained(elements: readonly RawElement[], through: string, n: number, d: number): readonly string[] {
  const [from = "", to = ""] = elements.find(({ id }) => id === through)?.nodes ?? [];
  const wanted = [{ name: "Ix", quantity: "current", through, from, to }];
  const circuit: Circuit = circuitOf({ elements, reference: "0", wanted });
  const target = { circuit, wanted: circuit.wanted[0] as Wanted, grouping: eachAlone(circuit), sources: null };
  const entered = { kind: "exact", value: rational(BigInt(n), BigInt(d * 1000)) } as const;
  return explain(target, entered, 3, "peak").map(({ mistakes }: Explanation) =>
    mistakes
      .map(({ code, parts, node }) => `${code}(${parts.join()}${node === null ? "" : ` at ${node}`})`)
      .join(" + "),
  );
}

// Expected values are worked by hand: common practice, no source.
describe("a mistake in mesh equations", () => {
  it("has nothing said of the right current", () => {
    expect(explained(two, "R2", 45, 22)).toEqual([]);
    expect(explained(two, "R1", 21, 11)).toEqual([]);
  });

  it("of the mesh current for the branch current: 21/11 or 3/22 mA in R2", () => {
    expect(explained(two, "R2", 21, 11)).toEqual(["meshForBranch()"]);
    expect(explained(two, "R2", 3, 22)).toEqual(["meshForBranch()"]);
  });

  it("of mesh currents added in the part that they share", () => {
    // R2 in the first row alone: 6 m1 − 2 m2 = 12, 4 m1 + 10 m2 = 9: m1 = 138/68 = 69/34.
    expect(explained(two, "R1", 69, 34)).toEqual(["mutualTermTurned(R2)"]);
    // In both: 6 m1 − 2 m2 = 12, −2 m1 + 10 m2 = 9: m1 = 138/56 = 69/28.
    expect(explained(two, "R1", 69, 28)).toEqual(["mutualTermTurned(R2)"]);
  });

  it("of one mesh current only in the part that they share", () => {
    // In the first row: 6 m1 + m2 = 12, 4 m1 + 10 m2 = 9: m1 = 111/56. In both: 6 m1 + m2 = 12, m1 + 10 m2 = 9: 111/59.
    expect(explained(two, "R1", 111, 56)).toEqual(["mutualTermMissing(R2)"]);
    expect(explained(two, "R1", 111, 59)).toEqual(["mutualTermMissing(R2)"]);
  });

  it("of a term with the other sign, and of one left out", () => {
    // R2 turned in the first row: 0 m1 − 2 m2 = 12: m2 = −6, 4 m1 = 69.
    expect(explained(two, "R1", 69, 4)).toContain("loopTermTurned(R2)");
    // R2 left out there: 3 m1 + m2 = 12, 4 m1 + 10 m2 = 9: m1 = 111/26.
    expect(explained(two, "R1", 111, 26)).toEqual(["loopTermMissing(R2)"]);
  });

  it("is left unsaid where a mistake of another kind leads there, too", () => {
    // V1 turned in its mesh is V1 with its polarity turned: 6 m1 + 4 m2 = −12, m1 = −156/44 = −39/11.
    expect(explained(two, "R1", -39, 11)).toContain("polarityTurned(V1)");
    expect(explained(two, "R1", -39, 11).join()).not.toMatch(/loopTerm/);
  });

  it("of the voltage of a current source left out", () => {
    // I1 = 4 mA up between two meshes in the place of R2 and R4: m1 through R1, m2 through R3, m1 + m2 = −4 mA.
    // Around both: 2 m1 − 6 m2 = 12 − 9 = 3, m1 = −21/8 mA. With 0 V across I1: 2 m1 = 12, or 6 m2 = 9 and m1 = −11/2.
    const across = two
      .filter(({ id }) => id !== "R4")
      .map(
        (element): RawElement =>
          element.id === "R2" ? { id: "I1", kind: "current-source", nodes: ["0", "a"], value: "4 mA" } : element,
      );
    expect(explained(across, "R1", -21, 8)).toEqual([]);
    expect(explained(across, "R1", 6, 1)).toEqual(["sourceVoltageMissing(I1)"]);
    expect(explained(across, "R1", -11, 2)).toEqual(["sourceVoltageMissing(I1)"]);
  });

  it("of the current of a voltage source left out of a node's law", () => {
    // V2 = 9 V from a to b, R1 = 2 kΩ behind V1 = 12 V to a, R2 = 3 kΩ at a, R3 and R4 = 6 kΩ at b.
    // Without the source's current at a: (Va − 12)/2 + Va/3 = 0, Va = 36/5 V, I(R2) = 12/5 mA.
    const between: readonly RawElement[] = [
      ...two.slice(0, 2),
      { id: "R2", kind: "resistor", nodes: ["a", "0"], value: "3 kΩ" },
      { id: "V2", kind: "voltage-source", nodes: ["a", "b"], value: "9 V" },
      { id: "R3", kind: "resistor", nodes: ["b", "0"], value: "6 kΩ" },
      { id: "R4", kind: "resistor", nodes: ["b", "0"], value: "6 kΩ" },
    ];
    expect(explained(between, "R2", 12, 5)).toContain("sourceCurrentMissing(V2 at a)");
  });
});
