import fc from "fast-check";

// Small rationals: their sums and products stay readable in a counterexample, and hit coincidences that real values miss.

const fraction = (n: number, d: number): string => (n % d === 0 ? `${n / d}` : `${n}/${d}`);
const denominator = fc.constantFrom(1, 1, 1, 2, 3, 4, 7);

/** `"7/3"`, greater than 0. */
export const positiveText: fc.Arbitrary<string> = fc
  .tuple(fc.integer({ min: 1, max: 20 }), denominator)
  .map(([n, d]) => fraction(n, d));

/** `"-5/2"`, of either sign, not 0. */
export const signedText: fc.Arbitrary<string> = fc
  .tuple(positiveText, fc.boolean())
  .map(([text, isNegative]) => (isNegative ? `-${text}` : text));

/** Picks something of a list whose length is not known yet: see {@link pick}. */
export const choice: fc.Arbitrary<number> = fc.nat({ max: 1000 });

/** The member of a list that a {@link choice} stands for. */
export function pick<T>(list: readonly T[], choice: number): T {
  const member = list[choice % list.length];
  if (member === undefined) throw new Error("nothing to pick from");
  return member;
}
