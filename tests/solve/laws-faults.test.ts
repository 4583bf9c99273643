import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Rational } from "../../shared/quantity";
import { solveCircuit } from "../../shared/solve";
import { stopsSolving } from "../../shared/solve/structure";
import { wildCircuits } from "../generators/wild";
import { dcNetwork, dcResiduals } from "../independent/tableau";
import { circuitOf, inFractions, type Solved, solvedExactly } from "./solved";

// Parts thrown together at random, most of them no circuit: what is solved and what is refused.

describe("parts thrown between five nodes", () => {
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
});

/** Whether every voltage and current is determined: no wire beside a wire, no floating section, no gap between sections. */
function isWholly({ set: { undetermined, structure, network } }: Solved<Rational>): boolean {
  const { isDetermined, sectionOf } = structure;
  const isBridge = ({ plus, minus }: { plus: number; minus: number }) => sectionOf[plus] !== sectionOf[minus];
  return undetermined.size === 0 && isDetermined.every(Boolean) && !network.branches.some(isBridge);
}
