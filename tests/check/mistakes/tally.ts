import type { MistakeCode } from "../../../shared/check/mistakes";
import { OF_MESHES } from "../../../shared/check/mistakes/mistake";
import type { Line } from "./ways/question";
import { type Found, type Trial, trialOf, type Unfit } from "./ways/trial";
import type { Way } from "./ways/way";

/** How often a mistake was named, and what else explains the same values. */
export type Tally = {
  readonly code: MistakeCode;
  readonly trials: readonly Trial[];
  /** Tries that made no case because the value is 0, which many mistakes lead to. */
  readonly zeros: number;
  /** Among all that explain the value, written with four figures. */
  readonly plain: Named;
  /** With mistakes that lead to exactly the same value not counted as before it; written with four figures, and three. */
  readonly orTied: Named;
  readonly orTiedByThree: Named;
};

/** In how many cases the mistake was named first, and as one of the first two. */
export type Named = { readonly first: number; readonly firstTwo: number };

/** Cases of each mistake. */
export const CASES = 50;
/** How a mistake of the same code on other parts is listed. */
export const ITSELF = "itself on other parts";
const MOST_TRIES = 2000;

/**
 * Mistakes that make a part, or a value, thousands of times too large or too small. That is an open, or a short, to the
 * figures that are written: what only agrees to those is no more before such a mistake than what agrees exactly.
 */
const BY_THOUSANDS: readonly MistakeCode[] = ["inputPrefixSlip", "capacitorInverted", "sumOfReciprocals"];

export function tallyOf(way: Way): Tally {
  const trials: Trial[] = [];
  const unfit: Unfit[] = [];
  for (let n = 0; trials.length < CASES && n < MOST_TRIES; n++) {
    const trial = trialOf(way, n);
    if (typeof trial === "string") unfit.push(trial);
    else trials.push(trial);
  }
  const isByThousands = BY_THOUSANDS.includes(way.code);
  const isTied = ({ isSameValue }: Found): boolean => isSameValue || isByThousands;
  const placed = (of: (trial: Trial) => readonly Found[], isBefore: (each: Found) => boolean): Named =>
    named(trials.map((trial) => placeIn(of(trial), isBefore, OF_MESHES.has(way.code))));
  return {
    code: way.code,
    trials,
    zeros: unfit.filter((why) => why === "zero").length,
    plain: placed(
      ({ found }) => found,
      () => false,
    ),
    orTied: placed(({ found }) => found, isTied),
    orTiedByThree: placed(({ foundByThree }) => foundByThree, isTied),
  };
}

/**
 * How many explanations stand before the mistake that was made; those that count as tied do not. A mistake in mesh
 * equations is not named where one of another kind leads to the value: then the first that is tied stands for it.
 */
function placeIn(found: readonly Found[], isTied: (each: Found) => boolean, isBehind: boolean): number {
  const made = found.findIndex(({ isMade }) => isMade);
  const place = made < 0 && isBehind ? found.findIndex(isTied) : made;
  return place < 0 ? Number.POSITIVE_INFINITY : found.slice(0, place).filter((each) => !isTied(each)).length;
}

function named(places: readonly number[]): Named {
  const upTo = (most: number): number => places.filter((place) => place <= most).length;
  return { first: upTo(0), firstTwo: upTo(1) };
}

/** In how many cases another mistake, by its code, explains the value as well: exactly, or to the figures written only. */
export function tiesOf({ code, trials }: Tally, isSameValue: boolean): readonly (readonly [string, number])[] {
  const times = new Map<string, number>();
  for (const { found } of trials) {
    const codes = new Set(
      found.filter((each) => !each.isMade && each.isSameValue === isSameValue).map((each) => each.code),
    );
    for (const other of codes) times.set(other, (times.get(other) ?? 0) + 1);
  }
  const counted = [...times].map(([other, count]) => [other === code ? ITSELF : other, count] as const);
  return counted.sort(([a, m], [b, n]) => n - m || a.localeCompare(b));
}

export function linesOf({ trials }: Tally): readonly (readonly [Line, number])[] {
  const lines = ["addend", "group", "total", "equivalent"] as const;
  return lines
    .map((line) => [line, trials.filter((trial) => trial.line === line).length] as const)
    .filter(([, n]) => n > 0);
}

/** A tally as a paragraph. */
export function tallyText(tally: Tally): string {
  const { code, trials, zeros, plain, orTied, orTiedByThree } = tally;
  const listed = (pairs: readonly (readonly [string, number])[]): string =>
    pairs.map(([name, count]) => `${name} ${count}`).join(", ");
  const behind = trials.filter(({ found }) => !found.some(({ isMade }) => isMade)).length;
  const both = ({ first, firstTwo }: Named): string => `${first} ${firstTwo}`;
  const same = listed(tiesOf(tally, true));
  const near = listed(tiesOf(tally, false));
  return [
    `${code}: ${trials.length} cases (${listed(linesOf(tally))}${zeros > 0 ? `; left out for a value of 0: ${zeros}` : ""})`,
    `  named first, within two: ${both(plain)}; with equal values as ties ${both(orTied)}, by three figures ${both(orTiedByThree)}`,
    ...(behind === 0 ? [] : [`  not named, since a mistake of another kind has the value: ${behind}`]),
    ...(same === "" ? [] : [`  equal value: ${same}`]),
    ...(near === "" ? [] : [`  equal to the figures written: ${near}`]),
  ].join("\n");
}
