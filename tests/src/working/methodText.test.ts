import { describe, expect, it } from "vitest";
import {
  agreementText,
  balanceText,
  contrastOf,
  contrastRows,
  doesText,
  methodTitle,
  sumOf,
} from "../../../src/working/methodText";
import { card, shown, workedExample, workingsWith } from "./workings";

const tableOf = (id: string) => {
  const { powerTable } = workedExample(id);
  if (powerTable === null) throw new Error(`${id} has no power table`);
  return powerTable;
};

describe("a second method", () => {
  const method = { method: "nodal analysis", reason: null, derivation: null, agrees: true } as const;

  it("says that it agrees with the sum, with its value", () => {
    expect(methodTitle("nodal analysis")).toBe("Nodal analysis");
    expect(agreementText(method, shown("25 mA"))).toBe("agrees with the sum: 25 mA");
    expect(agreementText(method, shown("1.333 V", { mark: "≈" }))).toBe("agrees with the sum: ≈ 1.333 V");
    expect(agreementText(method, null)).toBe("agrees with the sum");
  });

  it("never passes over a difference", () =>
    expect(agreementText({ ...method, agrees: false }, shown("25 mA"))).toBe(
      "does not agree with the sum: 25 mA. This is a defect of the program.",
    ));

  it("is held against the total where that is a sum, and not where it is a power", () => {
    const total = {
      ...card("total", 1, 1),
      derivation: { lines: [], sketches: [], result: shown("25 mA"), omitted: null },
    };
    const [working] = workingsWith([total]).workings;
    if (!working) throw new Error("no working");
    expect(sumOf(working)?.text).toBe("25 mA");
    expect(sumOf({ ...working, kind: "power" })).toBeNull();
  });
});

// Worked by hand in shared/examples/README.md: Iy is 60 − 20 − 15 = 25 mA through R3 = 140 Ω.
describe("the power of the three sources", () => {
  const table = tableOf("three-sources");
  const row = (part: string) => {
    const found = table.rows.find((each) => each.part === part);
    if (!found) throw new Error(`no ${part}`);
    return found;
  };

  it("is absorbed or supplied, never negative in words", () => {
    expect(doesText(row("R3"))).toBe("absorbs 87.5 mW");
    expect(doesText(row("V1"))).toBe("supplies 1.2 W");
  });

  it("balances", () => expect(balanceText(table)).toBe("Supplied 2.925 W, absorbed 2.925 W; the difference is 0 W."));

  it("is not the sum of the addends' powers, shown at a part that absorbs", () => {
    const contrast = contrastOf(table);
    expect(contrast?.title).toBe("don’t add up to the power");
    expect(contrast?.text).toMatch(
      /^R1 would absorb 583\.2 mW with V1 alone, 12\.8 mW with I1 alone, 7\.2 mW with V2 alone\./,
    );
    expect(contrast?.text).toContain("That makes 603.2 mW, but with all sources it is 320 mW");
  });

  it("has the parts first where the two differ", () => {
    const differ = contrastRows(table).map(({ doesSumAgree }) => doesSumAgree);
    expect(differ).toContain(false);
    expect([...differ].sort()).toEqual(differ);
  });
});

it("says why mean powers of different frequencies do add up", () => {
  const contrast = contrastOf(tableOf("intercom-line"));
  expect(contrast?.title).toBe("add up here");
  expect(contrast?.text).toContain("a frequency of its own");
});
