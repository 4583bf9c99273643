import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Rational } from "../../shared/quantity";
import { solveCircuit, solveReport } from "../../shared/solve";
import { stopsSolving } from "../../shared/solve/structure";
import { wildCircuits } from "../generators/wild";
import { dcNetwork, dcResiduals } from "../independent/tableau";
import { circuitOf, inFractions, type Solved, solvedExactly } from "./solved";

// Parts thrown together at random, most of them no circuit: what is solved and what is refused.

describe("parts thrown between five nodes", { timeout: 60_000 }, () => {
  it("are refused only where the independent equations have no single solution either", () =>
    fc.assert(
      fc.property(wildCircuits(), (json) => {
        if (solvedExactly(json) === null) expect(dcNetwork(json)).toBeNull();
      }),
      { numRuns: 400 },
    ));

  it("are solved where the independent equations are, but for floating sections and bypassed wires, which are named", () =>
    fc.assert(
      fc.property(wildCircuits(), (json) => {
        const solved = solvedExactly(json);
        fc.pre(solved !== null && isWholly(solved));
        expect(dcNetwork(json)).not.toBeNull();
      }),
      { numRuns: 400 },
    ));

  it("satisfy the equations exactly wherever they are solved", () =>
    fc.assert(
      fc.property(wildCircuits(), (json) => {
        const solved = solvedExactly(json);
        fc.pre(solved !== null);
        const rests = dcResiduals(json, solved.sources, inFractions(solved.total));
        expect(rests.every((rest) => rest.n === 0n)).toBe(true);
      }),
      { numRuns: 400 },
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
      { numRuns: 400 },
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
      { numRuns: 400 },
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
