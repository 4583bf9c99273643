import { describe, expect, it } from "vitest";
import { type Diagnosis, diagnosisOf } from "./ways/diagnosis";
import { Dice, seedOf } from "./ways/dice";
import { fileOf } from "./ways/fileOf";
import { addendsOf, apart, onlyOf, type Question, sumOf, timesOf, type Value } from "./ways/question";
import { asking, constantCircuit } from "./ways/way";
import { unitOf, written } from "./ways/written";

const CASES = 40;

type Turned = {
  readonly question: Question;
  readonly diagnosis: Diagnosis;
  /** The source whose addend has the other sign, and the values of all addends as they should be. */
  readonly source: string;
  readonly addends: readonly Value[];
  /** The total with that addend turned round, as it is entered. */
  readonly total: string;
  readonly entered: (value: Value) => string;
};

/** Totals with one addend of the other sign: because it was added so, or because its source was turned round. */
function turnedTotals(name: string): readonly Turned[] {
  const cases: Turned[] = [];
  for (let n = 0; cases.length < CASES; n++) {
    const dice = new Dice(seedOf(name, n));
    const question = asking(dice, constantCircuit(dice), ["total"]);
    const addends = question && addendsOf(question);
    if (question === null || addends === null) continue;
    const one = dice.pick([...addends.keys()]);
    const wrong = sumOf(addends.map((addend, k) => (k === one ? timesOf(addend, -1) : addend)));
    if (Math.abs(onlyOf(sumOf(addends)).re) < 1e-9 || apart(wrong, sumOf(addends)) < 0.01) continue;
    if (Math.abs(onlyOf(wrong).re) < 1e-9) continue;
    const entered = (value: Value): string => written(value, unitOf(question), { figures: 5, form: "number" });
    const [source = ""] = question.grouping[one] ?? [];
    cases.push({ question, diagnosis: diagnosisOf(question), source, addends, total: entered(wrong), entered });
  }
  return cases;
}

/** The addends as they were entered before, the one of `source` with the other sign where it was found so. */
function enteredBefore({ question, addends, source, entered }: Turned, isTurned: boolean): Record<string, string> {
  const values = addends.map((addend, k) => {
    const [id = ""] = question.grouping[k] ?? [];
    return [id, entered(isTurned && id === source ? timesOf(addend, -1) : addend)] as const;
  });
  return Object.fromEntries(values);
}

describe("a total with one addend turned round, which a source turned round leads to as well", () => {
  it("has its sign turned in the sum where the addends before are right", () => {
    const others = turnedTotals("right before").flatMap((each) => {
      const [first] = each.diagnosis.explained(each.total, 3, enteredBefore(each, false));
      const isNamed = first?.mistakes[0]?.code === "addendSignTurned" && first.mistakes[0].parts.join() === each.source;
      return isNamed ? [] : [{ found: first, total: each.total, file: JSON.stringify(fileOf(each.question)) }];
    });
    expect(others).toEqual([]);
  });

  it("follows from the addend before where that one has the other sign, and is no mistake of its own", () => {
    const others = turnedTotals("wrong before").flatMap((each) => {
      const follows = each.diagnosis.follows(each.total, 3, enteredBefore(each, true));
      return follows?.join() === each.source ? [] : [{ follows, file: JSON.stringify(fileOf(each.question)) }];
    });
    expect(others).toEqual([]);
  });
});
