import { kindWithSymbol, type UnitSymbol } from "../quantity";

/** Powers of volt, ampere and second: every unit of a circuit is a product of these. Radians and degrees count 1. */
export type Dimension = { readonly volt: number; readonly ampere: number; readonly second: number };

export const PURE: Dimension = { volt: 0, ampere: 0, second: 0 };

const DIMENSIONS: { readonly [U in UnitSymbol]: Dimension } = {
  V: { volt: 1, ampere: 0, second: 0 },
  A: { volt: 0, ampere: 1, second: 0 },
  Ω: { volt: 1, ampere: -1, second: 0 },
  S: { volt: -1, ampere: 1, second: 0 },
  W: { volt: 1, ampere: 1, second: 0 },
  F: { volt: -1, ampere: 1, second: 1 },
  H: { volt: 1, ampere: -1, second: 1 },
  s: { volt: 0, ampere: 0, second: 1 },
  Hz: { volt: 0, ampere: 0, second: -1 },
  "rad/s": { volt: 0, ampere: 0, second: -1 },
  "°": PURE,
  "1": PURE,
};

export function dimensionOf(unit: UnitSymbol): Dimension {
  return DIMENSIONS[unit];
}

export function sameDimension(a: Dimension, b: Dimension): boolean {
  return a.volt === b.volt && a.ampere === b.ampere && a.second === b.second;
}

/** The dimension of a · bⁿ. */
export function timesPower(a: Dimension, b: Dimension, n: number): Dimension {
  return { volt: a.volt + n * b.volt, ampere: a.ampere + n * b.ampere, second: a.second + n * b.second };
}

/** The dimension of √a; null where the root has none that a quantity can have. */
export function rootOf(a: Dimension): Dimension | null {
  const root = { volt: a.volt / 2, ampere: a.ampere / 2, second: a.second / 2 };
  return Object.values(root).every(Number.isInteger) ? root : null;
}

/** The unit that counts this dimension, null where none of ours does. */
export function unitOfDimension(dimension: Dimension): UnitSymbol | null {
  if (sameDimension(dimension, PURE)) return "1";
  const units = Object.keys(DIMENSIONS) as UnitSymbol[];
  return units.find((unit) => sameDimension(DIMENSIONS[unit], dimension)) ?? null;
}

/** What a quantity of this dimension is, with its article: "a voltage (V)", "a quantity in V²/A". */
export function dimensionKind(dimension: Dimension): string {
  const unit = unitOfDimension(dimension);
  return unit === null ? `a quantity in ${dimensionText(dimension)}` : kindWithSymbol(unit);
}

/** `V²/A`, `1/V`: a dimension that has no unit of its own, as a product of units. */
export function dimensionText({ volt, ampere, second }: Dimension): string {
  const powers = [
    ["V", volt],
    ["A", ampere],
    ["s", second],
  ] as const;
  const over = powers.filter(([, power]) => power > 0).map(([unit, power]) => unit + exponentText(power));
  const under = powers.filter(([, power]) => power < 0).map(([unit, power]) => unit + exponentText(-power));
  const denominator = under.length > 1 ? `(${under.join("·")})` : under.join("");
  return (over.join("·") || "1") + (denominator && `/${denominator}`);
}

function exponentText(power: number): string {
  if (power === 1) return "";
  return `${power}`.replace(/\d/g, (digit) => "⁰¹²³⁴⁵⁶⁷⁸⁹".charAt(Number(digit)));
}
