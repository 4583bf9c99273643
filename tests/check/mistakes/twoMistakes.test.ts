import { describe, expect, it } from "vitest";
import { OF_MESHES } from "../../../shared/check/mistakes/mistake";
import { diagnosisOf } from "./ways/diagnosis";
import { Dice, seedOf } from "./ways/dice";
import { fileOf } from "./ways/fileOf";
import { WAYS } from "./ways/index";
import { addendsOf, apart, lineOf, type Question, rightValueOf, sumOf, timesOf, type Value } from "./ways/question";
import { isIt, settled } from "./ways/trial";
import type { Case } from "./ways/way";
import { unitOf, written } from "./ways/written";

/** Cases of each kind of pair. */
const CASES = 60;

type Made = Case & { readonly code: string; readonly wrong: Value };

/** Those in mesh equations are looked for alone. */
const PAIRED = WAYS.filter(({ code }) => !OF_MESHES.has(code));

/** Mistakes of any such code made in the addend of one source among others, with constants. */
function wrongAddends(name: string): readonly Made[] {
  const cases: Made[] = [];
  for (let n = 0; cases.length < CASES; n++) {
    const dice = new Dice(seedOf(name, n));
    const { code, make } = dice.pick(PAIRED);
    const made = make(dice);
    if (made === null || lineOf(made.question) !== "addend" || made.question.grouping.length < 2) continue;
    const [wrong, right] = [settled(made), rightValueOf(made.question)];
    if (wrong === null || right === null || apart(wrong, right) < 0.01) continue;
    if ([...wrong].every(([omega, { re }]) => omega === 0 && re !== 0)) cases.push({ ...made, code, wrong });
  }
  return cases;
}

/** The explanations of a value, if any, with six figures. */
function explanationsOf(question: Question, value: Value) {
  const text = written(value, unitOf(question), { figures: 6, form: "number" });
  return diagnosisOf(question).explained(text, 3);
}

const said = ({ code, parts, question }: Made): string =>
  `${code} on ${parts?.join()} for ${question.acting?.join()} in ${JSON.stringify(fileOf(question))}`;

describe("a value with two mistakes in it", () => {
  it("is explained by one with its sign turned on top, where no single mistake leads there", () => {
    const unexplained = wrongAddends("sign").filter((made) => {
      if (made.code === "signTurned") return false;
      const found = explanationsOf(made.question, timesOf(made.wrong, -1));
      const isSingle = found.some(({ mistakes }) => mistakes.length === 1) || found.length === 0;
      const isPair = found.some(
        ({ mistakes: [first, second] }) => first && isIt(made.code, made, [first]) && second?.code === "signTurned",
      );
      // Turned back it may be the right value.
      return !isPair && !(isSingle && (found.length > 0 || isRight(made.question, timesOf(made.wrong, -1))));
    });
    expect(unexplained.map(said)).toEqual([]);
  });

  it("is explained by one made in an addend and rightly carried into the total", () => {
    const unexplained = wrongAddends("total").filter((made) => {
      const total = totalWith(made);
      if (total === null) return false;
      const question = { ...made.question, acting: null };
      const found = explanationsOf(question, total);
      const isCarried = found.some(
        ({ mistakes, addend }) => isIt(made.code, made, mistakes) && addend?.join() === made.question.acting?.join(),
      );
      return !isCarried && !found.some(({ addend, mistakes }) => addend === null && mistakes.length === 1);
    });
    expect(unexplained.map(said)).toEqual([]);
  });
});

function isRight(question: Question, value: Value): boolean {
  const right = rightValueOf(question);
  return right !== null && apart(value, right) < 1e-6;
}

/** The total of the right addends with a wrong one in place of its own; null where it is nothing, or the right total. */
function totalWith({ question, wrong }: Made): Value | null {
  const addends = addendsOf(question);
  if (addends === null) return null;
  const own = question.grouping.findIndex((sources) => sources.join() === question.acting?.join());
  const total = sumOf(addends.map((addend, k) => (k === own ? wrong : addend)));
  const right = sumOf(addends);
  const isNothing = [total, right].some((value) => [...value.values()].every(({ re }) => Math.abs(re) < 1e-9));
  return isNothing || apart(total, right) < 0.01 ? null : total;
}
