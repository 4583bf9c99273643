import { type Law, ohmsOf, relaid } from "./branch";
import type { Slot, Textbook } from "./circuits";
import { real } from "./complexNumber";
import type { Dice } from "./dice";
import { type Line, type Question, timesOf, type Value } from "./question";
import { answered, asking, type Case, caseOf, constantCircuit, type Way } from "./way";

/** Two resistors taken together the wrong way. */
export const pairWays: readonly Way[] = [
  { code: "parallelAsSeries", make: (dice) => parallelTaken(dice, (x, y) => x + y) },
  { code: "seriesAsParallel", make: seriesAsParallel },
  { code: "sumOfReciprocals", make: (dice) => parallelTaken(dice, reciprocals(dice), 0.6) },
  { code: "sourceForEquivalent", make: sourceForEquivalent },
];

/** 1/R₁ + 1/R₂ read as ohms, or made of kilohms and read as kilohms. */
function reciprocals(dice: Dice): (x: number, y: number) => number {
  const unit = dice.pick([1, 1e6]);
  return (x, y) => (1 / x + 1 / y) * unit;
}

const ohms = (value: number): Law => ({ kind: "resistor", ohms: value });

function pairQuestion(dice: Dice, book: Textbook, portShare: number): Question | null {
  const lines: readonly Line[] = ["addend", "addend", "group", "total"];
  return dice.chance(portShare)
    ? asking(dice, book, ["equivalent"], { quantity: "resistance", from: "a", to: "0" })
    : asking(dice, book, lines);
}

/** Two resistors between the same main nodes; a current asked in one of them is then the right share of both. */
function parallelTaken(dice: Dice, taken: (x: number, y: number) => number, portShare = 0.2): Case | null {
  const book = constantCircuit(dice, { include: ["resistor", "resistor"], fillers: ["resistor"] });
  const question = pairQuestion(dice, book, portShare);
  const pair = parallelPair(dice, book);
  if (question === null || pair === null) return null;
  const { branches, asked } = question;
  const [kept, gone] = "through" in asked && asked.through === pair[1] ? [pair[1], pair[0]] : pair;
  const [x, y] = [ohmsOf(branches, kept), ohmsOf(branches, gone)];
  const wrong = answered(question, relaid(branches, { [kept]: ohms(taken(x, y)), [gone]: { kind: "open" } }));
  const share = "through" in asked && asked.through === kept ? y / (x + y) : 1;
  return caseOf(question, wrong && timesOf(wrong, share), pair);
}

function parallelPair(dice: Dice, { slots }: Textbook): readonly [string, string] | null {
  const single = dice.shuffled(slots.filter(({ kind }) => kind === "resistor"));
  const isBeside = (a: Slot, b: Slot): boolean => a !== b && a.from === b.from && a.to === b.to;
  for (const a of single) {
    const b = single.find((each) => isBeside(a, each));
    const [[one], [other]] = [a.ids, b?.ids ?? []];
    if (one !== undefined && other !== undefined) return [one, other];
  }
  return null;
}

/** Two resistors in a row, by product over sum. */
function seriesAsParallel(dice: Dice): Case | null {
  const book = constantCircuit(dice, { include: ["resistors"] });
  const question = pairQuestion(dice, book, 0.2);
  if (question === null) return null;
  const pair = dice.pick(book.slots.filter(({ kind }) => kind === "resistors")).ids;
  const { branches, asked } = question;
  const [kept = "", gone = ""] = "through" in asked && asked.through === pair[1] ? [...pair].reverse() : pair;
  const [x, y] = [ohmsOf(branches, kept), ohmsOf(branches, gone)];
  const wrong = answered(question, relaid(branches, { [kept]: ohms((x * y) / (x + y)), [gone]: { kind: "short" } }));
  return caseOf(question, wrong, pair);
}

/** The voltage of a source, given for the voltage between two nodes with nothing joined to them. */
function sourceForEquivalent(dice: Dice): Case | null {
  const book = constantCircuit(dice);
  const quantity = dice.pick(["open-circuit-voltage", "thevenin"] as const);
  const question = asking(dice, book, ["total"], { quantity, from: "a", to: "0" });
  const sources = book.branches.flatMap(({ id, law }) => (law.kind === "voltage-source" ? [{ id, law }] : []));
  if (sources.length === 0) return null;
  const { id, law } = dice.pick(sources);
  const wrong: Value = new Map([[0, real(law.wave.peak)]]);
  return caseOf(question, wrong, [id]);
}
