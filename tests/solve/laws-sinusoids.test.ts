import fc from "fast-check";
import type { Complex as MathjsComplex } from "mathjs";
import { describe, expect, it } from "vitest";
import {
  type Amount,
  answerOf,
  type Complex,
  eachAlone,
  magnitude,
  numberOf,
  powerOf,
  type Solution,
  type SolvedSet,
  solveCircuit,
  solveReport,
} from "../../shared/solve";
import { sinusoidalCircuits } from "../generators/sinusoids";
import type { RawCircuit } from "../independent/elements";
import { type Answer, dcNetwork, omegasOf, phasorNetwork, sourcesOf } from "../independent/tableau";
import { circuitOf, inFractions, type Solved, solvedExactly, solvedOf } from "./solved";

// Steady states with reactances: doubles, so the laws hold within a stated residual and not exactly.

const RELATIVE = 1e-9;

function solutionOf(json: RawCircuit): Solution {
  const solution = solveCircuit(circuitOf(json));
  expect(solution.isSolved).toBe(true);
  return solution;
}

const less = (a: Complex, b: Complex): Complex => ({ re: a.re - b.re, im: a.im - b.im });

function named(solution: Solution, set: SolvedSet<Complex>): Solved<Complex> {
  return solvedOf(solution, set, less, { re: 0, im: 0 });
}

/**
 * Every voltage and current within RELATIVE of the greatest of them. Not of itself: a voltage that is 0 but for rounding
 * has no digits to agree in.
 */
function expectSameAnswer(
  ours: Answer<Complex>,
  other: Answer<Complex> | Answer<MathjsComplex>,
  { nodes, branches }: Solved<Complex>,
): void {
  const numbersOf = (answer: Answer<Complex>): Complex[] => [
    ...nodes.map((node) => answer.node(node)),
    ...branches.map((branch) => answer.voltage(branch)),
    ...branches.map((branch) => answer.current(branch)),
  ];
  const expected = numbersOf(other);
  const size = Math.max(...expected.map(magnitude));
  for (const [index, value] of numbersOf(ours).entries()) {
    expect(magnitude(less(value, expected[index] as Complex)) / size).toBeLessThan(RELATIVE);
  }
}

describe("random circuits with reactances", { timeout: 60_000 }, () => {
  it("have the tableau's phasors at each frequency, for all its sources and for each alone", () =>
    fc.assert(
      fc.property(sinusoidalCircuits(), (json) => {
        const solution = solutionOf(json);
        const omegas = omegasOf(json).filter((omega) => omega !== 0);
        expect(solution.sinusoids.map((set) => set.stimulus.omega)).toEqual(omegas);
        for (const set of solution.sinusoids) {
          const solved = named(solution, set);
          const tableau = phasorNetwork(json, set.stimulus.omega);
          if (tableau === null) throw new Error("the tableau is singular");
          expectSameAnswer(solved.total, tableau.answer(sourcesOf(json)), solved);
          for (const source of solved.sources) {
            expectSameAnswer(solved.alone([source]), tableau.answer([source]), solved);
          }
        }
      }),
      { numRuns: 40 },
    ));

  it("have the tableau's constant part exactly, inductors short and capacitors open", () =>
    fc.assert(
      fc.property(sinusoidalCircuits(), (json) => {
        fc.pre(omegasOf(json).includes(0));
        const solved = solvedExactly(json);
        if (solved === null) throw new Error("not solved");
        const tableau = dcNetwork(json)?.answer(sourcesOf(json));
        const ours = inFractions(solved.total);
        for (const node of solved.nodes) expect(ours.node(node)).toEqual(tableau?.node(node));
        for (const branch of solved.branches) expect(ours.current(branch)).toEqual(tableau?.current(branch));
      }),
      { numRuns: 40 },
    ));

  it("state a residual below 1e-12 and warn of none", () =>
    fc.assert(
      fc.property(sinusoidalCircuits(), (json) => {
        const solution = solutionOf(json);
        for (const { residual } of solution.sinusoids) expect(residual).toBeLessThan(1e-12);
        expect(solution.problems.filter(({ code }) => code === "largeResidual")).toEqual([]);
      }),
    ));

  it("agree with the second method, frequency by frequency", () =>
    fc.assert(
      fc.property(sinusoidalCircuits(), (json) => {
        const { wanted } = solveReport(circuitOf(json));
        const methods = wanted.flatMap(({ secondMethod }) => secondMethod ?? []);
        expect(methods.length).toBeGreaterThan(0);
        expect(methods.filter(({ agrees }) => !agrees)).toEqual([]);
      }),
    ));

  it("are a sum in time: at every instant the addends add up to the total, and to the tableau's", () =>
    fc.assert(
      fc.property(sinusoidalCircuits(), fc.double({ min: -1, max: 1, noNaN: true }), (json, seconds) => {
        const solution = solutionOf(json);
        const wanted = solution.circuit.wanted.find(({ kind }) => kind === "voltage");
        if (wanted?.kind !== "voltage") throw new Error("random circuits want a voltage");
        const { total, addends } = answerOf(solution, wanted, eachAlone(solution.circuit));
        const atOnce = valueAt(total, seconds);
        const inParts = addends.map(({ amount }) => valueAt(amount, seconds));
        const independent = omegasOf(json).map((omega) => tableauVoltageAt(json, omega, wanted, seconds));
        const size = Math.max(1, ...[...inParts, ...independent].map(Math.abs));
        expect(Math.abs(sum(inParts) - atOnce) / size).toBeLessThan(RELATIVE);
        expect(Math.abs(sum(independent) - atOnce) / size).toBeLessThan(RELATIVE);
      }),
      { numRuns: 40 },
    ));

  it("take in on average as much power as they give out", () =>
    fc.assert(
      fc.property(sinusoidalCircuits(), (json) => {
        const solution = solutionOf(json);
        const powers = solution.circuit.parts.map(({ id }) => {
          const { constant } = powerOf(solution, id, (set) => set.total);
          return constant === null ? 0 : numberOf(constant);
        });
        const size = Math.max(1e-9, ...powers.map(Math.abs));
        expect(Math.abs(sum(powers)) / size).toBeLessThan(RELATIVE);
      }),
    ));
});

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/** Value in V or A at an instant (s): constant part and each phasor, a peak, turned by ωt. */
function valueAt(amount: Amount | null, seconds: number): number {
  if (amount === null) throw new Error("no answer");
  const { constant, phasors } = amount;
  const waves = phasors.map(({ omega, value }) => realPartAt(value, omega, seconds));
  return (constant === null ? 0 : numberOf(constant)) + sum(waves);
}

