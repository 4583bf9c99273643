import type { PartId } from "../../circuit";
import type { Rational } from "../../quantity";
import { type Amount, magnitude, numberOf } from "../../solve";
import { complex } from "../../solve/complex";
import { isRight } from "../judge";
import type { RightNumber } from "../rightValue";
import type { EnteredNumber } from "../value";
import { negatedAmount, sumOfAmounts } from "./amounts";
import { type Candidates, candidatesOf } from "./candidates";
import { type Mistake, mistake, surpriseOf } from "./mistake";
import { actingCircuit, amountIn, type Target } from "./target";
import { prefixSlips, signTurned } from "./valueSlips";

/** One mistake, or two, that lead to the value entered. */
export type Explanation = {
  readonly mistakes: readonly Mistake[];
  /** For a total: the sources of the addend in which it was made, where it was not made in the sum itself. */
  readonly addend: readonly PartId[] | null;
};

/** Figures that are compared at most: beyond them doubles tell nothing. */
const MOST_FIGURES = 10;

/**
 * The mistakes that lead to exactly the value entered, within the rounding that it was written with, the least
 * surprising first; none where no mistake of the catalogue, and no pair of the second tier, leads there. Pairs are
 * looked for only where no single mistake serves.
 * `figures` are those that count: a shorter number is taken to have as many.
 */
export function explain(
  target: Target,
  entered: EnteredNumber,
  figures: number,
  measure: "peak" | "rms",
): readonly Explanation[] {
  const candidates = candidatesOf(target);
  return candidates === null ? [] : explainAmong(target, candidates, entered, figures, measure);
}

/** {@link explain}, with candidates that were found before: they depend on the circuit alone. */
export function explainAmong(
  target: Target,
  candidates: Candidates,
  entered: EnteredNumber,
  figures: number,
  measure: "peak" | "rms",
): readonly Explanation[] {
  const compared = figuresOf(entered, figures);
  const right = rightNumberOf(candidates.right, measure);
  const isEntered = (value: Amount): boolean => isRight(entered, rightNumberOf(value, measure), compared);
  if (isRight(entered, right, compared)) return [];
  const single = candidates.wrong.filter(({ value }) => isEntered(value)).map(({ mistake }) => explanation([mistake]));
  if (single.length > 0) return inOrder(single);
  const pairs = [...carried(target), ...withSlips(candidates), ...twoAddends(target)];
  return inOrder(pairs.filter(({ value }) => isEntered(value)).map(({ explanation }) => explanation));
}

function explanation(mistakes: readonly Mistake[], addend: readonly PartId[] | null = null): Explanation {
  return { mistakes, addend };
}

/** The least surprising first, each once. */
function inOrder(explanations: readonly Explanation[]): readonly Explanation[] {
  const byText = new Map(explanations.map((each) => [JSON.stringify(each), each]));
  const surprise = ({ mistakes }: Explanation): number => mistakes.reduce((total, each) => total + surpriseOf(each), 0);
  return [...byText.values()].sort((a, b) => surprise(a) - surprise(b));
}

type Explained = { readonly explanation: Explanation; readonly value: Amount };

/** Each mistake of one circuit or sum with a sign turned, or a prefix slipped, on top. */
function withSlips({ wrong }: Candidates): readonly Explained[] {
  return wrong
    .filter(({ mistake: { code } }) => code !== "signTurned" && code !== "prefixSlip")
    .flatMap((first) =>
      [signTurned(first.value), ...prefixSlips(first.value)].map((second) => ({
        explanation: explanation([first.mistake, second.mistake]),
        value: second.value,
      })),
    );
}

type Addend = { readonly sources: readonly PartId[]; readonly amount: Amount };

function addendsOf({ circuit, wanted, grouping, sources }: Target): readonly Addend[] {
  if (sources !== null || grouping.length < 2 || wanted.kind === "power") return [];
  const addends = grouping.map((each) => ({ sources: each, amount: amountIn(actingCircuit(circuit, each), wanted) }));
  const known = addends.flatMap(({ sources: each, amount }) => (amount === null ? [] : [{ sources: each, amount }]));
  return known.length === addends.length ? known : [];
}

/** Totals rightly added up from addends of which one was found with a mistake. */
function carried(target: Target): readonly Explained[] {
  const addends = addendsOf(target);
  return addends.flatMap((one) => {
    const others = addends.filter((each) => each !== one).map(({ amount }) => amount);
    const wrong = candidatesOf({ ...target, sources: one.sources })?.wrong ?? [];
    return wrong.map(({ mistake, value }) => ({
      explanation: explanation([mistake], one.sources),
      value: sumOfAmounts([...others, value]),
    }));
  });
}

/** Two addends of the sum at fault: forgotten, or with their sign turned. */
function twoAddends(target: Target): readonly Explained[] {
  const addends = addendsOf(target);
  const ways = (one: Addend): readonly Slip[] => [
    { mistake: mistake("addendForgotten", one.sources), of: one, amounts: [] },
    { mistake: mistake("addendSignTurned", one.sources), of: one, amounts: [negatedAmount(one.amount)] },
  ];
  const slips = addends.flatMap(ways);
  return slips.flatMap((first, i) =>
    slips.slice(i + 1).flatMap((second): Explained[] => {
      if (first.of === second.of) return [];
      const others = addends.filter((each) => each !== first.of && each !== second.of).map(({ amount }) => amount);
      const value = sumOfAmounts([...others, ...first.amounts, ...second.amounts]);
      return [{ explanation: explanation([first.mistake, second.mistake]), value }];
    }),
  );
}

type Slip = { readonly mistake: Mistake; readonly of: Addend; readonly amounts: readonly Amount[] };

/** As many figures as the value entered has, and no fewer than count; a fraction or a sum of doubles has them all. */
function figuresOf(entered: EnteredNumber, least: number): number {
  if (entered.kind !== "exact") return least;
  const digits = decimalDigits(entered.value);
  return Math.max(least, Math.min(digits ?? MOST_FIGURES, MOST_FIGURES));
}

/** Significant digits of a number that is a decimal one; null for any other. */
function decimalDigits({ n, d }: Rational): number | null {
  let rest = d;
  for (const prime of [2n, 5n]) while (rest % prime === 0n) rest /= prime;
  if (rest !== 1n) return null;
  // With as many zeros behind as d can take up, the digits of n/d are those of a whole number.
  const whole = (n < 0n ? -n : n) * 10n ** BigInt(d.toString(2).length);
  return (whole / d).toString().replace(/0+$/, "").length;
}

function rightNumberOf({ constant, phasors }: Amount, measure: "peak" | "rms"): RightNumber {
  if (phasors.length === 0) {
    if (constant?.numbers === "exact") return { kind: "exact", value: constant.value };
    return { kind: "double", value: constant === null ? 0 : numberOf(constant) };
  }
  const terms = phasors.map(({ omega, value }) => ({ omega, phasor: value }));
  const still = constant === null ? [] : [{ omega: 0, phasor: complex(numberOf(constant)) }];
  const isThere = ({ phasor }: (typeof terms)[number]): boolean => magnitude(phasor) > 0;
  return { kind: "terms", terms: [...still, ...terms].filter(isThere), measure };
}
