import { type Branch, branchOf, endsAt, isSource, ohmsOf, rejoined, relaid, touches } from "./branch";
import type { Dice } from "./dice";
import { actingOn, type Question, valueIn } from "./question";
import type { Term } from "./solved";
import { answered, asking, type Case, caseOf, constantCircuit, isVoltageSource, otherSources, type Way } from "./way";

/** Parts that count left out, parts that do not count taken in, pairs that are none, and wrong node equations. */
export const partWays: readonly Way[] = [
  { code: "seriesPartOfCurrentSource", make: seriesPartOfCurrentSource },
  { code: "parallelPartOfVoltageSource", make: parallelPartOfVoltageSource },
  { code: "partDropped", make: partDropped },
  { code: "falseSeries", make: falseSeries },
  { code: "falseParallel", make: falseParallel },
  { code: "lawTermTurned", make: (dice) => atNode(dice, "turned") },
  { code: "lawTermMissing", make: (dice) => atNode(dice, "missing") },
  { code: "neighbourMissing", make: (dice) => atNode(dice, "withoutNeighbour") },
  { code: "sourceCurrentMissing", make: sourceCurrentMissing },
];

/** A resistor in series with a current source, as if it stood across the source. */
function seriesPartOfCurrentSource(dice: Dice): Case | null {
  const book = constantCircuit(dice, { count: 1, include: ["currentWithResistor"] });
  const question = asking(dice, book, ["addend", "total"]);
  const slot = book.slots.find(({ kind }) => kind === "currentWithResistor");
  const [source = "", resistor = ""] = slot?.ids ?? [];
  if (question === null || !actingOn(question).includes(source)) return null;
  const { from, to } = branchOf(question.branches, source);
  const { from: start, to: middle } = branchOf(question.branches, resistor);
  const outer = { from: from === middle ? start : from, to: to === middle ? start : to };
  const moved = rejoined(rejoined(question.branches, source, outer), resistor, outer);
  return caseOf(question, answered(question, moved), [resistor, source]);
}

/** A resistor across a voltage source, as if it stood in series with the source. */
function parallelPartOfVoltageSource(dice: Dice): Case | null {
  const book = constantCircuit(dice, { nodes: 2, count: 1, include: ["heldVoltage"] });
  const question = asking(dice, book, ["addend", "total"]);
  const [source = "", resistor = ""] = book.slots.find(({ kind }) => kind === "heldVoltage")?.ids ?? [];
  if (question === null || !actingOn(question).includes(source)) return null;
  const { from } = branchOf(question.branches, source);
  const moved = rejoined(rejoined(question.branches, source, { from: "x" }), resistor, { from: "x", to: from });
  return caseOf(question, answered(question, moved), [resistor, source]);
}

/** Any line that resistors count for. */
function anyQuestion(dice: Dice): Question | null {
  const book = constantCircuit(dice);
  if (dice.chance(0.15)) return asking(dice, book, ["equivalent"], { quantity: "resistance", from: "a", to: "0" });
  return asking(dice, book, ["addend", "addend", "group", "total"]);
}

const resistorIds = (branches: readonly Branch[]): string[] =>
  branches.filter(({ law }) => law.kind === "resistor").map(({ id }) => id);

const askedOf = ({ asked }: Question): string | null => ("through" in asked ? asked.through : null);

function partDropped(dice: Dice): Case | null {
  const question = anyQuestion(dice);
  if (question === null) return null;
  const id = dice.pick(resistorIds(question.branches));
  const kind = id === askedOf(question) ? "short" : dice.pick(["short", "open"] as const);
  return caseOf(question, answered(question, relaid(question.branches, { [id]: { kind } })), [id]);
}

