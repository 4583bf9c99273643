import { branchOf, ohmsOf } from "./branch";
import { type Slot, sourceIds, type Textbook } from "./circuits";
import type { Dice } from "./dice";
import { type Question, timesOf } from "./question";
import { answered, asking, type Case, caseOf, constantCircuit, type Way } from "./way";

/** Wrong shares of a current, or of a voltage: by the formulas that are misused, on what the right share is a share of. */
export const divisionWays: readonly Way[] = [
  { code: "divisionTurned", make: (dice) => (dice.chance(0.6) ? ofCurrent(dice, turned) : ofVoltage(dice, turned)) },
  { code: "undivided", make: (dice) => (dice.chance(0.6) ? ofCurrent(dice, whole) : ofVoltage(dice, whole)) },
  { code: "divisionUpsideDown", make: (dice) => ofVoltage(dice, ({ own, rest }) => (own + rest) / own) },
  { code: "evenSplit", make: (dice) => (dice.chance(0.6) ? ofCurrent(dice, even) : ofVoltage(dice, () => 0.5)) },
  { code: "equivalentOverSum", make: (dice) => ofCurrent(dice, equivalentOver(dice)) },
  { code: "otherBranchesSummed", make: otherBranchesSummed },
  { code: "oneOtherBranch", make: oneOtherBranch },
];

/** The branch asked about and the others beside it, or the resistor asked about and the one in series with it, in ohms. */
type Shares = { readonly own: number; readonly others: readonly number[]; readonly rest: number };
type Share = (shares: Shares) => number;

const total = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);
const together = (values: readonly number[]): number => 1 / total(values.map((value) => 1 / value));

/** r over the sum, where the other one belongs on top of a current's share; the other one, where r belongs on a voltage's. */
const turned: Share = ({ own, others, rest }) => (others.length > 0 ? own : rest) / (own + rest);
const whole: Share = () => 1;
const even: Share = ({ others }) => 1 / (others.length + 1);
const equivalentOver = (dice: Dice): Share => {
  const isOverAll = dice.chance(0.5);
  return ({ own, others }) => {
    const equivalent = together([own, ...others]);
    return equivalent / (isOverAll ? own + total(others) : own + equivalent);
  };
};

type Division = {
  readonly question: Question;
  readonly shares: Shares;
  readonly parts: readonly string[];
  readonly beside: readonly Slot[];
};

/** A source alone between two nodes, and the current in one of the resistors, or rows of them, that it feeds. */
function currentDivision(dice: Dice, fewest = 2): Division | null {
  const book = constantCircuit(dice, { nodes: 1, count: 2, ...(fewest > 2 ? { include: ["resistor"] } : {}) });
  const [source = ""] = dice.shuffled(sourceIds(book));
  const slots = book.slots.filter(({ kind, ids }) => !ids.includes(source) && kind !== "current");
  const [own, ...beside] = dice.shuffled(slots);
  if (own === undefined || beside.length + 1 < fewest) return null;
  const through = dice.pick(resistorsIn(book, own));
  const asked = { quantity: "current", through, isBackward: dice.chance(0.5) } as const;
  const question = asking(dice, book, ["addend"], asked);
  if (question === null) return null;
  const others = beside.map((slot) => ohmsIn(book, slot));
  const shares = { own: ohmsIn(book, own), others, rest: together(others) };
  const parts = [own, ...beside].flatMap((slot) => resistorsIn(book, slot));
  return { question: { ...question, acting: [source] }, shares, parts, beside };
}

const resistorsIn = ({ branches }: Textbook, { ids }: Slot): string[] =>
  ids.filter((id) => branchOf(branches, id).law.kind === "resistor");
const ohmsIn = (book: Textbook, slot: Slot): number =>
  total(resistorsIn(book, slot).map((id) => ohmsOf(book.branches, id)));

function ofCurrent(dice: Dice, share: Share): Case | null {
  return shared(currentDivision(dice), share);
}

function shared(division: Division | null, wrongShare: Share, parts = division?.parts ?? null): Case | null {
  if (division === null) return null;
  const { question, shares } = division;
  const right = answered(question);
  const rightShare =
    shares.others.length > 0 ? shares.rest / (shares.own + shares.rest) : shares.own / (shares.own + shares.rest);
  return caseOf(question, right && timesOf(right, wrongShare(shares) / rightShare), parts);
}

/** Three branches or more: all the others over all. */
function otherBranchesSummed(dice: Dice): Case | null {
  return shared(currentDivision(dice, 3), ({ own, others }) => total(others) / (own + total(others)));
}

/** Three branches or more: one of the others over it and the own one, or over all. */
function oneOtherBranch(dice: Dice): Case | null {
  const division = currentDivision(dice, 3);
  if (division === null) return null;
  const isOverAll = dice.chance(0.5);
  return shared(
    division,
    ({ own, others }) => {
      const [one = 0] = others;
      return one / (isOverAll ? own + total(others) : own + one);
    },
    // Which resistors make up the two branches is told by the division; the catalogue names those.
    null,
  );
}

/** The voltage across a resistor in series with another: of the source that acts, or of two in a row. */
function ofVoltage(dice: Dice, share: Share): Case | null {
  return shared(dice.chance(0.5) ? behindSource(dice) : inRow(dice), share);
}

/** A voltage source with its resistor, and all else that is between the two nodes taken together. */
function behindSource(dice: Dice): Division | null {
  const book = constantCircuit(dice, { nodes: 1, sources: ["voltage", dice.pick(["voltage", "current"] as const)] });
  const slot = book.slots.find(({ kind }) => kind === "voltage");
  const [source, series] = slot?.ids ?? [];
  if (slot === undefined || source === undefined || series === undefined) return null;
  const beside = book.slots.filter((each) => each !== slot && each.kind !== "current");
  const rest = together(beside.map((each) => ohmsIn(book, each)));
  const isAcrossSeries = dice.chance(0.3);
  const { from, to } = branchOf(book.branches, series);
  const [plus = "a", minus = "0"] = dice.shuffled(isAcrossSeries ? [from, to] : ["a", "0"]);
  const question = asking(dice, book, ["addend"], { quantity: "voltage", from: plus, to: minus });
  if (question === null) return null;
  const own = ohmsOf(book.branches, series);
  const shares = isAcrossSeries ? { own, others: [], rest } : { own: rest, others: [], rest: own };
  const parts = [slot, ...beside].flatMap((each) => resistorsIn(book, each));
  return { question: { ...question, acting: [source] }, shares, parts, beside: [] };
}

/** Two resistors in a row between two main nodes. */
function inRow(dice: Dice): Division | null {
  const book = constantCircuit(dice, { include: ["resistors"] });
  const slot = dice.pick(book.slots.filter(({ kind }) => kind === "resistors"));
  const [own = "", other = ""] = dice.shuffled(slot.ids);
  const { from, to } = branchOf(book.branches, own);
  const [plus = "a", minus = "0"] = dice.shuffled([from, to]);
  const question = asking(dice, book, ["addend"], { quantity: "voltage", from: plus, to: minus });
  if (question === null) return null;
  const shares = { own: ohmsOf(book.branches, own), others: [], rest: ohmsOf(book.branches, other) };
  return { question, shares, parts: [own, other], beside: [] };
}
