import type { Rational } from "./rational";
import { type Quantity, quantity, type UnitSymbol } from "./unit";

/** An exact number with its unit, so that one kind of quantity can be told from another at run time too. */
export type UnitValue<U extends UnitSymbol = UnitSymbol> = {
  [K in U]: { readonly value: Quantity<K>; readonly unit: K };
}[U];

export function unitValue<U extends UnitSymbol>(value: Rational, unit: U): UnitValue<U> {
  // A generic U is not resolved to its members here, though each of them gives exactly this pair.
  return { value: quantity(value, unit), unit } as unknown as UnitValue<U>;
}
