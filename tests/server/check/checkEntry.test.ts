import { describe, expect, it } from "vitest";
import { checkEntry } from "../../../server/check/checkEntry";
import type { Checked, CheckJob } from "../../../server/check/checker";
import { demoBoard } from "../../../server/demoRoom";
import { readStart } from "../../../server/roomStart";
import { USUAL_RULES } from "../../../shared/check";

/** 10 V across so many resistors of 1 kΩ: 10 mA through each. */
function resistorsAcross(count: number): Uint8Array {
  const elements = [
    { id: "V1", kind: "voltage-source", nodes: ["a", "0"], value: "10 V" },
    ...Array.from({ length: count }, (_, i) => ({
      id: `R${i + 1}`,
      kind: "resistor",
      nodes: ["a", "0"],
      value: "1 kΩ",
    })),
  ];
  const wanted = [{ name: "Ix", quantity: "current", through: "R1", from: "a", to: "0" }];
  const file = { format: "addend-circuit", version: 1, elements, reference: "0", wanted };
  const start = readStart({ kind: "file", file });
  if (!start.ok || start.update === null) throw new Error("the circuit can't be drawn");
  return start.update;
}

const job = (key: string, board: Uint8Array, fields: Partial<CheckJob>): CheckJob => ({
  key,
  board,
  wanted: "Iy",
  card: "I1",
  text: "40 mA",
  rules: USUAL_RULES,
  earlier: [],
  zeroing: null,
  ...fields,
});
const codesOf = (checked: Checked): readonly string[] | null =>
  checked.outcome === "judged"
    ? checked.explanations.flatMap(({ mistakes }) => mistakes.map(({ code }) => code))
    : null;

// The demo board: Iy is 60 mA of V1, −20 mA of I1 and −15 mA of V2.

describe("an entry", () => {
  it("is told as wrong before its mistakes are looked for, and with them in the end", () => {
    const early: Checked[] = [];
    const checked = checkEntry(job("demo", demoBoard(), {}), (each) => early.push(each));
    expect(early.map(codesOf)).toEqual([[]]);
    expect(codesOf(checked)).toEqual(["sourceLeftOn"]);
    expect(checkEntry(job("demo", demoBoard(), { text: "-20 mA" }), (each) => early.push(each))).toMatchObject({
      judgement: { outcome: "right" },
    });
    expect(early).toHaveLength(1);
  });

  it("of another unit, of none, or written too short says by itself what is wrong, so that no mistake is looked for", () => {
    const rules = { figures: 5, units: "demanded" } as const;
    for (const [text, code] of [
      ["40 mV", "otherUnit"],
      ["0.04", "unitMissing"],
      ["-20.001 mA", "tooCoarse"],
    ] as const) {
      const checked = checkEntry(job("demo", demoBoard(), { text, rules }));
      expect(checked).toMatchObject({ judgement: { outcome: "wrong", diagnosis: { code } }, explanations: [] });
    }
  });

  it("is only judged on a circuit of more than 40 parts, and where it is asked so", () => {
    const asked = { wanted: "Ix", card: "total", text: "-10 mA" };
    expect(codesOf(checkEntry(job("forty", resistorsAcross(39), asked)))).toContain("signTurned");
    expect(checkEntry(job("more", resistorsAcross(40), asked))).toMatchObject({
      judgement: { outcome: "wrong", diagnosis: { code: "signTurned" } },
      explanations: [],
    });
    expect(codesOf(checkEntry(job("demo", demoBoard(), { isToExplain: false })))).toEqual([]);
  });
});
