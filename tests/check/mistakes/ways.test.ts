import { abs, type Complex, complex, type Fraction, subtract } from "mathjs";
import { describe, expect, it } from "vitest";
import { dcNetwork, phasorNetwork } from "../../independent/tableau";
import { Dice, seedOf } from "./ways/dice";
import { fileOf } from "./ways/fileOf";
import { meshCurrents, meshedCircuit, walksOf } from "./ways/meshes";
import { omegaOf, type Question, sourcesOf } from "./ways/question";
import { solvedAt } from "./ways/solved";
import { constantCircuit, sinusoidalCircuit } from "./ways/way";
import { written } from "./ways/written";

const questionOf = ({ branches }: Pick<Question, "branches">): Question => ({
  branches,
  asked: { quantity: "voltage", from: "a", to: "0" },
  grouping: [],
  acting: null,
  measure: "peak",
});

describe("the equations that wrong values are found by", () => {
  it("give the tableau's currents on circuits of constants, dependent sources included", () => {
    for (let n = 0; n < 12; n++) {
      const dice = new Dice(seedOf("constants", n));
      const book = constantCircuit(dice, {
        include: [dice.pick(["vcvs", "vccs", "ccvs", "cccs", "resistor"] as const)],
      });
      const sources = sourcesOf(book.branches);
      const solved = solvedAt(book.branches, 0, sources);
      const answer = dcNetwork(fileOf(questionOf(book)))?.answer(sources);
      if (!solved || !answer) throw new Error(`no solution of ${n}`);
      for (const { id } of book.branches) {
        expect(solved.current(id).re).toBeCloseTo((answer.current(id) as Fraction).valueOf(), 9);
      }
    }
  });

  it("give the tableau's currents on circuits of one frequency", () => {
    for (let n = 0; n < 12; n++) {
      const book = sinusoidalCircuit(new Dice(seedOf("sinusoids", n)));
      const sources = sourcesOf(book.branches);
      const omega = omegaOf(book.branches, sources[0] ?? "");
      const solved = solvedAt(book.branches, omega, sources);
      const answer = phasorNetwork(fileOf(questionOf(book)), omega)?.answer(sources);
      if (!solved || !answer) throw new Error(`no solution of ${n}`);
      for (const { id } of book.branches) {
        const { re, im } = solved.current(id);
        const apart = Number(abs(subtract(answer.current(id) as Complex, complex(re, im)) as Complex));
        expect(apart).toBeLessThan(1e-9);
      }
    }
  });

  it("give the same branch currents by meshes as by nodes", () => {
    for (let n = 0; n < 20; n++) {
      const meshed = meshedCircuit(new Dice(seedOf("meshes", n)));
      const sources = sourcesOf(meshed.branches);
      const byNodes = solvedAt(meshed.branches, 0, sources);
      const byMeshes = meshCurrents(meshed, sources);
      if (!byNodes || !byMeshes) throw new Error(`no solution of ${n}`);
      for (const { id } of meshed.branches) {
        const around = walksOf(meshed, id).map(({ mesh, sign }) => sign * (byMeshes[mesh] ?? 0));
        expect(around.reduce((sum, current) => sum + current, 0)).toBeCloseTo(byNodes.current(id).re, 9);
      }
    }
  });

  // 10 V behind 4 kΩ and 7 kΩ, and 5 mA into the node between: (10/4 + 5) mA / (1/4 + 1/7) mS = 210/11 V.
  it("give a node voltage as it is worked by hand, and another with one term of the law turned", () => {
    const branches = [
      { id: "V1", from: "p", to: "0", law: { kind: "voltage-source", wave: { peak: 10, degrees: 0, omega: 0 } } },
      { id: "R1", from: "p", to: "a", law: { kind: "resistor", ohms: 4000 } },
      { id: "R2", from: "a", to: "0", law: { kind: "resistor", ohms: 7000 } },
      { id: "I1", from: "0", to: "a", law: { kind: "current-source", wave: { peak: 0.005, degrees: 0, omega: 0 } } },
    ] as const;
    expect(solvedAt(branches, 0, ["V1", "I1"])?.between("a", "0").re).toBeCloseTo(210 / 11, 9);
    // (Va − 10)/4 − Va/7 = 5: Va = 7.5 / (3/28) = 70 V.
    const turned = solvedAt(branches, 0, ["V1", "I1"], (node, { id }) =>
      node === "a" && id === "R2" ? "turned" : "asItIs",
    );
    expect(turned?.between("a", "0").re).toBeCloseTo(70, 9);
  });
});

describe("what a learner is taken to write", () => {
  it("is a rounded number with prefix and unit", () => {
    const number = (x: number, unit: string) =>
      written(new Map([[0, { re: x, im: 0 }]]), unit, { figures: 3, form: "number" });
    expect(number(-0.00181818, "A")).toBe("-1.82 mA");
    expect(number(4725, "Ω")).toBe("4.72 kΩ");
    expect(number(0.0009996, "A")).toBe("1.00 mA");
    expect(number(0, "V")).toBe("0 V");
  });

  it("is a phasor in polar form, or a function of time", () => {
    const value = new Map([[1000, { re: 0.75, im: -1 }]]);
    expect(written(value, "A", { figures: 3, form: "phasor" })).toBe("1.25∠-53.1° A");
    expect(written(value, "A", { figures: 4, form: "time" })).toBe("1.250 cos(1000 t - 53.13°) A");
  });
});
