import type { PartId } from "../../circuit";
import { type Mistake, surpriseOf } from "./mistake";

/** One mistake, or two, that lead to the value entered. */
export type Explanation = {
  readonly mistakes: readonly Mistake[];
  /** For a total: the sources of the addend in which it was made, where it was not made in the sum itself. */
  readonly addend: readonly PartId[] | null;
};

export function explanationOf(mistakes: readonly Mistake[], addend: readonly PartId[] | null = null): Explanation {
  return { mistakes, addend };
}

/** The least surprising first, each once. */
export function inOrder(explanations: readonly Explanation[]): readonly Explanation[] {
  const byText = new Map(explanations.map((each) => [JSON.stringify(each), each]));
  const surprise = ({ mistakes }: Explanation): number => mistakes.reduce((total, each) => total + surpriseOf(each), 0);
  return [...byText.values()].sort((a, b) => surprise(a) - surprise(b));
}
