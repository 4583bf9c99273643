import { ENTRY_LIMIT } from "../characters";
import { refuse, Unreadable, unlessUnreadable } from "../entryProblem";
import type { Givens } from "../givens";
import type { EquationJudgement } from "./equationJudgement";
import { faultOf } from "./fault";
import { freeNumbers } from "./freeNumbers";
import { meaningsOf } from "./meanings";
import { nameReader } from "./names";
import type { EquationPlace } from "./place";
import { keyOf, type Numbers } from "./quantity";
import { readSide, type Side } from "./side";
import { takenNames } from "./takenNames";

/** Most sides of one equation: `a = b = c` has three. */
const SIDE_LIMIT = 8;
export type EquationRules = {
  /** Significant figures that count: numbers with as many may have been rounded. */
  readonly figures: number;
  /** Chooses the values by which an identity is known; any whole number. */
  readonly seed: number;
};

/**
 * Judges an equation that a learner writes of a circuit, by putting the exact solution in: `I1 = I2 + I3`,
 * `(Va − 15 V)/4.7k + Va/3.3k = 8 mA`, `V(a, b) = R1 · I(R1)`. With sources that act alone it is about the circuit in which
 * only these act, and the other independent sources are 0.
 *
 * Names are the parts' (their given values), those of wanted quantities, and voltages and currents as `meaningsOf` has
 * them. A node's voltage is counted to the reference node; a part's voltage from its plus to its minus terminal, and its
 * current through it in that direction. `Ix′` is the first addend of the whole circuit's Ix.
 *
 * Sinusoids are phasors where one frequency acts, else functions of time. A number with as many figures as count may be
 * off by half a unit of its last one; shorter ones are meant as they stand. Nothing is run, and size and time are bounded
 * as they are for an entry. Of what is hidden no more is said than how the two sides compare.
 */
export function judgeEquation(text: string, place: EquationPlace, rules: EquationRules): EquationJudgement {
  let refusal: Unreadable | null = null;
  for (const form of place.forms) {
    try {
      return judged(text, place, form, rules);
    } catch (error) {
      if (!(error instanceof Unreadable)) throw error;
      // Written as functions of time where phasors were expected, or the other way about.
      if (refusal === null || refusal.problem.code === "phasorAndTime") refusal = error;
      if (!["phasorAndTime", "timesTime", "functionOfTime"].includes(error.problem.code)) break;
    }
  }
  if (refusal === null) throw new Error("judgeEquation: a place without a form");
  return { outcome: "unread", problem: refusal.problem, at: refusal.at ?? 0 };
}

type Form = EquationPlace["forms"][number];

function judged(text: string, place: EquationPlace, form: Form, rules: EquationRules): EquationJudgement {
  const sides = sidesOf(text);
  const meanings = meaningsOf(place);
  const used = new Set<string>();
  const read = (numbers: Numbers): readonly Side[] => {
    const names = nameReader(place, form.givens, meanings, numbers);
    const { omegas, measure } = place;
    const reader = { givens: form.givens, measure, names, omegas, figures: rules.figures };
    return sides.map(({ text: side, start }) => readSide(side, start, reader));
  };
  const real = read((located) => {
    used.add(keyOf(located));
    return form.numbers(located);
  });
  const fault = faultOf(real, form.givens, rules.figures);
  if (fault) {
    const taken = takenNames(text, form.givens, meanings);
    return { outcome: "false", diagnosis: fault, ...(taken.length > 0 && { taken }) };
  }
  if (used.size === 0) return { outcome: "trueButEmpty", why: "givens" };
  const isPhasor = form.form === "phasors" && place.omegas.length > 0;
  const isIdentity = [0, 1, 2].every((round) =>
    holds(() => read(freeNumbers(rules.seed + round, isPhasor)), form.givens),
  );
  return isIdentity ? { outcome: "trueButEmpty", why: "identity" } : { outcome: "true" };
}

/** The sides of an equation, each with where it starts. */
function sidesOf(text: string): readonly { readonly text: string; readonly start: number }[] {
  if (text.length > ENTRY_LIMIT) refuse({ code: "tooLong", limit: ENTRY_LIMIT });
  if (text.trim() === "") refuse({ code: "empty" });
  const parts = text.split(/[=≈]/);
  if (parts.length === 1) refuse({ code: "equalsMissing" });
  if (parts.length > SIDE_LIMIT) refuse({ code: "tooManySides", limit: SIDE_LIMIT });
  let start = 0;
  return parts.map((part) => {
    const side = { text: part, start };
    if (part.trim() === "") throw new Unreadable({ code: "sideMissing" }, start);
    start += part.length + 1;
    return side;
  });
}

/** Whether an equation is true with other numbers, to the last digit. */
function holds(read: () => readonly Side[], givens: Givens): boolean {
  // With these numbers it may divide by 0, for one: then they do not show it to be true.
  return unlessUnreadable(() => faultOf(read(), givens, Number.POSITIVE_INFINITY) === null) ?? false;
}
