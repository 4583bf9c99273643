import { describe, expect, it } from "vitest";
import type { Explanation } from "../../../shared/check/mistakes";
import { diagnosisOf } from "./ways/diagnosis";
import { Dice, seedOf } from "./ways/dice";
import { meshedCircuit } from "./ways/meshes";
import { type Line, onlyOf, type Question, rightValueOf, timesOf } from "./ways/question";
import { asking, constantCircuit } from "./ways/way";
import { unitOf, written } from "./ways/written";

// A value that no mistake leads to may still agree with one by chance, the more often the more parts a circuit has and the
// fewer figures are written. chance.txt says how often. Beyond a fifth an explanation would say little.

const VALUES = 100;
const KINDS = ["textbook", "bridge"] as const;
const LINES: readonly Line[] = ["addend", "total"];

type Row = { readonly name: string; readonly figures: number; readonly single: number; readonly pair: number };

/** Circuits of main nodes with branches between them, or those of meshes. */
function questionOf(dice: Dice, kind: (typeof KINDS)[number], line: Line): Question | null {
  if (kind === "textbook") return asking(dice, constantCircuit(dice), [line]);
  const { branches } = meshedCircuit(dice);
  const through = dice.pick(branches.filter(({ law }) => law.kind === "resistor")).id;
  return asking(dice, { branches, slots: [], main: [] }, [line], { quantity: "current", through, isBackward: false });
}

/** Explanations of values from a third of the right one to three times, of either sign, by three figures and by four. */
function explained(kind: (typeof KINDS)[number], line: Line): readonly Row[] {
  const byThree: (readonly Explanation[])[] = [];
  const byFour: (readonly Explanation[])[] = [];
  for (let n = 0; byThree.length < VALUES; n++) {
    const dice = new Dice(seedOf(`${kind} ${line}`, n));
    const question = questionOf(dice, kind, line);
    const right = question && rightValueOf(question);
    if (question === null || right === null || Math.abs(onlyOf(right).re) < 1e-9) continue;
    const factor = Math.exp((dice.next() - 0.5) * 2 * Math.log(3)) * (dice.chance(0.3) ? -1 : 1);
    const text = (figures: number): string =>
      written(timesOf(right, factor), unitOf(question), { figures, form: "number" });
    const diagnosis = diagnosisOf(question);
    byThree.push(diagnosis.explained(text(3), 3));
    byFour.push(diagnosis.explained(text(4), 3));
  }
  const name = `${kind}, ${line}`;
  return [rowOf(name, 3, byThree), rowOf(name, 4, byFour)];
}

function rowOf(name: string, figures: number, found: readonly (readonly Explanation[])[]): Row {
  const isSingle = ({ mistakes, addend }: Explanation): boolean => mistakes.length === 1 && addend === null;
  const single = found.filter((each) => each.some(isSingle)).length;
  return { name, figures, single, pair: found.filter(({ length }) => length > 0).length - single };
}

describe("a value that nobody's mistake leads to", () => {
  it("is seldom explained, and hardly ever where four figures are written", async () => {
    const rows = KINDS.flatMap((kind) => LINES.flatMap((line) => explained(kind, line)));
    const text = rows.map(
      ({ name, figures, single, pair }) =>
        `${name}, ${figures} figures: of ${VALUES} random values ${single} by one mistake, ${pair} by two or one carried on`,
    );
    await expect(`${text.join("\n")}\n`).toMatchFileSnapshot("chance.txt");
    for (const { name, figures, single, pair } of rows) {
      expect([name, figures, single + pair <= (figures === 3 ? 0.2 : 0.04) * VALUES]).toEqual([name, figures, true]);
    }
  });
});
