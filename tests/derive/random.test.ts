import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Derivation, type Working, workingsOf } from "../../shared/derive";
import { eachAlone, solveReport } from "../../shared/solve";
import { type CircuitJson, circuits, EVERY_PART, RESISTORS_AND_SOURCES } from "../generators/circuits";
import { sinusoidalCircuits } from "../generators/sinusoids";
import { isSource } from "../independent/elements";
import { circuitOf } from "../solve/solved";
import { isSeriesParallel } from "./seriesParallel";

// `WORKED_CIRCUITS=300 npx vitest run tests/derive/random.test.ts` for a quicker look.
const CIRCUITS = Number(process.env.WORKED_CIRCUITS ?? "5000");
const LONG = { timeout: 1_200_000 };

const WITH_DEPENDENT = { ...RESISTORS_AND_SOURCES, dependentSources: true };

/** Lines and values that every working must have, whatever the circuit. */
function expectWhole(json: CircuitJson): readonly Working[] {
  const circuit = circuitOf(json);
  const workings = workingsOf(circuit);
  const report = solveReport(circuit);
  const answered = report.wanted.filter(({ total }) => total !== null);
  expect(workings.map(({ wanted }) => wanted)).toEqual(answered.map(({ name }) => name));
  for (const [place, working] of workings.entries()) {
    expect(working.faults).toEqual([]);
    const wanted = answered[place];
    expect(working.total.lines.at(-1)?.equations.at(-1)?.result?.text).toBe(wanted?.total?.text);
    expect(working.total.result?.exact).toBe(wanted?.total?.exact);
    for (const [index, { derivation }] of working.addends.entries()) {
      expectLines(derivation);
      if (working.kind === "power") continue;
      expect(derivation.result?.exact).toBe(wanted?.addends[index]?.value.exact);
    }
    for (const { derivation } of working.secondMethods) if (derivation !== null) expectLines(derivation);
  }
  return workings;
}

/** A line says a sentence, and speaks of no part that an earlier line has left out. */
function expectLines({ lines }: Derivation): void {
  const dropped = new Set<string>();
  expect(lines.length).toBeGreaterThan(0);
  for (const { rule, sentence, parts } of lines) {
    expect(sentence).toMatch(/^.{8,}\.$/);
    // A zero of a part that is out is the one thing that can be said of it; a new circuit begins with its own zeroing.
    if (rule.kind === "zero-sources") dropped.clear();
    if (rule.kind !== "nothing-flows") expect(parts.filter((part) => dropped.has(part))).toEqual([]);
    if (rule.kind === "drop") for (const part of [...rule.shorted, ...rule.idle]) dropped.add(part);
  }
}

const EQUATIONS = ["node-voltages", "node-equation", "mesh-currents", "mesh-equation", "solution"];

describe("random circuits of resistors, one to four sources", () => {
  it(
    "have a whole working, each line equal to the solver's value; no equations where all is series and parallel",
    LONG,
    () =>
      fc.assert(
        fc.property(circuits(RESISTORS_AND_SOURCES, 10), (json) => {
          for (const { addends, kind } of expectWhole(json)) {
            if (kind === "power") continue;
            for (const { sources, derivation } of addends) {
              if (!isSeriesParallel(json.elements, sources[0] ?? "")) continue;
              expect(derivation.lines.filter(({ rule }) => EQUATIONS.includes(rule.kind))).toEqual([]);
            }
          }
        }),
        { numRuns: CIRCUITS / 2 },
      ),
  );

  it("have one with dependent sources too", LONG, () =>
    fc.assert(
      fc.property(circuits(WITH_DEPENDENT, 10), (json) => void expectWhole(json)),
      { numRuns: CIRCUITS / 2 },
    ),
  );
});

it("random circuits have a working with all sources in one group, or in two, and it comes to the same", LONG, () =>
  fc.assert(
    fc.property(fc.oneof(circuits(WITH_DEPENDENT, 8), circuits(EVERY_PART, 8)), fc.nat({ max: 3 }), (json, split) => {
      const circuit = circuitOf(json);
      const sources = eachAlone(circuit).flat();
      const groups = [sources.slice(0, split), sources.slice(split)].filter((group) => group.length > 0);
      const report = solveReport(circuit, { groups });
      const answered = report.wanted.filter(({ total }) => total !== null);
      for (const [place, { faults, addends, kind }] of workingsOf(circuit, { groups }).entries()) {
        expect(faults).toEqual([]);
        for (const [index, { derivation }] of addends.entries()) {
          expectLines(derivation);
          if (kind === "power") continue;
          expect(derivation.result?.exact).toBe(answered[place]?.addends[index]?.value.exact);
        }
      }
    }),
    { numRuns: CIRCUITS / 10 },
  ),
);

it("random circuits with op amps, transformers, switches and wires have a whole working", LONG, () =>
  fc.assert(
    fc.property(circuits(EVERY_PART, 8), (json) => void expectWhole(json)),
    { numRuns: CIRCUITS / 10 },
  ),
);

it("random sinusoidal circuits have a working without faults", LONG, () =>
  fc.assert(
    fc.property(sinusoidalCircuits(), (json) => {
      for (const { faults, total } of workingsOf(circuitOf(json))) {
        expect(faults).toEqual([]);
        expect(total.lines.length).toBeGreaterThan(0);
      }
    }),
    { numRuns: CIRCUITS / 10 },
  ),
);

it("the series-parallel test of these tests tells a bridge from a ladder", () => {
  const part = (id: string, kind: string, a: string, b: string) => ({ id, kind, nodes: [a, b], value: "1" });
  const ladder = [
    part("V1", "voltage-source", "a", "0"),
    part("R1", "resistor", "a", "b"),
    part("R2", "resistor", "b", "0"),
    part("R3", "resistor", "b", "c"),
    part("R4", "resistor", "c", "0"),
  ];
  expect(isSeriesParallel(ladder, "V1")).toBe(true);
  expect(isSeriesParallel([...ladder, part("R5", "resistor", "a", "c")], "V1")).toBe(false);
  expect(ladder.filter(isSource)).toHaveLength(1);
});
