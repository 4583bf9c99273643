import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type Rule, workingsOf, workingText } from "../../shared/derive";
import { EXAMPLES } from "../../shared/examples";
import { steadyExamples } from "../published/examples";
import { circuitOf } from "../solve/solved";
import { GOLDEN_CIRCUITS, type GoldenCircuit } from "./goldenCircuits";

// The whole text of eighteen circuits, kept as files that people have read line by line. After a change on purpose:
// `UPDATE_GOLDEN=1 npx vitest run tests/derive/golden.test.ts`, then read what has changed.

const FOLDER = new URL("./golden/", import.meta.url);
const PUBLISHED = ["e84-bridge-18v-a", "ca-supermesh-3"];
const CIRCUITS: readonly GoldenCircuit[] = [
  ...EXAMPLES.map(({ id, json }) => ({ id, json })),
  ...steadyExamples.filter(({ id }) => PUBLISHED.includes(id)).map((json) => ({ id: json.id, json })),
  ...GOLDEN_CIRCUITS,
];

describe("the working of", () => {
  it.each(CIRCUITS)("$id reads as it was reviewed", ({ id, json, groups }) => {
    const text = workingsOf(circuitOf(json as never), groups === undefined ? {} : { groups })
      .map(workingText)
      .join("\n");
    const path = new URL(`${id}.txt`, FOLDER);
    if (process.env.UPDATE_GOLDEN === "1" || !existsSync(path)) {
      if (process.env.UPDATE_GOLDEN !== "1") throw new Error(`${id}.txt is missing`);
      mkdirSync(FOLDER, { recursive: true });
      writeFileSync(path, text);
    }
    expect(text).toBe(readFileSync(path, "utf8"));
  });
});

/** Every rule there is: the compiler asks for those that are new. */
const RULES: Readonly<Record<Rule["kind"], true>> = {
  "zero-sources": true,
  "steady-state": true,
  drop: true,
  phasors: true,
  series: true,
  parallel: true,
  "wye-delta": true,
  "add-sources": true,
  referral: true,
  "source-transformation": true,
  ohm: true,
  "voltage-division": true,
  "current-division": true,
  "current-law": true,
  "voltage-law": true,
  "same-current": true,
  "same-voltage": true,
  "nothing-flows": true,
  sign: true,
  "op-amp": true,
  "node-voltages": true,
  "mesh-currents": true,
  control: true,
  "node-equation": true,
  "mesh-equation": true,
  constraint: true,
  solution: true,
  "take-out": true,
  "test-source": true,
  equivalent: true,
  "sum-of-addends": true,
  "sum-in-time": true,
  power: true,
};

it("every rule occurs in one of these texts", () => {
  const found = new Set<string>();
  for (const { json, groups } of CIRCUITS) {
    for (const { addends, total, secondMethods } of workingsOf(circuitOf(json as never), groups ? { groups } : {})) {
      const derivations = [...addends, ...secondMethods].map(({ derivation }) => derivation);
      for (const derivation of [...derivations, total]) {
        for (const { rule } of derivation?.lines ?? []) found.add(rule.kind);
      }
    }
  }
  expect(Object.keys(RULES).filter((rule) => !found.has(rule))).toEqual([]);
});
