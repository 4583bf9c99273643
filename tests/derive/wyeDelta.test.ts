import { describe, expect, it } from "vitest";
import { actingOn } from "../../shared/derive/acting";
import { Notebook } from "../../shared/derive/notebook";
import { exactNumerals } from "../../shared/derive/numerals";
import { wyeDeltaRewritings } from "../../shared/derive/wyeDelta";
import { solveCircuit } from "../../shared/solve";
import { exactArithmetic } from "../../shared/solve/arithmetic";
import { circuitOf } from "../solve/solved";
import { firstLines, I, R, rulesOf, textsOf, V, workingFor } from "./workedFor";

// The bridge of the delta 3 Ω, 6 Ω, 1 Ω between t, l and r: arms 3·6/10 = 1.8 Ω, 3·1/10 = 0.3 Ω, 6·1/10 = 0.6 Ω.
// Worked by hand; common practice, no source.
const BRIDGE = [
  R("R1", "t", "l", "3"),
  R("R2", "l", "0", "1.7"),
  R("R3", "t", "r", "6"),
  R("R4", "r", "0", "2.4"),
  R("R5", "l", "r", "1"),
];

describe("conversion between wye and delta", () => {
  it("gives the resistance of a bridge where nothing is in series or in parallel", () => {
    const working = workingFor(BRIDGE, { name: "Rx", quantity: "resistance", from: "t", to: "0" });
    const { lines, sketches } = working.total;
    expect(rulesOf(lines)).toEqual(["wye-delta", "series", "series", "parallel", "series"]);
    expect(lines[0]?.sentence).toBe(
      "R1, R3 and R5 form a delta between r, l and t: turn it into a wye with its middle at y.",
    );
    // 0.3 + 1.7 = 2 Ω beside 0.6 + 2.4 = 3 Ω: 1.2 Ω, and 1.8 Ω before them.
    expect(textsOf(lines).at(-1)).toMatch(/^Rx = .* = 3 Ω$/);
    expect(lines[0]?.parts).toEqual(["R1", "R3", "R5"]);
    expect(lines[0]?.nodes).toEqual(["r", "l", "t"]);
    expect(sketches).toHaveLength(5);
  });

  // A wye of 1 Ω, 2 Ω and 3 Ω: 1·2 + 2·3 + 3·1 = 11, so the sides are 11/1, 11/2 and 11/3 Ω.
  it("goes from wye to delta too", () => {
    const parts = [
      R("R1", "a", "m", "1"),
      R("R2", "b", "m", "2"),
      R("R3", "0", "m", "3"),
      V("V1", "a", "0", "1 V"),
      V("V2", "b", "0", "1 V"),
    ];
    const elements = parts.map(([id, kind, nodes, value]) => ({ id, kind, nodes, value }));
    const solution = solveCircuit(circuitOf({ elements, reference: "0", wanted: [] } as never));
    if (solution.dc?.numbers !== "exact") throw new Error("a constant circuit");
    const numerals = exactNumerals(4);
    const acting = actingOn(solution.circuit, solution.dc, null, numerals);
    const [rewriting, ...others] = wyeDeltaRewritings(acting, { branches: [], nodes: [], ends: [0, 1] });
    const notebook = new Notebook(numerals, exactArithmetic, "test");
    rewriting?.write(notebook);
    const { lines } = notebook.derivation();
    expect([notebook.faults, others]).toEqual([[], []]);
    expect(lines[0]?.sentence).toBe("R1, R2 and R3 form a wye around m: turn it into a delta.");
    expect(textsOf(lines)).toEqual([
      "Rb0 = (R1 · R2 + R2 · R3 + R3 · R1)/R1 = (1 Ω · 2 Ω + 2 Ω · 3 Ω + 3 Ω · 1 Ω)/(1 Ω) = 11 Ω",
      "R0a = (R1 · R2 + R2 · R3 + R3 · R1)/R2 = (1 Ω · 2 Ω + 2 Ω · 3 Ω + 3 Ω · 1 Ω)/(2 Ω) = 5.5 Ω",
      "Rab = (R1 · R2 + R2 · R3 + R3 · R1)/R3 = (1 Ω · 2 Ω + 2 Ω · 3 Ω + 3 Ω · 1 Ω)/(3 Ω) ≈ 3.667 Ω (11/3 Ω)",
    ]);
  });

  it("is used for a single source where it takes fewer lines than equations", () => {
    const working = workingFor([V("V1", "s", "0", "12 V"), R("R6", "s", "t", "1"), ...BRIDGE], {
      name: "Ix",
      quantity: "current",
      through: "R6",
      from: "s",
      to: "t",
    });
    const lines = firstLines(working);
    expect(rulesOf(lines)).toEqual(["wye-delta", "series", "series", "parallel", "ohm"]);
    expect(textsOf(lines).at(-1)).toMatch(/^Ix = .* = 3 A$/);
  });

  it("is not used where equations are as short, as for the current across a bridge", () => {
    const working = workingFor([V("V1", "t", "0", "12 V"), ...BRIDGE], {
      name: "Ix",
      quantity: "current",
      through: "R5",
      from: "l",
      to: "r",
    });
    expect(rulesOf(firstLines(working))).not.toContain("wye-delta");
  });

  it("is not used where a divider does", () => {
    const working = workingFor([I("I1", "0", "t", "3 A"), ...BRIDGE.slice(0, 4)], {
      name: "Vx",
      quantity: "voltage",
      at: "l",
    });
    expect(rulesOf(firstLines(working))).not.toContain("wye-delta");
  });
});
