import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Circuit, NodeId, Wanted } from "../../shared/circuit";
import { terminalsOf } from "../../shared/circuit";
import { powerTableOf, WORKING_LIMIT, workingsOf, workingText } from "../../shared/derive";
import { wildCircuits } from "../generators/wild";
import { circuitOf } from "../solve/solved";

type Json = { readonly elements: readonly object[]; readonly reference: string; readonly wanted: readonly object[] };

/** Sources behind a resistance each, around a ring with chords: nothing in it is in series or in parallel. */
function ring(sources: number, wantedCount: number): Json {
  const elements = Array.from({ length: sources }, (_, i) => [
    { id: `V${i}`, kind: "voltage-source", nodes: [`s${i}`, "0"], value: `${i + 1}` },
    { id: `Ra${i}`, kind: "resistor", nodes: [`s${i}`, `n${i}`], value: "1k" },
    { id: `Rb${i}`, kind: "resistor", nodes: [`n${i}`, `n${(i + 1) % sources}`], value: "2k" },
    { id: `Rc${i}`, kind: "resistor", nodes: [`n${i}`, `n${(i + 3) % sources}`], value: "3k" },
  ]);
  const wanted = Array.from({ length: wantedCount }, (_, i) => ({
    name: `Vx${i}`,
    quantity: "voltage",
    at: `n${i % sources}`,
  }));
  return { elements: elements.flat(), reference: "0", wanted };
}

describe("a board beyond the limit of what is worked out line by line", () => {
  it("has answers and says of each card that it has no lines", () => {
    const json = ring(60, 3);
    expect(json.elements.length).toBeGreaterThan(WORKING_LIMIT.parts);
    const workings = workingsOf(circuitOf(json as never));
    expect(workings).toHaveLength(3);
    for (const { addends, total, secondMethods, faults } of workings) {
      expect(addends).toHaveLength(60);
      for (const { derivation } of [...addends, { derivation: total }]) {
        expect(derivation).toEqual({ lines: [], sketches: [], result: null, omitted: "too large" });
      }
      expect([secondMethods, faults]).toEqual([[], []]);
    }
    expect(workingText(workings[0] as never)).toContain("too large to be written out");
  });

  it("has lines up to a number in all, and none for what is asked after that", () => {
    const workings = workingsOf(circuitOf(ring(12, 40) as never));
    const derivations = workings.flatMap(({ addends, total }) => [...addends.map((each) => each.derivation), total]);
    const lines = derivations.reduce((count, { lines: own }) => count + own.length, 0);
    expect(lines).toBeGreaterThan(WORKING_LIMIT.lines / 2);
    expect(lines).toBeLessThan(WORKING_LIMIT.lines + 100);
    expect(derivations.at(-1)?.omitted).toBe("too large");
    expect(derivations[0]?.omitted).toBeNull();
  });

  it("says of a method with too many unknowns that it is not written out", () => {
    // Eighteen nodes in a ring that no source holds.
    const elements = Array.from({ length: 18 }, (_, i) => [
      { id: `Ra${i}`, kind: "resistor", nodes: [`n${i}`, `n${(i + 1) % 18}`], value: "1k" },
      { id: `Rb${i}`, kind: "resistor", nodes: [`n${i}`, `n${(i + 2) % 18}`], value: "1k" },
    ]).flat();
    const drive = { id: "I1", kind: "current-source", nodes: ["0", "n0"], value: "1 mA" };
    const back = { id: "Rg", kind: "resistor", nodes: ["n9", "0"], value: "1k" };
    const wanted = [{ name: "Vx", quantity: "voltage", at: "n4" }];
    const [working] = workingsOf(circuitOf({ elements: [...elements, drive, back], reference: "0", wanted } as never));
    expect(working?.addends[0]?.derivation.omitted).toBe("too large");
    const nodal = working?.secondMethods.find(({ method }) => method === "nodal analysis");
    expect(nodal).toEqual({
      method: "nodal analysis",
      reason: "The circuit is too large for this to be written out.",
      derivation: null,
      agrees: null,
    });
  });
});

/** Everything that can be asked of a circuit: two nodes as a port, each part's current and power. */
function everything({ parts }: Circuit): readonly Wanted[] {
  const nodes = [...new Set(parts.flatMap((part) => terminalsOf(part).map(({ node }) => node)))];
  const [from, to] = [nodes[0] as NodeId, nodes.at(-1) as NodeId];
  const kinds = [
    "voltage",
    "open-circuit-voltage",
    "short-circuit-current",
    "thevenin",
    "norton",
    "resistance",
  ] as const;
  const ports = [...kinds, "maximum-power-load" as const].map((kind): Wanted => ({ kind, name: null, from, to }));
  const each = parts.flatMap(({ id }): Wanted[] => [
    { kind: "power", name: null, of: id },
    { kind: "current", name: null, through: id, winding: "primary", direction: "backward" },
  ]);
  return from === to ? each : [...ports, ...each];
}

it("whatever is thrown together has workings without faults, and a power table, or none", { timeout: 240_000 }, () =>
  fc.assert(
    fc.property(wildCircuits(), (json) => {
      const bare = circuitOf(json);
      const circuit = { ...bare, wanted: everything(bare) };
      for (const { faults, wanted } of workingsOf(circuit)) expect([wanted, faults]).toEqual([wanted, []]);
      powerTableOf(circuit);
    }),
    { numRuns: Number(process.env.WILD_CIRCUITS ?? "300") },
  ),
);
