import { type Amount, numberOf } from "../../solve";
import type { Complex } from "../../solve/complex";
import { asComplex, type EnteredNumber } from "../value";

/**
 * What a value comes to in doubles, as one point: the sum of its constant and its phasors, each taken as a complex
 * number. Two values that agree have points that agree, so what is far off in points need not be looked at further.
 * `size` is that of all terms together, `slack` what rounding may have changed. `omega` is the one angular frequency,
 * 0 for a constant, NaN for several.
 */
export type Rough = {
  readonly re: number;
  readonly im: number;
  readonly size: number;
  readonly slack: number;
  readonly omega: number;
};

/** Share of the largest number of a calculation that rounding may have changed. */
export const SLACK = 1e-11;

export function roughOf({ constant, phasors }: Amount): Rough {
  const still = constant === null ? null : numberOf(constant);
  const points = phasors.map(({ omega, value }) => roughPoint(value, omega, 0));
  return sumOfRough(still === null ? points : [roughPoint({ re: still, im: 0 }, 0, 0), ...points]);
}

export function roughPoint({ re, im }: Complex, omega: number, slack: number): Rough {
  return { re, im, size: Math.hypot(re, im), slack, omega };
}

export function sumOfRough(points: readonly Rough[]): Rough {
  const [first = { re: 0, im: 0, size: 0, slack: 0, omega: 0 }, ...others] = points;
  return others.reduce(addRough, first);
}

export function scaledRough({ re, im, size, slack, omega }: Rough, factor: number): Rough {
  const times = Math.abs(factor);
  return { re: factor * re, im: factor * im, size: times * size, slack: times * slack, omega };
}

/** The sum of two; a constant of exactly 0 brings no frequency of its own. */
export function addRough(a: Rough, b: Rough): Rough {
  if (isNothing(a)) return b;
  if (isNothing(b)) return a;
  const [re, im] = [a.re + b.re, a.im + b.im];
  const isOne = a.omega === b.omega;
  const slack = a.slack + b.slack + SLACK * (a.size + b.size);
  return { re, im, size: isOne ? Math.hypot(re, im) : a.size + b.size, slack, omega: isOne ? a.omega : Number.NaN };
}

function isNothing({ size, slack }: Rough): boolean {
  return size === 0 && slack === 0;
}

/** The point of what was entered, in the measure of the values that it is held against. */
export type EnteredPoint = { readonly re: number; readonly im: number };

export function enteredPoint(entered: EnteredNumber, measure: "peak" | "rms"): EnteredPoint {
  if (entered.kind !== "time") return asComplex(entered) ?? { re: 0, im: 0 };
  const factor = measure === "rms" ? Math.SQRT1_2 : 1;
  const { constant, waves } = entered.value;
  return {
    re: waves.reduce((total, { phasor }) => total + factor * phasor.re, constant),
    im: waves.reduce((total, { phasor }) => total + factor * phasor.im, 0),
  };
}

/**
 * Whether what was entered, divided by `factor`, may be this value to so many figures: false only where it certainly is
 * not. A figure's half unit is at most half of 10^(1 − figures) of the value, and twice that is allowed.
 */
export function mayBe({ re, im, size, slack }: Rough, entered: EnteredPoint, figures: number, factor = 1): boolean {
  const [x, y] = [entered.re - factor * re, entered.im - factor * im];
  const room = Math.abs(factor) * (10 ** (1 - figures) * size + slack);
  return x * x + y * y <= room * room;
}