const realPartAt = ({ re, im }: Complex, omega: number, seconds: number): number =>
  re * Math.cos(omega * seconds) - im * Math.sin(omega * seconds);

function tableauVoltageAt(
  json: RawCircuit,
  omega: number,
  wanted: { from: string; to: string },
  seconds: number,
): number {
  const acting = sourcesOf(json);
  if (omega === 0) return dcNetwork(json)?.answer(acting).between(wanted.from, wanted.to).valueOf() ?? Number.NaN;
  const phasor = phasorNetwork(json, omega)?.answer(acting).between(wanted.from, wanted.to);
  return phasor === undefined ? Number.NaN : realPartAt(phasor, omega, seconds);
}

/** 1 A at 1000 rad/s into 2 mH beside 500 µF: resonance with nothing to damp it. */
const resonant = {
  elements: [
    { id: "I1", kind: "current-source", nodes: ["0", "a"], amplitude: "1 A", omega: "1000 rad/s" },
    { id: "L1", kind: "inductor", nodes: ["a", "0"], value: "2 mH" },
    { id: "C1", kind: "capacitor", nodes: ["a", "0"], value: "500 µF" },
  ],
  reference: "0",
};

describe("an undamped pair at resonance", () => {
  it("has no steady state beside a current source", () => {
    const { isSolved, problems } = solveCircuit(circuitOf(resonant));
    expect(isSolved).toBe(false);
    expect(problems.map(({ code }) => code)).toEqual(["singularEquations"]);
    expect(phasorNetwork(resonant, 1000)).toBeNull();
  });

  it("has none at 50 Hz either, where the resonance is not a round number: 10 mH and 1/(ω²·10 mH)", () => {
    const capacitance = 1 / ((2 * Math.PI * 50) ** 2 * 0.01);
    const elements = resonant.elements.map((element) => {
      if (element.kind === "inductor") return { ...element, value: "10 mH" };
      if (element.kind === "capacitor") return { ...element, value: `${capacitance.toFixed(19)} F` };
      return { ...element, omega: undefined, frequency: "50 Hz" };
    });
    const { isSolved, problems } = solveCircuit(circuitOf(JSON.parse(JSON.stringify({ ...resonant, elements }))));
    // In doubles the two susceptances differ by a unit of the last place or not at all; what is left means nothing.
    expect(isSolved).toBe(false);
    expect(problems.map(({ code }) => code)).toEqual(["singularEquations"]);
  });

  it("is answered 1 % away from resonance, with a current 100 times the source's", () => {
    const elements = resonant.elements.map((element) =>
      element.kind === "capacitor" ? { ...element, value: "505 µF" } : element,
    );
    const [set] = solutionOf({ ...resonant, elements }).sinusoids;
    // Y = j(ωC − 1/(ωL)) = j(0.505 − 0.5) S = j0.005 S; V = 1/Y = −j200 V; through the inductor V/(j2 Ω) = −100 A.
    expect(set?.total.branchCurrent(1).re).toBeCloseTo(-100, 9);
    expect(set?.total.branchCurrent(1).im).toBeCloseTo(0, 9);
  });
});