/** Two resistors that meet at a main node where a third branch ends. */
function meeting(
  dice: Dice,
  question: Question,
): { a: string; b: string; node: string; bare: readonly Branch[] } | null {
  const bare = bareOf(question);
  const [a = "", b = ""] = dice.shuffled(resistorIds(bare));
  const one = bare.find(({ id }) => id === a);
  const other = bare.find(({ id }) => id === b);
  if (one === undefined || other === undefined) return null;
  const shared = [one.from, one.to].filter((node) => touches(other, node));
  const [node] = shared;
  if (shared.length !== 1 || node === undefined || endsAt(bare, node) < 3) return null;
  return { a, b, node, bare };
}

function falseSeries(dice: Dice): Case | null {
  const question = anyQuestion(dice);
  const met = question && meeting(dice, question);
  if (question === null || met === null) return null;
  const { a, b, node, bare } = met;
  const away = (branches: readonly Branch[], id: string): Branch[] =>
    rejoined(branches, id, branchOf(branches, id).from === node ? { from: "x" } : { to: "x" });
  return caseOf(question, inBare(question, away(away(bare, a), b)), [a, b]);
}

function falseParallel(dice: Dice): Case | null {
  const question = anyQuestion(dice);
  const met = question && meeting(dice, question);
  if (question === null || met === null || met.b === askedOf(question)) return null;
  const { a, b, bare } = met;
  const [x, y] = [ohmsOf(bare, a), ohmsOf(bare, b)];
  const laws = { [a]: { kind: "resistor", ohms: (x * y) / (x + y) }, [b]: { kind: "open" } } as const;
  return caseOf(question, inBare(question, relaid(bare, laws)), [a, b]);
}

/** The branches that are left on a line, with the nodes that shorts join under one name. */
function bareOf(question: Question): Branch[] {
  const { branches, asked } = question;
  const isPort = asked.quantity === "resistance";
  const zeroed = isPort ? branches.filter(isSource).map(({ id }) => id) : otherSources(question);
  const shorts = branches.filter(({ id }) => zeroed.includes(id) && isVoltageSource(branches, id));
  const names = new Map<string, string>();
  const nameOf = (node: string): string => {
    const next = names.get(node);
    return next === undefined ? node : nameOf(next);
  };
  for (const { from, to } of shorts) {
    // An inner node takes the name of what it is joined to: main nodes and the reference stay what they are.
    const [inner, outer] = nameOf(from).startsWith("n") ? [nameOf(from), nameOf(to)] : [nameOf(to), nameOf(from)];
    if (inner !== outer) names.set(inner, outer);
  }
  return branches
    .filter(({ id }) => !zeroed.includes(id))
    .map((branch) => ({ ...branch, from: nameOf(branch.from), to: nameOf(branch.to) }));
}

function inBare(question: Question, bare: readonly Branch[]) {
  return valueIn(bare, question.asked, actingOn(question));
}

/** Kirchhoff's current law at a main node with one term wrong. */
function atNode(dice: Dice, term: Term): Case | null {
  const book = constantCircuit(dice);
  const question = asking(dice, book, ["addend", "group", "total"]);
  if (question === null) return null;
  const node = dice.pick(book.main);
  const there = resistorIds(question.branches).filter((id) => touches(branchOf(question.branches, id), node));
  if (there.length === 0 || endsAt(question.branches, node) < 3) return null;
  const id = dice.pick(there);
  const wrong = answered(question, question.branches, (at, branch) =>
    at === node && branch.id === id ? term : "asItIs",
  );
  return caseOf(question, wrong, [id], { node });
}

/** Kirchhoff's current law at one end of a voltage source without the current of the source. */
function sourceCurrentMissing(dice: Dice): Case | null {
  const book = constantCircuit(dice, { nodes: 2, count: 1, include: ["bareVoltage"] });
  const question = asking(dice, book, ["addend", "total"]);
  const [source = ""] = book.slots.find(({ kind }) => kind === "bareVoltage")?.ids ?? [];
  const node = dice.pick(book.main);
  if (question === null || !actingOn(question).includes(source) || endsAt(question.branches, node) < 3) return null;
  const wrong = answered(question, question.branches, (at, { id }) =>
    at === node && id === source ? "missing" : "asItIs",
  );
  return caseOf(question, wrong, [source], { node });
}
