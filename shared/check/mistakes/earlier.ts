import type { PartId } from "../../circuit";
import { halfUnit } from "../closeness";
import { unlessUnreadable } from "../entryProblem";
import type { ZeroingJudgement } from "../judgeZeroing";
import { addNumbers, negateNumber, sizeOf, subtractNumbers } from "../numbers";
import type { EnteredNumber } from "../value";
import { digitsOf, MOST_FIGURES } from "./enteredValue";
import { type Explanation, explanationOf } from "./explanation";
import { IN_SUM, type Mistake, type MistakeCode, mistake } from "./mistake";

/** A value that the same learner entered for some of the sources before, as it was entered: right or not. */
export type EarlierValue = { readonly sources: readonly PartId[]; readonly entered: EnteredNumber };

/** What the lines before say, where two mistakes lead to one value. */
export type EarlierLines = {
  readonly addends: readonly EarlierValue[];
  /** What was made of the sources for this addend; null where nothing was. */
  readonly zeroing: ZeroingJudgement | null;
};

export const NO_EARLIER_LINES: EarlierLines = { addends: [], zeroing: null };

/** The earlier values that add up to a value for `sources`: disjoint and complete; null where they are not. */
export function partition(
  sources: readonly PartId[],
  addends: readonly EarlierValue[],
): readonly EarlierValue[] | null {
  const inside = addends.filter((each) => each.sources.every((id) => sources.includes(id)));
  const all = inside.flatMap((each) => each.sources);
  const isPartition = all.length === sources.length && new Set(all).size === all.length;
  return isPartition && inside.length > 1 ? inside : null;
}

/** The sum of what was entered, and by how much roundings may have changed it; null where its terms do not add. */
type Carried = { readonly sum: EnteredNumber; readonly room: number };

/** Whether a value is this sum, within the rounding of all that was entered. */
function isSum(entered: EnteredNumber, { sum, room }: Carried, figures: number): boolean {
  const rest = unlessUnreadable(() => subtractNumbers(entered, sum));
  const digits = Math.max(figures, Math.min(digitsOf(entered) ?? figures, MOST_FIGURES));
  const own = sizeOf(entered) === 0 ? 0 : halfUnit(sizeOf(entered), digits);
  return rest !== null && sizeOf(rest) <= own + room;
}

/** A number with as many figures as count stands for all that round to it; a shorter one, or a fraction, for itself. */
function roomOf(entered: EnteredNumber, figures: number): number {
  const size = sizeOf(entered);
  if (size === 0) return 0;
  if (entered.kind !== "exact") return halfUnit(size, figures);
  const digits = digitsOf(entered);
  return digits === null || digits < figures ? 0 : halfUnit(size, Math.min(digits, MOST_FIGURES));
}

function carriedSum(terms: readonly EnteredNumber[], figures: number): Carried | null {
  // A phasor and a function of time do not add.
  const sum = unlessUnreadable(() =>
    terms.reduce<EnteredNumber | null>((total, term) => (total ? addNumbers(total, term) : term), null),
  );
  return sum && { sum, room: terms.reduce((room, term) => room + roomOf(term, figures), 0) };
}

/** Whether a value is the sum of the earlier ones. */
export function isCarried(entered: EnteredNumber, earlier: readonly EarlierValue[], figures: number): boolean {
  const carried = carriedSum(
    earlier.map((each) => each.entered),
    figures,
  );
  return carried !== null && isSum(entered, carried, figures);
}

/** Mistakes in adding up the earlier values as they were entered. */
export function slipsInSum(
  entered: EnteredNumber,
  earlier: readonly EarlierValue[],
  figures: number,
): readonly Explanation[] {
  const all = earlier.flatMap(({ sources }) => sources);
  const sumOf = (change: (each: EarlierValue) => readonly EnteredNumber[]) => earlier.flatMap(change);
  const ways: { readonly mistake: Mistake; readonly terms: readonly EnteredNumber[] }[] = earlier.flatMap((one) => [
    { mistake: mistake("addendForgotten", one.sources), terms: sumOf((each) => (each === one ? [] : [each.entered])) },
    {
      mistake: mistake("addendSignTurned", one.sources),
      terms: sumOf((each) => [each === one ? negateNumber(each.entered) : each.entered]),
    },
    {
      mistake: mistake("sourceCountedTwice", one.sources),
      terms: sumOf((each) => (each === one ? [each.entered, each.entered] : [each.entered])),
    },
  ]);
  if (earlier.every((each) => each.entered.kind === "exact")) {
    const sizes = sumOf(({ entered: value }) => [isNegative(value) ? negateNumber(value) : value]);
    ways.push({ mistake: mistake("signsIgnored", all), terms: sizes });
  }
  ways.push({ mistake: mistake("signTurned"), terms: sumOf((each) => [negateNumber(each.entered)]) });
  return ways.flatMap(({ mistake: made, terms }) => {
    const carried = carriedSum(terms, figures);
    return carried !== null && isSum(entered, carried, figures) ? [explanationOf([made])] : [];
  });
}

function isNegative(number: EnteredNumber): boolean {
  return number.kind === "exact" && number.value.n < 0n;
}

const ON_VALUE: ReadonlySet<MistakeCode> = new Set([
  "signTurned",
  "prefixSlip",
  "peakAndRms",
  "peakToPeak",
  "conjugated",
  "degreesAsRadians",
]);
const IN_ZEROING: ReadonlySet<MistakeCode> = new Set([
  "sourceLeftOn",
  "everySourceLeftOn",
  "voltageSourceOpened",
  "currentSourceShorted",
  "zeroingSwapped",
  "dependentZeroed",
  "actingZeroed",
]);

/** What is known of an earlier addend: null of one that was not entered. */
export type AddendState = "right" | "wrong" | null;

/**
 * The explanations that agree with the earlier lines; all of them where none does. A mistake in a circuit can't be where
 * its addend was found rightly, nor one of zeroing where that was right.
 */
export function inAgreement(
  explanations: readonly Explanation[],
  stateOf: (sources: readonly PartId[]) => AddendState,
  areAllRight: boolean,
  zeroing: ZeroingJudgement | null,
): readonly Explanation[] {
  const agreeing = explanations.filter(({ mistakes: [first], addend }) => {
    if (first === undefined) return true;
    if (addend !== null) return stateOf(addend) !== "right";
    if (IN_SUM.has(first.code) || ON_VALUE.has(first.code)) return true;
    if (areAllRight || (first.code === "polarityTurned" && stateOf(first.parts) === "right")) return false;
    return agreesWithZeroing(first, zeroing);
  });
  return agreeing.length > 0 ? agreeing : explanations;
}

function agreesWithZeroing({ code, parts }: Mistake, zeroing: ZeroingJudgement | null): boolean {
  if (zeroing === null || zeroing.outcome === "unread") return true;
  if (zeroing.outcome === "right") return !IN_ZEROING.has(code);
  return zeroing.faults.some((fault) => parts.includes(fault.source)) && IN_ZEROING.has(code);
}
