import type { PartId } from "../../circuit";
import type { Amount } from "../../solve";
import type { EnteredNumber } from "../value";
import { candidatesOf } from "./candidates";
import { type EarlierLines, type EarlierValue, inAgreement, NO_EARLIER_LINES } from "./earlier";
import { enteredValue, isCandidate } from "./enteredValue";
import { type Explanation, explanationOf, inOrder } from "./explanation";
import { LinesBefore } from "./linesBefore";
import { type Addend, carried, twoAddends, withSlips } from "./pairs";
import { type Candidate, hasAddends, once, type Target } from "./target";

/** What mistakes lead to for one value, ready to be held against many entries. */
export type MistakeBook = {
  readonly right: Amount;
  /**
   * The mistakes that lead to exactly the value entered, within the rounding that it was written with, the least
   * surprising first; none where it is right, or where no mistake of the catalogue, and no pair of the second tier,
   * leads there. Pairs are looked for only where no single mistake serves.
   * `figures` are those that count: a shorter number is taken to have as many. `measure` is that of the circuit's phasors.
   *
   * With the learner's earlier lines, a total is held against the values that were entered before, right or not: where
   * one of them is wrong, a slip in adding them up goes before all else. Explanations that the earlier lines contradict
   * are left out, unless nothing else is left.
   */
  explain(
    entered: EnteredNumber,
    figures: number,
    measure: "peak" | "rms",
    earlier?: EarlierLines,
  ): readonly Explanation[];
  /**
   * For the value of several sources that is the right sum of the values entered for them before: the sources of those
   * that are wrong, which are still to be mended. It is no mistake of its own then. None are named where all are right and
   * only too much was rounded on the way. Null where the value is right, and where it is no such sum.
   */
  follows(
    entered: EnteredNumber,
    figures: number,
    measure: "peak" | "rms",
    addends: readonly EarlierValue[],
  ): readonly (readonly PartId[])[] | null;
};

/** The books of one wanted quantity: of each of its addends, and of the total with null. */
export type MistakeBooks = {
  /** Null where that has no value. Made when it is first asked for, and kept; the circuit is solved a few hundred times. */
  of(sources: readonly PartId[] | null): MistakeBook | null;
};

/** The books for a wanted quantity of a circuit; they depend on nothing else, so that they can be kept with it. */
export function mistakeBooks(problem: Omit<Target, "sources">): MistakeBooks {
  const kept = new Map<string, () => Kept | null>();
  const keptOf = (sources: readonly PartId[] | null): Kept | null => {
    const key = JSON.stringify(sources);
    const known = kept.get(key) ?? once(() => keptBook({ ...problem, sources }, keptOf));
    kept.set(key, known);
    return known();
  };
  return { of: (sources) => keptOf(sources)?.book ?? null };
}

/** {@link MistakeBook.explain} for a single entry. */
export function explain(
  target: Target,
  entered: EnteredNumber,
  figures: number,
  measure: "peak" | "rms",
): readonly Explanation[] {
  return mistakeBooks(target).of(target.sources)?.explain(entered, figures, measure) ?? [];
}

/** Figures from which on mistakes that lead to many values are looked for. */
const TELLING_FIGURES = 3;

type Kept = { readonly book: MistakeBook; readonly wrong: readonly Candidate[] };

type BookOf = (sources: readonly PartId[]) => Kept | null;

function keptBook(target: Target, bookOf: BookOf): Kept | null {
  const candidates = candidatesOf(target);
  if (candidates === null) return null;
  const { right, wrong, inMeshes } = candidates;
  const addends = once(() => addendsOf(target, bookOf));
  const book: MistakeBook = {
    right,
    explain: (entered, figures, measure, earlier = NO_EARLIER_LINES) => {
      const value = enteredValue(entered, figures, measure);
      if (value.is(right)) return [];
      const lines = new LinesBefore(target, earlier.addends, bookOf, figures, measure);
      const slips = lines.slips(entered);
      if (slips.length > 0) return inOrder(slips);
      const agreeing = (found: readonly Explanation[]): readonly Explanation[] =>
        inOrder(inAgreement(found, lines.stateOf, lines.areAllRight, earlier.zeroing));
      const explains = (candidate: Candidate): boolean => isCandidate(value, candidate);
      const plain = wrong.filter(explains);
      // A circuit has many sets of mesh equations, which lead to many values: they come after all else. With pairs of
      // mistakes it is the same. To fewer figures than these one or the other agrees with most values, by chance.
      const isTelling = value.figures >= TELLING_FIGURES;
      const single = plain.length > 0 || !isTelling ? plain : inMeshes().filter(explains);
      if (single.length > 0) return agreeing(single.map(({ mistake }) => explanationOf([mistake])));
      if (!isTelling) return agreeing(carried(addends(), value));
      return agreeing([
        ...carried(addends(), value),
        ...withSlips(right, wrong, value),
        ...twoAddends(addends(), value),
      ]);
    },
    follows: (entered, figures, measure, earlier) => {
      if (enteredValue(entered, figures, measure).is(right)) return null;
      return new LinesBefore(target, earlier, bookOf, figures, measure).follows(entered);
    },
  };
  return { book, wrong };
}

/** The addends of a total; none where it is no sum of them, or where one of them has no value. */
function addendsOf({ wanted, grouping, sources }: Target, bookOf: BookOf): readonly Addend[] {
  if (sources !== null || grouping.length < 2 || !hasAddends(wanted)) return [];
  const books = grouping.map((each) => ({ each, kept: bookOf(each) }));
  const addends = books.flatMap(({ each, kept }): Addend[] =>
    kept === null ? [] : [{ sources: each, amount: kept.book.right, wrong: kept.wrong }],
  );
  return addends.length === grouping.length ? addends : [];
}
