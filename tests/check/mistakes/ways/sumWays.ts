import { plainResistors } from "./circuits";
import { real, sizeOf } from "./complexNumber";
import type { Dice } from "./dice";
import { addendsOf, mapped, onlyOf, type Question, sumOf, timesOf, type Value } from "./question";
import { askedCurrent, asking, type Case, caseOf, constantCircuit, sinusoidalCircuit, type Way } from "./way";

/** Mistakes in adding the addends of a total up. */
export const sumWays: readonly Way[] = [
  { code: "addendForgotten", make: (dice) => withOne(dice, () => []) },
  { code: "addendSignTurned", make: (dice) => withOne(dice, (own) => [timesOf(own, -1)]) },
  { code: "sourceCountedTwice", make: (dice) => withOne(dice, (own) => [own, own]) },
  { code: "signsIgnored", make: signsIgnored },
  { code: "powersAdded", make: powersAdded },
  { code: "magnitudesAdded", make: magnitudesAdded },
  { code: "frequenciesMixed", make: frequenciesMixed },
];

/** A total of two or three addends; some of them are those of groups, and some are phasors. */
function total(dice: Dice): Question | null {
  if (dice.chance(0.2)) return asking(dice, sinusoidalCircuit(dice), ["total"]);
  const question = asking(dice, constantCircuit(dice), ["total"]);
  const [first = [], second = [], ...others] = question?.grouping ?? [];
  if (question === null || others.length === 0 || dice.chance(0.7)) return question;
  return { ...question, grouping: [[...first, ...second], ...others] };
}

function withOne(dice: Dice, change: (own: Value) => readonly Value[]): Case | null {
  const question = total(dice);
  const addends = question && addendsOf(question);
  if (question === null || addends === null) return null;
  const one = dice.pick([...addends.keys()]);
  const wrong = sumOf(addends.flatMap((addend, k) => (k === one ? change(addend) : [addend])));
  return { question, wrong, parts: question.grouping[one] ?? [] };
}

function signsIgnored(dice: Dice): Case | null {
  const question = asking(dice, constantCircuit(dice), ["total"]);
  const addends = question && addendsOf(question);
  if (question === null || addends === null || addends.every((addend) => onlyOf(addend).re > 0)) return null;
  const wrong = sumOf(addends.map((addend) => mapped(addend, ({ re }) => real(Math.abs(re)))));
  return { question, wrong, parts: question.grouping.flat() };
}

function powersAdded(dice: Dice): Case | null {
  const book = constantCircuit(dice);
  const [through] = dice.shuffled(plainResistors(book));
  const question = through === undefined ? null : asking(dice, book, ["total"], { quantity: "power", through });
  const addends = question && addendsOf(question);
  return caseOf(question, addends && sumOf(addends), question?.grouping.flat() ?? null);
}

function magnitudesAdded(dice: Dice): Case | null {
  const question = asking(dice, sinusoidalCircuit(dice), ["total"]);
  const addends = question && addendsOf(question);
  const wrong = addends && sumOf(addends.map((addend) => mapped(addend, (x) => real(sizeOf(x)))));
  return caseOf(question, wrong, question?.grouping.flat() ?? null, { form: dice.pick(["phasor", "number"]) });
}

/** Phasors of two frequencies added as they are, and given as a phasor, or as a function of time of either frequency. */
function frequenciesMixed(dice: Dice): Case | null {
  const book = sinusoidalCircuit(dice, {
    omegas: dice.pick([
      [500, 2000],
      [1000, 1500],
      [1000, 3000],
    ]),
  });
  const question = asking(dice, book, ["total"], askedCurrent(dice, plainResistors(book)));
  const addends = question && addendsOf(question);
  if (question === null || addends === null) return null;
  const omegas = addends.flatMap((addend) => [...addend.keys()]);
  const omega = dice.pick(omegas);
  const wrong = sumOf(addends.map((addend) => new Map([[omega, onlyOf(addend)]])));
  return { question, wrong, parts: question.grouping.flat(), form: dice.pick(["phasor", "time"]) };
}
