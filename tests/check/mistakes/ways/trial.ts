import type { Mistake } from "../../../../shared/check/mistakes";
import { sizeOf } from "./complexNumber";
import { diagnosisOf } from "./diagnosis";
import { Dice, seedOf } from "./dice";
import { fileOf } from "./fileOf";
import { addendsOf, apart, type Line, lineOf, rightValueOf, type Value } from "./question";
import type { Case, Way } from "./way";
import { unitOf, written } from "./written";

/** An explanation that was found for an entry. */
export type Found = {
  /** Its codes: one, or two joined by +. */
  readonly code: string;
  /** Whether it is the mistake that was made, with its parts. */
  readonly isMade: boolean;
  /** Whether it still explains the value when that is entered with all its figures. */
  readonly isSameValue: boolean;
};

/** One mistake made, entered and explained. */
export type Trial = {
  readonly line: Line;
  /** In the order in which they are named, for the value written with four figures, and with three. */
  readonly found: readonly Found[];
  readonly foundByThree: readonly Found[];
  /** The case as text that can be tried again. */
  readonly text: string;
};

/** Why a case is none: the dice gave no place for the mistake, or its value tells nothing. */
export type Unfit = "noPlace" | "rightValue" | "zero";

/** Figures that count in the room where nothing else is said. */
const FIGURES = 3;
/** Figures of an entry that tells exactly equal values from others. */
const ALL_FIGURES = 9;

/** The n-th try to make a mistake. */
export function trialOf({ code, make, isZero = false }: Way, n: number): Trial | Unfit {
  const dice = new Dice(seedOf(code, n));
  const made = make(dice);
  if (made === null) return "noPlace";
  const wrong = settled(made);
  const right = rightValueOf(made.question);
  if (wrong === null || right === null || apart(wrong, right) < 0.01) return "rightValue";
  if (!isZero && [...wrong.values()].every((x) => sizeOf(x) === 0)) return "zero";
  const isConstant = [...wrong.keys()].every((omega) => omega === 0);
  const form = made.form ?? (isConstant ? "number" : "phasor");
  const { parts, node = "", question } = made;
  const { explained } = diagnosisOf(question);
  const entry = (figures: number): string => written(wrong, unitOf(question), { figures, form });
  const exactly = new Set(explained(entry(12), ALL_FIGURES).map((each) => JSON.stringify(each)));
  const foundFor = (figures: number): readonly Found[] =>
    explained(entry(figures), FIGURES).map((explanation) => ({
      code: explanation.mistakes.map((each) => each.code).join("+"),
      isMade: isIt(code, made, explanation.mistakes),
      isSameValue: exactly.has(JSON.stringify(explanation)),
    }));
  const text = `${code} ${n}: ${entry(4)} for ${question.acting?.join() ?? "all"}, made on ${parts?.join()} ${node} in ${JSON.stringify(fileOf(question))}`;
  return { line: lineOf(question), found: foundFor(4), foundByThree: foundFor(3), text };
}

/** The wrong value without what rounding leaves of zeros; null where the right value itself is one. */
export function settled({ question, wrong }: Case): Value | null {
  const addends = addendsOf(question) ?? [];
  const sizes = (values: readonly Value[]): number[] => values.flatMap((value) => [...value.values()].map(sizeOf));
  const right = rightValueOf(question);
  const size = Math.max(...sizes(right === null ? [] : [right]), 0);
  if (size < 1e-9 * Math.max(...sizes(question.acting === null ? addends : []), 0)) return null;
  const rounded = (x: number): number => (Math.abs(x) < 1e-9 * size ? 0 : x);
  return new Map([...wrong].map(([omega, { re, im }]) => [omega, { re: rounded(re), im: rounded(im) }]));
}

/** Whether this is the mistake of a case, on its parts. */
export function isIt(code: string, { parts, node }: Case, [only, ...others]: readonly Mistake[]): boolean {
  if (only === undefined || others.length > 0 || only.code !== code) return false;
  const isOnParts = parts === null || [...only.parts].sort().join() === [...parts].sort().join();
  return isOnParts && (node === undefined || only.node === node);
}
