import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { exact, isSource } from "../independent/elements";
import { dcNetwork, omegasOf, phasorNetwork, sourcesOf } from "../independent/tableau";
import { circuits, EVERY_PART, RESISTORS_AND_SOURCES } from "./circuits";
import { sinusoidalCircuits } from "./sinusoids";

// The laws are only as good as the circuits they are tried on.

describe("random circuits", { timeout: 60_000 }, () => {
  it("of resistors and sources always have exactly one solution", () =>
    fc.assert(
      fc.property(circuits(RESISTORS_AND_SOURCES), (circuit) => dcNetwork(circuit) !== null),
      { numRuns: 40 },
    ));

  it("of every kind of part mostly have one; the rest are singular through gains or feedback", () => {
    const sample = fc.sample(circuits(EVERY_PART), { numRuns: 60, seed: 1 });
    const solvable = sample.filter((circuit) => dcNetwork(circuit) !== null);
    expect(solvable.length).toBeGreaterThan(45);
  });

  it("hold 1 to 4 sources and every kind of part of DC within 60 circuits", () => {
    const sample = fc.sample(circuits(EVERY_PART), { numRuns: 60, seed: 1 });
    const counts = sample.map(({ elements }) => elements.filter(isSource).length);
    expect([Math.min(...counts), Math.max(...counts)]).toEqual([1, 4]);
    const kinds = new Set(sample.flatMap(({ elements }) => elements.map((element) => element.kind)));
    const dependent = ["vcvs", "vccs", "ccvs", "cccs"];
    const ideal = ["ideal-opamp", "ideal-transformer", "switch", "wire"];
    expect(kinds).toEqual(new Set(["resistor", "voltage-source", "current-source", ...dependent, ...ideal]));
  });

  it("are printed as JSON that can be pasted into a file", () => {
    const [circuit] = fc.sample(circuits(RESISTORS_AND_SOURCES), { numRuns: 1, seed: 2 });
    expect(JSON.parse(fc.stringify(circuit))).toEqual(JSON.parse(JSON.stringify(circuit)));
  });

  it("shrink to the smallest circuit that still fails", () => {
    const hasCurrent = fc.property(
      circuits(EVERY_PART),
      ({ elements }) => !elements.some((element) => element.kind === "current-source"),
    );
    const { counterexample } = fc.check(hasCurrent, { seed: 3 });
    expect(counterexample?.[0].elements.map((element) => element.kind)).toEqual(["resistor", "current-source"]);
  });
});

it("random circuits with reactances have one solution at every frequency and at DC", { timeout: 60_000 }, () =>
  fc.assert(
    fc.property(sinusoidalCircuits(), (circuit) => {
      const acting = sourcesOf(circuit);
      for (const omega of omegasOf(circuit)) {
        if (omega === 0) expect(exact.isZero(dcNetwork(circuit)?.answer(acting).node("0") ?? 1)).toBe(true);
        else expect(phasorNetwork(circuit, omega)?.answer(acting)).toBeDefined();
      }
    }),
    { numRuns: 60 },
  ),
);
