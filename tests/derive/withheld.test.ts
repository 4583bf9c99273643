import { describe, expect, it } from "vitest";
import { derivedOf, joinedDerived, soleLine } from "../../shared/derive/derived";
import { known, plus } from "../../shared/derive/expression";
import { Notebook } from "../../shared/derive/notebook";
import { exactNumerals } from "../../shared/derive/numerals";
import { integer, type Rational } from "../../shared/quantity";
import { exactArithmetic } from "../../shared/solve/arithmetic";

const name = (text: string) => ({ text, latex: text });

/** A notebook with one line, 2 V + 3 V, that the solver has as so many volts. */
function sumOf(expected: number): Notebook<Rational> {
  const notebook = new Notebook(exactNumerals(4), exactArithmetic, "Vx");
  const right = plus(known(name("V1"), integer(2), "V"), known(name("V2"), integer(3), "V"));
  const text = { rule: { kind: "voltage-law" }, sentence: "Add both." } as const;
  notebook.state(text, [{ left: name("Vx"), right, unit: "V", expected: integer(expected) }]);
  return notebook;
}

describe("a line that differs from the solver", () => {
  const right = derivedOf(sumOf(5));
  const wrong = derivedOf(sumOf(6));

  it("is withheld with all that it stands among, and told as a fault", () => {
    expect(right.derivation.lines).toHaveLength(1);
    expect(wrong.derivation).toEqual({ lines: [], sketches: [], result: null, omitted: "failed" });
    expect(wrong.faults).toEqual([{ where: "Vx", line: "Vx", got: "5 V", expected: "6 V" }]);
  });

  it("leaves nothing of a derivation of several steps or frequencies", () => {
    const joined = joinedDerived([right, wrong, right]);
    expect(joined.derivation.lines).toEqual([]);
    expect(joined.derivation.omitted).toBe("failed");
    expect(joined.faults).toEqual(wrong.faults);
  });

  it("is withheld where it stands by itself", () => {
    const line = { rule: { kind: "sum-in-time" }, sentence: "Add them.", parts: [] } as const;
    expect(soleLine(line, wrong.faults).derivation.lines).toEqual([]);
    expect(soleLine(line).derivation.lines).toHaveLength(1);
  });
});
