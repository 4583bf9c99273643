import { branchOf, givesVoltage, isDependent, type Law, relaid } from "./branch";
import type { Dice } from "./dice";
import { type Question, sourcesOf, valueIn } from "./question";
import { solvedAt } from "./solved";
import { answered, asking, type Case, caseOf, constantCircuit, type Way } from "./way";

/** Dependent sources treated as independent ones. */
export const dependentWays: readonly Way[] = [
  { code: "dependentZeroed", make: dependentZeroed },
  { code: "dependentFrozen", make: dependentFrozen },
];

function withDependent(dice: Dice, lines: Parameters<typeof asking>[2]): { question: Question; id: string } | null {
  const book = constantCircuit(dice, { include: [dice.pick(["vcvs", "vccs", "ccvs", "cccs"] as const)] });
  const question = lines.includes("equivalent")
    ? asking(dice, book, ["equivalent"], { quantity: "resistance", from: "a", to: "0" })
    : asking(dice, book, lines);
  const id = book.branches.find(isDependent)?.id;
  return question === null || id === undefined ? null : { question, id };
}

/** As a short or as an open, whichever kind it is. */
function dependentZeroed(dice: Dice): Case | null {
  const made = withDependent(dice, dice.chance(0.2) ? ["equivalent"] : ["addend", "group", "total"]);
  if (made === null) return null;
  const { question, id } = made;
  const isVoltage = givesVoltage(branchOf(question.branches, id));
  // The way that is right for its kind is the likelier one.
  const law: Law = { kind: isVoltage === dice.chance(0.7) ? "short" : "open" };
  return caseOf(question, answered(question, relaid(question.branches, { [id]: law })), [id]);
}

/** In an addend, an independent source of the value that it has with all sources on. */
function dependentFrozen(dice: Dice): Case | null {
  const made = withDependent(dice, ["addend", "group"]);
  if (made === null) return null;
  const { question, id } = made;
  const whole = solvedAt(question.branches, 0, sourcesOf(question.branches));
  if (whole === null) return null;
  const branch = branchOf(question.branches, id);
  const isVoltage = givesVoltage(branch);
  const value = isVoltage ? whole.between(branch.from, branch.to).re : whole.current(id).re;
  const wave = { peak: value, degrees: 0, omega: 0 };
  const frozen = relaid(question.branches, { [id]: { kind: isVoltage ? "voltage-source" : "current-source", wave } });
  return caseOf(question, valueIn(frozen, question.asked, [...(question.acting ?? []), id]), [id]);
}
