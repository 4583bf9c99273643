import type { NodeId, PartId, Wanted, Winding } from "../../circuit";
import { ZERO } from "../../quantity";
import { addNumbers, negateNumber } from "../numbers";
import type { EnteredNumber, Value } from "../value";

/**
 * Something that a circuit leaves open until it is solved. A node's voltage is counted to the reference node, a part's
 * voltage from its plus to its minus terminal, its current through it in that direction (see `circuit/part.ts`).
 */
export type Quantity =
  | { readonly of: "node"; readonly node: NodeId }
  | { readonly of: "current"; readonly part: PartId; readonly winding: Winding }
  | { readonly of: "voltage"; readonly part: PartId }
  | { readonly of: "wanted"; readonly wanted: Wanted };

/** A quantity with all sources of the place on, or in one of its addends by place in the grouping. */
export type Located = { readonly quantity: Quantity; readonly addend: number | null };

/** What a name stands for: a value that is given, or quantities added up, each with its sign. */
export type Meaning =
  | { readonly kind: "given"; readonly value: Value }
  | {
      readonly kind: "open";
      readonly terms: readonly { readonly sign: 1 | -1; readonly quantity: Quantity }[];
      readonly dimension: Exclude<Value["dimension"], "open">;
    };

/** The number of a quantity: from the solution, or any other one to see what follows; null where it has none. */
export type Numbers = (located: Located) => EnteredNumber | null;

/** The value of a name, null where one of its quantities has none. */
export function meantValue(meaning: Meaning, addend: number | null, numbers: Numbers): Value | null {
  if (meaning.kind === "given") return meaning.value;
  let total: EnteredNumber | null = null;
  for (const { sign, quantity } of meaning.terms) {
    const found = numbers({ quantity, addend });
    if (found === null) return null;
    const number = sign === 1 ? found : negateNumber(found);
    total = total === null ? number : addNumbers(total, number);
  }
  return { number: total ?? { kind: "exact", value: ZERO }, dimension: meaning.dimension };
}

/** The same text for the same quantity, whatever it is called. */
export function keyOf({ quantity, addend }: Located): string {
  return JSON.stringify([quantity, addend]);
}
