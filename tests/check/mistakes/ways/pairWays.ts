import { type Law, ohmsOf, relaid } from "./branch";
import type { Textbook } from "./circuits";
import { real } from "./complexNumber";
import type { Dice } from "./dice";
import { type Line, lineOf, type Question, sourcesOf, timesOf, type Value } from "./question";
import { answered, asking, type Case, caseOf, constantCircuit, otherSources, type Way } from "./way";

/** Resistors taken together the wrong way. */
export const pairWays: readonly Way[] = [
  { code: "parallelAsSeries", make: (dice) => parallelTaken(dice, (values) => values.reduce((x, y) => x + y)) },
  { code: "seriesAsParallel", make: seriesAsParallel },
  { code: "sumOfReciprocals", make: (dice) => parallelTaken(dice, reciprocals(dice), 0.6) },
  { code: "sourceForEquivalent", make: sourceForEquivalent },
];

/** 1/R₁ + 1/R₂ read as ohms, or made of kilohms and read as kilohms. */
function reciprocals(dice: Dice): (values: readonly number[]) => number {
  const unit = dice.pick([1, 1e6]);
  return (values) => values.reduce((sum, value) => sum + 1 / value, 0) * unit;
}

const ohms = (value: number): Law => ({ kind: "resistor", ohms: value });

function pairQuestion(dice: Dice, book: Textbook, portShare: number): Question | null {
  const lines: readonly Line[] = ["addend", "addend", "group", "total"];
  return dice.chance(portShare)
    ? asking(dice, book, ["equivalent"], { quantity: "resistance", from: "a", to: "0" })
    : asking(dice, book, lines);
}

/**
 * Two resistors between the same main nodes, or all that stand there; a current asked in one of them is then the right
 * share of them all.
 */
function parallelTaken(dice: Dice, taken: (values: readonly number[]) => number, portShare = 0.2): Case | null {
  const book = constantCircuit(dice, { include: ["resistor", "resistor"], fillers: ["resistor"] });
  const question = pairQuestion(dice, book, portShare);
  if (question === null) return null;
  const [all = []] = dice.shuffled(parallelSets(book, question));
  const set = dice.chance(0.5) ? all : dice.shuffled(all).slice(0, 2);
  if (set.length < 2) return null;
  const { branches, asked } = question;
  const values = set.map((id) => ohmsOf(branches, id));
  const own = "through" in asked && set.includes(asked.through) ? asked.through : null;
  const kept = own ?? set[0];
  const laws = set.map((id): [string, Law] => [id, id === kept ? ohms(taken(values)) : { kind: "open" }]);
  const wrong = answered(question, relaid(branches, Object.fromEntries(laws)));
  const equivalent = 1 / values.reduce((sum, value) => sum + 1 / value, 0);
  const share = own === null ? 1 : equivalent / ohmsOf(branches, own);
  return caseOf(question, wrong && timesOf(wrong, share), set);
}

/** The resistors that are alone between the same two main nodes, those of zeroed voltage sources too. */
function parallelSets({ slots, branches }: Textbook, question: Question): readonly (readonly string[])[] {
  const zeroed = lineOf(question) === "equivalent" ? sourcesOf(branches) : otherSources(question);
  const alone = slots.flatMap(({ kind, ids, from, to }) => {
    const [first = "", second = ""] = ids;
    if (kind === "resistor") return [{ id: first, place: `${from} ${to}` }];
    return kind === "voltage" && zeroed.includes(first) ? [{ id: second, place: `${from} ${to}` }] : [];
  });
  const places = [...new Set(alone.map(({ place }) => place))];
  const sets = places.map((place) => alone.filter((each) => each.place === place).map(({ id }) => id));
  return sets.filter(({ length }) => length > 1);
}

/** The resistors of a row, by the formula for parallel ones: two of them are the product over the sum. */
function seriesAsParallel(dice: Dice): Case | null {
  const row = dice.pick(["resistors", "threeResistors"] as const);
  const book = constantCircuit(dice, { include: [row] });
  const question = pairQuestion(dice, book, 0.2);
  if (question === null) return null;
  const set = dice.pick(book.slots.filter(({ kind }) => kind === row)).ids;
  const { branches, asked } = question;
  const kept = "through" in asked && set.includes(asked.through) ? asked.through : set[0];
  const equivalent = 1 / set.reduce((sum, id) => sum + 1 / ohmsOf(branches, id), 0);
  const laws = set.map((id): [string, Law] => [id, id === kept ? ohms(equivalent) : { kind: "short" }]);
  return caseOf(question, answered(question, relaid(branches, Object.fromEntries(laws))), set);
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
