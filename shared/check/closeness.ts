import { type Complex, conjugate, magnitude, multiplyComplex, phaseDegrees } from "../solve/complex";

/** Room for what doubles lose at the edge of a tolerance. */
const GUARD = 1 + 1e-9;

/** Half a unit of the last of `figures` significant figures of a number of this size. */
export function halfUnit(size: number, figures: number): number {
  const [, exponent] = size.toExponential().split("e");
  return 0.5 * 10 ** (Number(exponent) - figures + 1) * GUARD;
}

/** Whether a number is another one to so many significant figures of the latter. */
export function isClose(value: number, right: number, figures: number): boolean {
  return right === 0 ? value === 0 : Math.abs(value - right) <= halfUnit(Math.abs(right), figures);
}

/** Whether an angle between two phasors is within half a unit of its last figure: 0.05° for three figures. */
export function isPhaseClose(value: Complex, right: Complex, figures: number): boolean {
  const turn = phaseDegrees(multiplyComplex(value, conjugate(right)));
  return Math.abs(turn) <= 0.5 * 10 ** (2 - figures) * GUARD;
}

/**
 * Whether a phasor is another one to so many figures: as a point of the plane, which suits rectangular form, or in size
 * and phase, which suits polar form.
 */
export function isPhasorClose(value: Complex, right: Complex, figures: number): boolean {
  const size = magnitude(right);
  const apart = Math.hypot(value.re - right.re, value.im - right.im);
  if (apart <= halfUnit(size, figures)) return true;
  return isClose(magnitude(value), size, figures) && isPhaseClose(value, right, figures);
}

/** n ≠ 0 where the ratio is 10ⁿ to so many figures; null for any other. */
export function powerOfTenIn(ratio: number, figures: number): number | null {
  const power = Math.round(Math.log10(ratio));
  return power !== 0 && isClose(ratio / 10 ** power, 1, figures) ? power : null;
}
