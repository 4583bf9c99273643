import { comparableName } from "./characters";
import type { Reader } from "./reader";
import type { Value } from "./value";

/**
 * What a part of this name stands for, written as people write it (`R1`, `r1`, `R₁`, `R_1`); null for a part that is no
 * single value, undefined where no part, or more than one, is meant.
 */
export function findGiven({ givens }: Pick<Reader, "givens">, name: string): Value | null | undefined {
  const exact = givens.get(name);
  if (exact !== undefined) return exact;
  const alike = [...givens].filter(([given]) => comparableName(given) === comparableName(name));
  return alike.length === 1 ? alike[0]?.[1] : undefined;
}
