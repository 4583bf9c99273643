import fc from "fast-check";
import type { Fraction } from "mathjs";
import { describe, expect, it } from "vitest";
import { type Explanation, type MistakeCode, mistakeBooks } from "../../../shared/check/mistakes";
import { partId } from "../../../shared/circuit";
import { rational } from "../../../shared/quantity";
import { eachAlone } from "../../../shared/solve";
import { circuits, RESISTORS_AND_SOURCES } from "../../generators/circuits";
import { circuitOf } from "../../solve/solved";
import { type WrongWay, wrongWays } from "./wrongWays";

/** Cases of each mistake. */
const WANTED = 50;
/** The share of cases is a statistic, so the circuits are the same ones in each run. */
const SEED = 20261125;

type Tally = { cases: number; first: number; firstTwo: number; listed: number; readonly tiedWith: Map<string, number> };

describe("a wrong value on random circuits", () => {
  it("is explained by the mistake that led to it", { timeout: 600_000 }, async () => {
    const tallies = new Map<MistakeCode, Tally>();
    const sample = (dependentSources: boolean, numRuns: number) =>
      fc.sample(circuits({ ...RESISTORS_AND_SOURCES, dependentSources }, 8), { numRuns, seed: SEED });
    const json = [...sample(false, 500), ...sample(true, 200)];
    for (const file of json) {
      const [asked] = file.wanted;
      const through = String(asked?.through);
      const circuit = circuitOf({ ...file, wanted: asked ? [asked] : [] });
      const [wanted] = circuit.wanted;
      const ways = wanted
        ? wrongWays({ circuit: file, through }).filter(({ code }) => isNeeded(tallies.get(code)))
        : [];
      if (!wanted) continue;
      const books = mistakeBooks({ circuit, wanted, grouping: eachAlone(circuit) });
      for (const place of new Set(ways.map(({ acting }) => acting?.join() ?? ""))) {
        const group = ways.filter(({ acting }) => (acting?.join() ?? "") === place);
        const book = books.of(group[0]?.acting?.map(partId) ?? null);
        if (book === null) continue;
        for (const way of group) {
          if (!isNeeded(tallies.get(way.code))) continue;
          const value = way.value();
          if (value === null) continue;
          const entered = { kind: "exact", value: ours(value) } as const;
          const { right } = book;
          const isRight = right.constant?.numbers === "exact" && equals(right.constant.value, entered.value);
          if (isRight || isTooClose(right, entered.value)) continue;
          count(tallies, way, book.explain(entered, 3, "peak"));
        }
      }
    }
    const rows = [...tallies].sort(([a], [b]) => a.localeCompare(b));
    const text = rows.map(([code, { cases, first, firstTwo, listed, tiedWith }]) => {
      const ties = [...tiedWith].sort((a, b) => b[1] - a[1]).map(([other, times]) => `${other} ${times}`);
      return `${code}: ${cases} cases, first ${first}, within two ${firstTwo}, explained ${listed}${ties.length > 0 ? `; same value as ${ties.join(", ")}` : ""}`;
    });
    await expect(`${text.join("\n")}\n`).toMatchFileSnapshot("named.txt");
    for (const [code, { cases, listed }] of rows) expect([code, listed]).toEqual([code, cases]);
  });
});

function isNeeded(tally: Tally | undefined): boolean {
  return (tally?.cases ?? 0) < WANTED;
}

function count(tallies: Map<MistakeCode, Tally>, { code }: WrongWay, explanations: readonly Explanation[]): void {
  const tally = tallies.get(code) ?? {
    cases: 0,
    first: 0,
    firstTwo: 0,
    listed: 0,
    tiedWith: new Map<string, number>(),
  };
  tallies.set(code, tally);
  const codes = [...new Set(explanations.map(({ mistakes }) => mistakes.map((each) => each.code).join("+")))];
  const place = codes.indexOf(code);
  tally.cases++;
  if (place === 0) tally.first++;
  if (place === 0 || place === 1) tally.firstTwo++;
  if (place >= 0) tally.listed++;
  for (const other of codes) if (other !== code) tally.tiedWith.set(other, (tally.tiedWith.get(other) ?? 0) + 1);
}

function ours(value: Fraction) {
  const [n = "0", d = "1"] = value.toFraction().split("/");
  return rational(BigInt(n), BigInt(d));
}

type Number = ReturnType<typeof ours>;
const equals = (a: Number, b: Number): boolean => a.n === b.n && a.d === b.d;

/** To the figures that count it would be the right value. */
function isTooClose(
  right: { readonly constant: { readonly numbers: string; readonly value: unknown } | null },
  entered: Number,
): boolean {
  if (right.constant?.numbers !== "exact") return true;
  const { n, d } = right.constant.value as Number;
  const [a, b] = [Number(n) / Number(d), Number(entered.n) / Number(entered.d)];
  return Math.abs(a - b) <= 0.006 * Math.abs(a);
}
