import { describe, expect, it } from "vitest";
import { derive, powerTableOf, workingsOf } from "../../shared/derive";
import { known, over, plus } from "../../shared/derive/expression";
import { Notebook } from "../../shared/derive/notebook";
import { exactNumerals } from "../../shared/derive/numerals";
import { EXAMPLES } from "../../shared/examples";
import { integer } from "../../shared/quantity";
import { exactArithmetic } from "../../shared/solve/arithmetic";
import { facesOf } from "../../shared/solve/planarFaces";
import { circuitOf } from "../solve/solved";
import { firstLines, I, lastText, R, rulesOf, V, workingFor } from "./workedFor";

describe("a route", () => {
  // 12 V across 1 kΩ and 2 kΩ: 8 V at the middle.
  it("is one division where a divider does", () => {
    const working = workingFor([V("V1", "a", "0", "12 V"), R("R1", "a", "b", "1k"), R("R2", "b", "0", "2k")], {
      name: "Vb",
      quantity: "voltage",
      at: "b",
    });
    expect(rulesOf(firstLines(working))).toEqual(["voltage-division"]);
    expect(lastText(firstLines(working))).toBe("Vb = V1 · R2/(R1 + R2) = 12 V · 2 kΩ/(1 kΩ + 2 kΩ) = 8 V");
  });

  // 9 mA into 1 kΩ beside 2 kΩ: 3 mA through the 2 kΩ, against the reference direction from 0 to a.
  it("ends with a line for the sign where the reference direction runs against the current", () => {
    const working = workingFor([I("I1", "0", "a", "9 mA"), R("R1", "a", "0", "1k"), R("R2", "a", "0", "2k")], {
      name: "Ix",
      quantity: "current",
      through: "R2",
      from: "0",
      to: "a",
    });
    expect(rulesOf(firstLines(working))).toEqual(["current-division", "sign"]);
    expect(lastText(firstLines(working))).toBe("Ix = −I(R2) = −3 mA");
  });

  it("leaves out what carries nothing, and says that it does", () => {
    const working = workingFor(
      [V("V1", "a", "0", "6 V"), R("R1", "a", "0", "3"), R("R2", "a", "c", "1"), R("R3", "c", "d", "1")],
      { name: "Ix", quantity: "current", through: "R1", from: "a", to: "0" },
    );
    const [first, second] = firstLines(working);
    expect(first?.rule).toEqual({ kind: "drop", shorted: [], idle: ["R2", "R3"] });
    expect(first?.sentence).toBe("R2 and R3 lie on no closed path from a source and carry no current: leave them out.");
    expect(second?.rule.kind).toBe("ohm");
  });

  // No two of the five are in series or in parallel.
  it("of a bridge is by equations that name their unknowns, with a matrix", () => {
    const bridge = [
      V("V1", "t", "0", "12 V"),
      R("R1", "t", "l", "1"),
      R("R2", "l", "0", "2"),
      R("R3", "t", "r", "2"),
      R("R4", "r", "0", "1"),
      R("R5", "l", "r", "1"),
    ];
    const working = workingFor(bridge, { name: "Ix", quantity: "current", through: "R5", from: "l", to: "r" });
    const lines = firstLines(working);
    expect(rulesOf(lines)).toEqual(["node-voltages", "node-equation", "node-equation", "solution", "ohm"]);
    const solution = lines.find(({ rule }) => rule.kind === "solution")?.rule;
    expect(solution?.kind === "solution" && solution.matrix?.latex).toContain("\\begin{bmatrix}");
    // (V(l) − 12) + V(l)/2 + (V(l) − V(r)) = 0 and (V(r) − 12)/2 + V(r) + (V(r) − V(l)) = 0: 48/7 V and 36/7 V.
    expect(lastText(lines)).toContain("≈ 1.714 A (12/7 A)");
    expect(working.secondMethods.map(({ agrees }) => agrees)).toEqual([true, true, true]);
  });
});

describe("second methods", () => {
  it("say that a circuit which no plane holds has no meshes", () => {
    const nodes = ["0", "a", "b", "c", "d"];
    const pairs = nodes.flatMap((a, i) => nodes.slice(i + 1).map((b) => [a, b] as const));
    const complete = pairs.slice(1).map(([a, b], i) => R(`R${i + 1}`, a, b, `${i + 1}`));
    const working = workingFor([V("V1", "a", "0", "5 V"), ...complete], {
      name: "Ix",
      quantity: "current",
      through: "R1",
      from: "0",
      to: "b",
    });
    const mesh = working.secondMethods.find(({ method }) => method === "mesh analysis");
    expect(mesh?.reason).toBe("The circuit cannot be drawn without crossings, so it has no meshes.");
  });

  it("take a supernode around a source between two nodes", () => {
    const parts = [V("V1", "b", "a", "3 V"), I("I1", "0", "a", "2 A"), R("R1", "a", "0", "1"), R("R2", "b", "0", "2")];
    const working = workingFor(parts, { name: "Ix", quantity: "current", through: "R2", from: "b", to: "0" });
    const nodal = working.secondMethods[0]?.derivation?.lines ?? [];
    expect(nodal.some(({ rule }) => rule.kind === "node-equation" && rule.isSupernode)).toBe(true);
    // V(a) + (V(a) + 3)/2 = 2 gives V(a) = 1/3 V, V(b) = 10/3 V: 5/3 A.
    expect(lastText(nodal)).toContain("(5/3 A)");
  });

  it("take a supermesh past a current source between two meshes", () => {
    const [working] = workingsOf(circuitOf(EXAMPLES[0]?.json as never));
    const mesh = working?.secondMethods[1]?.derivation?.lines ?? [];
    expect(mesh.some(({ rule }) => rule.kind === "mesh-equation" && rule.isSupermesh)).toBe(true);
    // shared/examples/README.md: 25 mA.
    expect(lastText(mesh)).toContain("= 25 mA");
  });
});

