import type { PartId } from "../../circuit";
import { comparableName } from "../characters";
import type { Givens } from "../givens";
import type { Meanings } from "./meanings";
import { wordMeaning } from "./names";

/** A short name such as `I2` and what it was read as: the current in a resistor, or the given value of a source. */
export type TakenName = { readonly name: string; readonly as: "current" | "value"; readonly part: PartId };

/** `I2`, and `i2`, by which many mean a mesh current; not what has primes, which is an addend of something wanted. */
const SHORT = /(?<![\p{L}\p{N}_])[Ii]_?\d+(?![\p{L}\p{N}_₀-₉'’′″‴(])/gu;

/**
 * The short names of an equation that may mean something else to whoever wrote it: `I2` stands for the current in R2, and
 * beside it `I1` for the source of that name, where there is one. None where nothing but sources in capital letters is meant.
 */
export function takenNames(text: string, givens: Givens, meanings: Meanings): readonly TakenName[] {
  const names = [...new Set(text.match(SHORT) ?? [])];
  const taken = names.flatMap((name): TakenName[] => {
    const meaning = wordMeaning(name, givens, meanings);
    if (meaning === undefined) {
      const source = [...givens.keys()].find((given) => comparableName(given) === comparableName(name));
      return source === undefined ? [] : [{ name, as: "value", part: source as PartId }];
    }
    const [term] = meaning.kind === "open" ? meaning.terms : [];
    const isResistors = term?.quantity.of === "current" && term.quantity.part === `R${name.replace(/\D/g, "")}`;
    return isResistors && term.quantity.of === "current" ? [{ name, as: "current", part: term.quantity.part }] : [];
  });
  return taken.some(({ name, as }) => as === "current" || name.startsWith("i")) ? taken : [];
}
