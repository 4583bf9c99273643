import type { PartId } from "../../circuit";
import { negate, ONE, type Rational, toNumber } from "../../quantity";
import type { Amount } from "../../solve";
import { negatedAmount, scaledAmount, sumOfAmounts } from "./amounts";
import { type EnteredValue, isCandidate } from "./enteredValue";
import { type Explanation, explanationOf } from "./explanation";
import { type Mistake, mistake } from "./mistake";
import { addRough, type Rough, roughOf, sumOfRough } from "./rough";
import type { Candidate } from "./target";
import { SLIPS, thousands } from "./valueSlips";

/** One addend of a total: its value, and what mistakes make of it. */
export type Addend = {
  readonly sources: readonly PartId[];
  readonly amount: Amount;
  readonly wrong: readonly Candidate[];
};

/** A sign turned or a prefix slipped on top of another mistake: by what it multiplies. */
const FACTORS: readonly { readonly mistake: Mistake; readonly times: Rational; readonly factor: number }[] = [
  { mistake: mistake("signTurned"), times: negate(ONE), factor: -1 },
  ...SLIPS.map((n) => ({ mistake: mistake("prefixSlip"), times: thousands(n), factor: toNumber(thousands(n)) })),
];

/**
 * Each mistake of one circuit or sum with a sign turned, or a prefix slipped, on top. Not where such a slip leads there
 * from the right value: a mistake that changes nothing would then count as one, too.
 */
export function withSlips(right: Amount, wrong: readonly Candidate[], entered: EnteredValue): readonly Explanation[] {
  const others = wrong.filter(({ mistake: { code } }) => code !== "signTurned" && code !== "prefixSlip");
  const factors = FACTORS.filter(({ times }) => !entered.is(scaledAmount(right, times)));
  return others.flatMap(({ mistake: first, rough, amount }) =>
    factors
      .filter(({ factor, times }) => {
        if (rough !== null && !entered.mayBe(rough, factor)) return false;
        const value = amount();
        return value !== null && entered.is(scaledAmount(value, times));
      })
      .map(({ mistake: second }) => explanationOf([first, second])),
  );
}

/** Totals rightly added up from addends of which one was found with a mistake. */
export function carried(addends: readonly Addend[], entered: EnteredValue): readonly Explanation[] {
  return addends.flatMap((one) => {
    const others = addends.filter((each) => each !== one).map(({ amount }) => amount);
    const rest = sumOfRough(others.map(roughOf));
    return one.wrong
      .filter((candidate) => isCandidate(entered, inSum(candidate, others, rest)))
      .map(({ mistake: made }) => explanationOf([made], one.sources));
  });
}

/** A wrong addend with the right others beside it. */
function inSum({ mistake: made, rough, amount }: Candidate, others: readonly Amount[], rest: Rough): Candidate {
  return {
    mistake: made,
    rough: rough && addRough(rough, rest),
    amount: () => {
      const value = amount();
      return value && sumOfAmounts([...others, value]);
    },
  };
}

/** Two addends of the sum at fault: forgotten, or with their signs turned. */
export function twoAddends(addends: readonly Addend[], entered: EnteredValue): readonly Explanation[] {
  const slips = addends.flatMap((of) => [
    { mistake: mistake("addendForgotten", of.sources), of, amounts: [] },
    { mistake: mistake("addendSignTurned", of.sources), of, amounts: [negatedAmount(of.amount)] },
  ]);
  return slips.flatMap((first, i) =>
    slips.slice(i + 1).flatMap((second): Explanation[] => {
      if (first.of === second.of) return [];
      const others = addends.filter((each) => each !== first.of && each !== second.of).map(({ amount }) => amount);
      const value = sumOfAmounts([...others, ...first.amounts, ...second.amounts]);
      return entered.is(value) ? [explanationOf([first.mistake, second.mistake])] : [];
    }),
  );
}
