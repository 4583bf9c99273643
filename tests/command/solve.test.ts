import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { runSolve } from "../../server/command/solve";
import type { Report } from "../../shared/solve";

// V1 drives 6 V through 1 kΩ to a; I1 drives 3 mA into a; 2 kΩ from a to the reference. By hand:
// V1 alone: 6 V / 3 kΩ = 2 mA; I1 alone: 3 mA · 1/(1 + 2) = 1 mA; together 3 mA, and V(a) = 6 V.
const CIRCUIT = {
  elements: [
    { id: "V1", kind: "voltage-source", nodes: ["s", "0"], value: "6 V" },
    { id: "R1", kind: "resistor", nodes: ["s", "a"], value: "1k" },
    { id: "R2", kind: "resistor", nodes: ["a", "0"], value: "2k" },
    { id: "I1", kind: "current-source", nodes: ["0", "a"], value: "3 mA" },
  ],
  reference: "0",
  wanted: [
    { quantity: "current", name: "Iq", through: "R2", from: "a", to: "0" },
    { quantity: "power", name: "Pq", through: "R2" },
  ],
};

const folder = mkdtempSync(join(tmpdir(), "addend-solve-"));
afterAll(() => rmSync(folder, { recursive: true }));

function fileOf(content: unknown): string {
  const path = join(folder, `${readdirSync(folder).length}.json`);
  writeFileSync(path, typeof content === "string" || content instanceof Uint8Array ? content : JSON.stringify(content));
  return path;
}

function run(...args: string[]): { code: number; out: string; complaint: string } {
  let out = "";
  let complaint = "";
  const code = runSolve(
    args,
    (text) => {
      out += text;
    },
    (text) => {
      complaint += text;
    },
  );
  return { code, out, complaint };
}

