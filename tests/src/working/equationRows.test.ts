import { describe, expect, it } from "vitest";
import type { Equation } from "../../../shared/derive";
import type { EquationOrder } from "../../../src/settings";
import { equationRows, rowMath } from "../../../src/working/equationRows";
import { equation, math, shown } from "./workings";

const textOf = (of: Equation, order: EquationOrder) =>
  equationRows(of, order).map((row) => [row.role, rowMath(row).text]);

describe("an equation, symbols first", () => {
  it("is one chain from the symbol to the result", () =>
    expect(textOf(equation(), "symbols")).toEqual([["main", "Iy′ = V1/R1 = 12 V/(4 Ω) = 3 A"]]));

  it("marks rounded numbers and rounded results, with a short exact fraction behind", () =>
    expect(
      textOf(equation({ numbersMark: "≈", result: shown("1.333 A", { mark: "≈", exact: "-4/3" }) }), "symbols"),
    ).toEqual([["main", "Iy′ = V1/R1 ≈ 12 V/(4 Ω) ≈ 1.333 A (−4/3 A)"]]));

  it("leaves a long fraction out", () =>
    expect(
      textOf(equation({ result: shown("1.3 A", { mark: "≈", exact: "123456789/94837261" }) }), "symbols")[0]?.[1],
    ).toBe("Iy′ = V1/R1 = 12 V/(4 Ω) ≈ 1.3 A"));

  it("that is still to be solved is written in symbols, then with its numbers", () => {
    const balance = equation({
      left: math("V(a)/R1"),
      symbols: math("I1"),
      numbers: math("V(a)/(4 Ω) = 2 A"),
      result: null,
    });
    expect(textOf(balance, "symbols")).toEqual([
      ["main", "V(a)/R1 = I1"],
      ["main", "V(a)/(4 Ω) = 2 A"],
    ]);
  });

  it("without another side is a sum of nothing", () =>
    expect(textOf(equation({ symbols: null, numbers: null, result: null }), "symbols")).toEqual([["main", "Iy′ = 0"]]));
});

describe("an equation, numbers first", () => {
  it("goes from the symbol to the numbers, the formula beneath", () =>
    expect(textOf(equation(), "numbers")).toEqual([
      ["main", "Iy′ = 12 V/(4 Ω) = 3 A"],
      ["by", "Iy′ = V1/R1"],
    ]));

  it("with nothing to put in is as with symbols first", () => {
    const named = equation({ numbers: null });
    expect(equationRows(named, "numbers")).toEqual(equationRows(named, "symbols"));
    const plain = equation({ symbols: null });
    expect(equationRows(plain, "numbers")).toEqual(equationRows(plain, "symbols"));
  });

  it("that is still to be solved has the symbols beneath", () => {
    const balance = equation({
      left: math("V(a)/R1"),
      symbols: math("I1"),
      numbers: math("V(a)/(4 Ω) = 2 A"),
      result: null,
    });
    expect(textOf(balance, "numbers")).toEqual([
      ["main", "V(a)/(4 Ω) = 2 A"],
      ["by", "V(a)/R1 = I1"],
    ]);
  });
});

it("writes the result's unit upright in LaTeX", () =>
  expect(rowMath(equationRows(equation({ result: shown("−4.4 mA") }), "symbols")[0] as never).latex).toContain(
    "{}= -4.4\\,\\mathrm{mA}",
  ));
