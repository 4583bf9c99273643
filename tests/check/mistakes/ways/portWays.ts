import { isSource, relaid } from "./branch";
import type { Dice } from "./dice";
import { answered, asking, type Case, caseOf, constantCircuit, isVoltageSource, type Way } from "./way";

/** Mistakes in what is seen from two nodes. */
export const portWays: readonly Way[] = [{ code: "sourcesLeftOnInEquivalent", make: sourcesLeftOnInEquivalent }];

/** A resistance with one source zeroed as the other kind is. */
function sourcesLeftOnInEquivalent(dice: Dice): Case | null {
  const book = constantCircuit(dice);
  const [from = "a", to = "0"] = dice.shuffled([...book.main, "0"]);
  const question = asking(dice, book, ["equivalent"], { quantity: "resistance", from, to });
  if (question === null) return null;
  const { id } = dice.pick(question.branches.filter(isSource));
  const kind = isVoltageSource(question.branches, id) ? "open" : "short";
  return caseOf(question, answered(question, relaid(question.branches, { [id]: { kind } })), [id]);
}