describe("the faces of a graph", () => {
  it("are as many as Euler's formula says, each edge walked once each way", () => {
    const cube = [
      [0, 1],
      [1, 2],
      [2, 3],
      [3, 0],
      [4, 5],
      [5, 6],
      [6, 7],
      [7, 4],
      [0, 4],
      [1, 5],
      [2, 6],
      [3, 7],
    ].map(([from, to], edge) => ({ edge, from: from as number, to: to as number }));
    const faces = facesOf(cube);
    expect(faces).toHaveLength(6);
    const walks = faces?.flat().map(({ edge, direction }) => `${edge} ${direction}`) ?? [];
    expect(new Set(walks).size).toBe(24);
  });

  it("do not exist for three houses and three wells", () => {
    const houses = [0, 1, 2].flatMap((from) => [3, 4, 5].map((to) => ({ from, to })));
    expect(facesOf(houses.map((edge, i) => ({ edge: i, ...edge })))).toBeNull();
  });
});

describe("a notebook", () => {
  it("keeps a line that does not come to the solver's value as a fault, with both numbers", () => {
    const notebook = new Notebook(exactNumerals(4), exactArithmetic, "test");
    const ohms = (n: number) => known(null, integer(n), "Ω");
    notebook.state({ rule: { kind: "ohm" }, sentence: "Wrong." }, [
      {
        left: { text: "I", latex: "I" },
        right: over(known(null, integer(6), "V"), plus(ohms(1), ohms(2))),
        unit: "A",
        expected: integer(3),
      },
    ]);
    expect(notebook.faults).toEqual([{ where: "test", line: "I", got: "2 A", expected: "3 A" }]);
  });
});

it("the power table balances, and shows that powers of addends do not add", () => {
  // 6 V and 3 V face each other over 1 Ω + 2 Ω: 1 A; 1 W and 2 W absorbed, 3 W by the 3 V source, 6 W supplied.
  const circuit = circuitOf({
    elements: [
      { id: "V1", kind: "voltage-source", nodes: ["a", "0"], value: "6 V" },
      { id: "R1", kind: "resistor", nodes: ["a", "b"], value: "1" },
      { id: "R2", kind: "resistor", nodes: ["b", "c"], value: "2" },
      { id: "V2", kind: "voltage-source", nodes: ["c", "0"], value: "3 V" },
    ],
    reference: "0",
    wanted: [],
  } as never);
  const table = powerTableOf(circuit);
  expect(table?.rows.map(({ part, power, does }) => [part, power.text, does])).toEqual([
    ["V1", "−6 W", "supplies"],
    ["R1", "1 W", "absorbs"],
    ["R2", "2 W", "absorbs"],
    ["V2", "3 W", "absorbs"],
  ]);
  expect([table?.supplied.text, table?.absorbed.text, table?.difference.text]).toEqual(["6 W", "6 W", "0 W"]);
  // Alone 2 A and 1 A: 4 W + 1 W in R1.
  expect([table?.rows[1]?.sumOfAlone?.text, table?.rows[1]?.doesSumAgree]).toEqual(["5 W", false]);
});

it("one addend or the total can be asked for alone, as plain JSON", () => {
  const circuit = circuitOf({
    elements: [
      { id: "V1", kind: "voltage-source", nodes: ["a", "0"], value: "6 V" },
      { id: "R1", kind: "resistor", nodes: ["a", "b"], value: "1k" },
      { id: "R2", kind: "resistor", nodes: ["b", "0"], value: "2k" },
      { id: "I1", kind: "current-source", nodes: ["0", "b"], value: "3 mA" },
    ],
    reference: "0",
    wanted: [{ name: "Iq", quantity: "current", through: "R2", from: "b", to: "0" }],
  } as never);
  const [wanted] = circuit.wanted;
  const [source] = circuit.parts;
  if (wanted === undefined || source === undefined) throw new Error("the circuit is ours");
  const addend = derive(circuit, wanted, [source.id]);
  expect(addend?.result?.text).toBe("2 mA");
  expect(derive(circuit, wanted, null)?.result?.text).toBe("3 mA");
  expect(JSON.parse(JSON.stringify(addend))).toEqual(addend);
});