describe("npm run solve", () => {
  it("prints the addends as a table, the total, the second method, voltages, currents, powers and their balance", () => {
    expect(run(fileOf(CIRCUIT))).toEqual({
      code: 0,
      complaint: "",
      out: `Iq: current through R2 from a to 0
  acting    coefficient × source  addend
  V1 alone  1/3 mS × 6 V          = 2 mA
  I1 alone  1/3 × 3 mA            = 1 mA
  total                           = 3 mA
  second method, loop analysis: = 3 mA, agrees

Pq: power absorbed by R2
  total = 18 mW
  second method, loop analysis: = 18 mW, agrees
  Power has no addends: it is a product of a voltage and a current that are both sums. R2 would absorb 8 mW with V1 alone and 2 mW with I1 alone. These add up to 10 mW, but with all sources on it absorbs 18 mW.

node           voltage
0 (reference)  = 0 V
s              = 6 V
a              = 6 V

part  from → to  voltage  current  power
V1    s → 0      = 6 V    = 0 A    = 0 W
R1    s → a      = 0 V    = 0 A    = 0 W
R2    a → 0      = 6 V    = 3 mA   = 18 mW
I1    0 → a      = −6 V   = 3 mA   = −18 mW

power supplied = 18 mW, absorbed = 18 mW, difference = 0 W
`,
    });
  });

  it("gives the whole solution as JSON", () => {
    const { code, out } = run(fileOf(CIRCUIT), "--json");
    const report: Report = JSON.parse(out);
    expect(code).toBe(0);
    expect(report.wanted[0]).toMatchObject({
      name: "Iq",
      unit: "A",
      total: { exact: "3/1000", decimal: 0.003, text: "3 mA", mark: "=" },
      addends: [
        { sources: ["V1"], value: { exact: "1/500", text: "2 mA" } },
        { sources: ["I1"], value: { exact: "1/1000", text: "1 mA" } },
      ],
      secondMethod: { agrees: true },
    });
    expect(report.nodes.map(({ node, voltage }) => [node, voltage?.exact])).toEqual([
      ["0", "0"],
      ["s", "6"],
      ["a", "6"],
    ]);
    expect(report.parts.map(({ part, current, power }) => [part, current?.exact, power?.exact])).toEqual([
      ["V1", "0", "0"],
      ["R1", "0", "0"],
      ["R2", "3/1000", "9/500"],
      ["I1", "3/1000", "-9/500"],
    ]);
    expect(report.problems).toEqual([]);
  });

  it("prints groups of sources below the total, and has them in JSON with every voltage and current", () => {
    // V2 of 3 V in place of a wire below R2: V2 alone drives −3 V / 3 kΩ = −1 mA from a to 0.
    const [v1, r1, r2, i1] = CIRCUIT.elements;
    const elements = [v1, r1, { ...r2, nodes: ["a", "t"] }, i1];
    const v2 = { id: "V2", kind: "voltage-source", nodes: ["t", "0"], value: "3 V" };
    const wanted = [{ quantity: "current", name: "Iq", through: "R2", from: "a", to: "t" }];
    const groups = [{ sources: ["V1", "V2"] }, { sources: ["V2", "I1"] }];
    const file = fileOf({ ...CIRCUIT, elements: [...elements, v2], wanted, groups });
    expect(run(file).out).toContain(`  acting           coefficient × source  addend
  V1 alone         1/3 mS × 6 V          = 2 mA
  I1 alone         1/3 × 3 mA            = 1 mA
  V2 alone         −1/3 mS × 3 V         = −1 mA
  total                                  = 2 mA
  V1, V2 together                        = 1 mA
  V2, I1 together                        = 0 A
`);
    const report: Report = JSON.parse(run(file, "--json").out);
    expect(report.wanted[0]?.addends.map(({ sources, value }) => [sources.join("+"), value.exact])).toEqual([
      ["V1", "1/500"],
      ["I1", "1/1000"],
      ["V2", "-1/1000"],
      ["V1+V2", "1/1000"],
      ["V2+I1", "0"],
    ]);
    expect(report.partials.map(({ sources }) => sources.join("+"))).toEqual(["V1", "I1", "V2", "V1+V2", "V2+I1"]);
  });

  it("prints the lines that lead to each answer where the working is asked for", () => {
    const { code, out } = run(fileOf(CIRCUIT), "--working");
    expect(code).toBe(0);
    expect(out).toContain(`Iq, line by line
  V1 alone
    1. Let V1 act alone: I1 becomes an open (0 A).
    2. Ohm's law for R1 and R2 in series.
       Iq′ = V1/(R1 + R2) = 6 V/(1 kΩ + 2 kΩ) = 2 mA
  I1 alone
    1. Let I1 act alone: V1 becomes a short (0 V).
    2. The current splits between R2 and R1: each gets the share of the other's resistance.
       Iq″ = I1 · R1/(R2 + R1) = 3 mA · 1 kΩ/(2 kΩ + 1 kΩ) = 1 mA
  total
    1. Add the addends, each with its sign.
       Iq = Iq′ + Iq″ = 2 mA + 1 mA = 3 mA
`);
  });

  it("gives the working as JSON beside the solution", () => {
    const { out } = run(fileOf(CIRCUIT), "--working", "--json");
    const { workings } = JSON.parse(out);
    expect(workings.map(({ wanted, faults }: { wanted: string; faults: unknown[] }) => [wanted, faults])).toEqual([
      ["Iq", []],
      ["Pq", []],
    ]);
  });

  it("shows as many figures as are asked for, and says whether the decimal is the number", () => {
    const third = { ...CIRCUIT, wanted: [{ quantity: "resistance", from: "a", to: "0" }] };
    // 1 kΩ ∥ 2 kΩ = 2/3 kΩ
    expect(run(fileOf(third), "--digits", "6").out).toContain("total ≈ 666.667 Ω (2000/3 Ω)");
  });

  it("ends with 1 where there are problems, and says them", () => {
    const conflict = {
      ...CIRCUIT,
      elements: [...CIRCUIT.elements, { ...CIRCUIT.elements[0], id: "V2", value: "5 V" }],
    };
    const { code, out } = run(fileOf(conflict));
    expect(code).toBe(1);
    expect(out).toContain("Iq: current through R2\n  no answer; see the problems below");
    expect(out).toContain("Problem: V1 and V2 form a loop whose voltages add up to 1 V instead of 0 V.");
  });

  it("ends with 0 where something is only said", () => {
    const loose = {
      ...CIRCUIT,
      elements: [...CIRCUIT.elements, { id: "R3", kind: "resistor", nodes: ["a", "z"], value: "1" }],
    };
    const { code, out } = run(fileOf(loose));
    expect(code).toBe(0);
    expect(out).toContain("Note: R3 has a loose end at node z");
  });

  it("ends with 2 and says each place where a file cannot be read", () => {
    const wrong = { ...CIRCUIT, elements: CIRCUIT.elements.map((each) => ({ ...each, value: "5 mA" })) };
    const path = fileOf(wrong);
    const { code, out, complaint } = run(path);
    expect([code, out]).toEqual([2, ""]);
    expect(complaint.split("\n").filter((line) => line.startsWith(`${path}: elements[`))).toHaveLength(3);
  });

  it.each([
    ["no such file", () => join(folder, "none.json"), "there is no such file."],
    ["a folder", () => folder, "this is a folder, not a file."],
    ["bytes that are no text", () => fileOf(new Uint8Array([0xff, 0xfe, 0x00, 0xd8])), "the file is not UTF-8 text."],
  ])("ends with 2 for %s", (_title, pathOf, reason) => {
    const path = pathOf();
    expect(run(path)).toEqual({ code: 2, out: "", complaint: `${path}: ${reason}\n` });
  });

  it.each([
    [[], "Name the file of a circuit."],
    [["a.json", "b.json"], 'One file at a time, please: "b.json" is one too many.'],
    [["a.json", "--digits", "0"], '--digits takes a whole number from 1 to 15, not "0".'],
    [["a.json", "--fast"], "--fast"],
  ])("says how it is used for %j", (args, sentence) => {
    const { code, complaint } = run(...args);
    expect(code).toBe(2);
    expect(complaint).toContain(sentence);
    expect(complaint).toContain("Usage: npm run solve -- FILE.json");
  });

  it("reads standard input as a process of its own, and ends with the code", () => {
    const solve = (input: string) =>
      spawnSync(process.execPath, ["--import", "tsx", "server/command/solve.ts", "-", "--json"], {
        input,
        encoding: "utf8",
      });
    const good = solve(JSON.stringify(CIRCUIT));
    expect(good.status).toBe(0);
    expect(JSON.parse(good.stdout).wanted[0].total.text).toBe("3 mA");
    const bad = solve("{");
    expect(bad.status).toBe(2);
    expect(bad.stderr).toContain("standard input: ");
  });
});

describe("the published examples", () => {
  const entries: readonly { id: string; topic: string }[] = JSON.parse(
    readFileSync("tests/published/published-examples.json", "utf8"),
  );

  it.each(entries.map((entry) => [entry.id, entry] as const))("%s goes through the command as it is", (_id, entry) => {
    const { code, complaint } = run(fileOf(entry));
    // Changes in time are read and refused; everything else is answered.
    expect([code, complaint]).toEqual([entry.topic === "transient-first-order" ? 1 : 0, ""]);
  });
});
