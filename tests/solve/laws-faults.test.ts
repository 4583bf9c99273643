import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { stopsSolving } from "../../shared/circuit/problemText";
import type { Rational } from "../../shared/quantity";
import { solveCircuit, solveReport } from "../../shared/solve";
import { circuits, EVERY_PART, pasteable } from "../generators/circuits";
import { wildCircuits } from "../generators/wild";
import type { RawElement } from "../independent/elements";
import { dcNetwork, dcResiduals } from "../independent/tableau";
import { circuitOf, inFractions, type Solved, solvedExactly } from "./solved";

// Parts thrown together at random, most of them no circuit: what is solved and what is refused.

describe("parts thrown between five nodes", { timeout: 60_000 }, () => {
  it("are refused only where the independent equations have no single solution either", () =>
    fc.assert(
      fc.property(wildCircuits(), (json) => {
        if (solvedExactly(json) === null) expect(dcNetwork(json)).toBeNull();
      }),
      { numRuns: 250 },
    ));

  it("are solved where the independent equations are, but for floating sections and bypassed wires, which are named", () =>
    fc.assert(
      fc.property(wildCircuits(), (json) => {
        const solved = solvedExactly(json);
        fc.pre(solved !== null && isWholly(solved));
        expect(dcNetwork(json)).not.toBeNull();
      }),
      { numRuns: 250 },
    ));

  it("satisfy the equations exactly wherever they are solved", () =>
    fc.assert(
      fc.property(wildCircuits(), (json) => {
        const solved = solvedExactly(json);
        fc.pre(solved !== null);
        const rests = dcResiduals(json, solved.sources, inFractions(solved.total));
        expect(rests.every((rest) => rest.n === 0n)).toBe(true);
      }),
      { numRuns: 250 },
    ));

  it("that are refused are so for a problem that stops solving and names what it is about", () =>
    fc.assert(
      fc.property(wildCircuits(), (json) => {
        const { isSolved, problems } = solveCircuit(circuitOf(json));
        const stopping = problems.filter(stopsSolving);
        expect(stopping.length > 0).toBe(!isSolved);
        for (const problem of stopping) {
          const named = ["part", "parts", "nodes"].flatMap(
            (key) => Object.entries(problem).find(([k]) => k === key)?.[1],
          );
          expect(named.filter((name) => typeof name === "string").length).toBeGreaterThan(0);
        }
      }),
      { numRuns: 250 },
    ));

  it("follow, where they are solved, only voltages between nodes of one section", () =>
    fc.assert(
      fc.property(wildCircuits(), (json) => {
        const solved = solvedExactly(json);
        fc.pre(solved !== null);
        const sectionOf = (node: string) => solved.set.structure.sectionOf[solved.nodes.indexOf(node)];
        for (const { id, control } of json.elements) {
          const [plus, minus] = control?.voltage ?? [];
          if (plus === undefined || minus === undefined) continue;
          expect([id, sectionOf(plus)]).toEqual([id, sectionOf(minus)]);
        }
      }),
      { numRuns: 250 },
    ));

  it("has no voltage for a part that bridges two sections, since nothing fixes it, and one for every other part", () =>
    fc.assert(
      fc.property(wildCircuits(), (json) => {
        const solved = solvedExactly(json);
        fc.pre(solved !== null);
        const { parts } = solveReport(solved.solution.circuit);
        for (const [index, branch] of solved.set.network.branches.entries()) {
          expect([branch.part, parts[index]?.voltage === null]).toEqual([branch.part, isBridge(solved, branch)]);
        }
      }),
      { numRuns: 250 },
    ));
});

describe("a resistor held off by an open switch", () => {
  it("changes no other answer, and its own node voltages are not determined", () =>
    fc.assert(
      fc.property(circuits(EVERY_PART), (json) => {
        const before = solvedExactly(json);
        fc.pre(before !== null);
        const loose: RawElement[] = [
          { id: "Sloose", kind: "switch", nodes: ["1", "loose"], state: "open" },
          { id: "Rloose", kind: "resistor", nodes: ["loose", "end"], value: "1 Ω" },
        ];
        const after = solvedExactly(pasteable({ ...json, elements: [...json.elements, ...loose] }));
        expect(after).not.toBeNull();
        for (const node of before.nodes) expect(after?.total.node(node)).toEqual(before.total.node(node));
        for (const branch of before.branches)
          expect(after?.total.current(branch)).toEqual(before.total.current(branch));
        const { nodes } = solveReport(circuitOf({ ...json, elements: [...json.elements, ...loose] }));
        const open = nodes.filter(({ voltage }) => voltage === null).map(({ node }) => node);
        expect(open).toEqual(["loose", "end"]);
      }),
    ));
});

/** Whether every voltage and current is determined: no wire beside a wire, no floating section, no gap between sections. */
function isWholly(solved: Solved<Rational>): boolean {
  const { undetermined, structure, network } = solved.set;
  const hasBridge = network.branches.some((branch) => isBridge(solved, branch));
  return undetermined.size === 0 && structure.isDetermined.every(Boolean) && !hasBridge;
}

/** Whether a branch runs from one section to another, as an open switch or a capacitor may. */
function isBridge({ set }: Solved<Rational>, { plus, minus }: { plus: number; minus: number }): boolean {
  return set.structure.sectionOf[plus] !== set.structure.sectionOf[minus];
}
