import type { MistakeCode } from "../../../shared/check/mistakes";
import type { Line } from "./ways/question";
import { type Trial, trialOf, type Unfit } from "./ways/trial";
import type { Way } from "./ways/way";

/** How often a mistake was named, and what else explains the same values. */
export type Tally = {
  readonly code: MistakeCode;
  readonly trials: readonly Trial[];
  /** Tries that made no case because the value is 0, which many mistakes lead to. */
  readonly zeros: number;
  /** Tries that made no case because a mistake of another kind leads to the value. */
  readonly behind: number;
  /** Named as first, and as one of the first two, of all that explain the value entered. */
  readonly first: number;
  readonly firstTwo: number;
  /** The same with mistakes that lead to exactly the same value not counted as before it. */
  readonly firstOrTied: number;
  readonly firstTwoOrTied: number;
};

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
  const before = (trial: Trial, isTied: (found: Trial["found"][number]) => boolean): number => {
    const place = trial.found.findIndex(({ isMade }) => isMade);
    return place < 0 ? Number.POSITIVE_INFINITY : trial.found.slice(0, place).filter((each) => !isTied(each)).length;
  };
  const plain = trials.map((trial) => before(trial, () => false));
  const tied = trials.map((trial) => before(trial, ({ isSameValue }) => isSameValue || isByThousands));
  const upTo = (places: readonly number[], most: number): number => places.filter((place) => place <= most).length;
  return {
    code: way.code,
    trials,
    zeros: unfit.filter((why) => why === "zero").length,
    behind: unfit.filter((why) => why === "behind").length,
    first: upTo(plain, 0),
    firstTwo: upTo(plain, 1),
    firstOrTied: upTo(tied, 0),
    firstTwoOrTied: upTo(tied, 1),
  };
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
  const named = [...times].map(([other, count]) => [other === code ? ITSELF : other, count] as const);
  return named.sort(([a, m], [b, n]) => n - m || a.localeCompare(b));
}

export function linesOf({ trials }: Tally): readonly (readonly [Line, number])[] {
  const lines = ["addend", "group", "total", "equivalent"] as const;
  return lines
    .map((line) => [line, trials.filter((trial) => trial.line === line).length] as const)
    .filter(([, n]) => n > 0);
}

/** A tally as a paragraph. */
export function tallyText(tally: Tally): string {
  const { code, trials, zeros, behind, first, firstTwo, firstOrTied, firstTwoOrTied } = tally;
  const listed = (pairs: readonly (readonly [string, number])[]): string =>
    pairs.map(([name, count]) => `${name} ${count}`).join(", ");
  const same = listed(tiesOf(tally, true));
  const near = listed(tiesOf(tally, false));
  return [
    `${code}: ${trials.length} cases (${listed(linesOf(tally))}${zeros > 0 ? `; left out for a value of 0: ${zeros}` : ""}${behind > 0 ? `; left out for one of another kind: ${behind}` : ""})`,
    `  named first ${first}, within two ${firstTwo}; with equal values as ties ${firstOrTied}, ${firstTwoOrTied}`,
    ...(same === "" ? [] : [`  equal value: ${same}`]),
    ...(near === "" ? [] : [`  equal to the figures written: ${near}`]),
  ].join("\n");
}
