import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  absolute,
  add,
  compare,
  divide,
  equal,
  greatestCommonDivisor,
  integer,
  isZero,
  multiply,
  negate,
  ONE,
  type Rational,
  rational,
  rationalText,
  readRational,
  reciprocal,
  signOf,
  subtract,
  sum,
  toNumber,
  ZERO,
} from "../../shared/quantity";
import { rationals } from "./reading";

const nonZero = rationals.filter((a) => !isZero(a));

function isInLowestTerms({ n, d }: Rational): boolean {
  return d > 0n && greatestCommonDivisor(n, d) === 1n;
}

describe("the field of rationals", () => {
  it("adds and multiplies in any order and grouping", () => {
    fc.assert(
      fc.property(rationals, rationals, rationals, (a, b, c) => {
        expect(add(a, b)).toEqual(add(b, a));
        expect(multiply(a, b)).toEqual(multiply(b, a));
        expect(add(add(a, b), c)).toEqual(add(a, add(b, c)));
        expect(multiply(multiply(a, b), c)).toEqual(multiply(a, multiply(b, c)));
      }),
    );
  });

  it("multiplies a sum term by term", () => {
    fc.assert(
      fc.property(rationals, rationals, rationals, (a, b, c) => {
        expect(multiply(a, add(b, c))).toEqual(add(multiply(a, b), multiply(a, c)));
      }),
    );
  });

  it("has 0 and 1, and an opposite and a reciprocal that lead back to them", () => {
    fc.assert(
      fc.property(nonZero, (a) => {
        expect(add(a, ZERO)).toEqual(a);
        expect(multiply(a, ONE)).toEqual(a);
        expect(add(a, negate(a))).toEqual(ZERO);
        expect(multiply(a, reciprocal(a))).toEqual(ONE);
      }),
    );
  });

  it("takes subtraction and division back", () => {
    fc.assert(
      fc.property(rationals, nonZero, (a, b) => {
        expect(add(subtract(a, b), b)).toEqual(a);
        expect(multiply(divide(a, b), b)).toEqual(a);
      }),
    );
  });

  it("gives every result in lowest terms with a denominator above 0", () => {
    fc.assert(
      fc.property(rationals, nonZero, (a, b) => {
        const results = [
          add(a, b),
          subtract(a, b),
          multiply(a, b),
          divide(a, b),
          negate(a),
          reciprocal(b),
          absolute(a),
        ];
        expect(results.filter((result) => !isInLowestTerms(result))).toEqual([]);
      }),
    );
  });

  it("orders numbers as their difference is signed, and equal ones alone compare as 0", () => {
    fc.assert(
      fc.property(rationals, rationals, (a, b) => {
        expect(compare(a, b)).toBe(signOf(subtract(a, b)));
        expect(compare(a, b) === 0).toBe(equal(a, b));
        expect(compare(a, b)).toBe(-compare(b, a) + 0);
      }),
    );
  });

  it("sums any number of terms, none to 0", () => {
    expect(sum([])).toEqual(ZERO);
    expect(sum([rational(1n, 2n), rational(1n, 3n), rational(1n, 6n)])).toEqual(ONE);
  });
});

describe("making rationals", () => {
  it("brings 6/4, −6/4 and 6/−4 to lowest terms with the sign above", () => {
    expect(rational(6n, 4n)).toEqual({ n: 3n, d: 2n });
    expect(rational(-6n, 4n)).toEqual({ n: -3n, d: 2n });
    expect(rational(6n, -4n)).toEqual({ n: -3n, d: 2n });
    expect(rational(0n, -7n)).toEqual(ZERO);
  });

  it("throws for a denominator of 0, the reciprocal of 0, and a double that is no safe integer", () => {
    expect(() => rational(1n, 0n)).toThrow("denominator is 0, numerator 1");
    expect(() => divide(ONE, ZERO)).toThrow(RangeError);
    expect(() => reciprocal(ZERO)).toThrow("reciprocal of 0");
    expect(() => integer(0.5)).toThrow("0.5 is not a safe integer");
    expect(() => integer(2 ** 53)).toThrow(RangeError);
  });

  it("finds greatest common divisors below and above 2^53 alike", () => {
    expect(greatestCommonDivisor(12n, -18n)).toBe(6n);
    expect(greatestCommonDivisor(0n, 0n)).toBe(0n);
    expect(greatestCommonDivisor(0n, -5n)).toBe(5n);
    const prime = 2n ** 61n - 1n;
    expect(greatestCommonDivisor(prime * 12n, prime * 18n)).toBe(prime * 6n);
  });

  it("reads back the fractions it writes, and nothing else", () => {
    fc.assert(
      fc.property(rationals, (a) => {
        expect(readRational(rationalText(a))).toEqual(a);
      }),
    );
    expect(rationalText(rational(6n, 5n))).toBe("6/5");
    expect(rationalText(rational(-12n, 2n))).toBe("-6");
    expect(["", "1/0", "1.5", "−1", "1/", "/2", "1/-2", " 1", "1e3"].filter((text) => readRational(text))).toEqual([]);
  });
});

describe("the nearest double", () => {
  it("is the double itself for every number that a double holds exactly", () => {
    // A double is m · 2^e with whole m: taken apart here by its bits, in integers.
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (double) => {
        expect(toNumber(exactly(double))).toBe(double + 0);
      }),
      { numRuns: 1000 },
    );
  });

  it("is no further from the number than the doubles beside it, for numerators and denominators of 300 digits", () => {
    const huge = fc.bigInt(1n, 10n ** 300n);
    fc.assert(
      fc.property(huge, huge, fc.boolean(), (n, d, isNegative) => {
        const exact = rational(isNegative ? -n : n, d);
        const nearest = toNumber(exact);
        fc.pre(Math.abs(nearest) > 2 ** -1000 && Math.abs(nearest) < 2 ** 1000);
        const distance = absolute(subtract(exactly(nearest), exact));
        const step = rational(1n, 2n);
        const ulp = absolute(subtract(exactly(nextAbove(nearest)), exactly(nearest)));
        expect(compare(distance, multiply(ulp, step))).not.toBe(1);
      }),
      { numRuns: 300 },
    );
  });

  it("rounds a tie to even, and a hair off the tie to the hair's side", () => {
    // 2^53 + 1 lies midway between the doubles 2^53 and 2^53 + 2; 2^53 + 3 midway between + 2 and + 4.
    const tie = 2n ** 53n + 1n;
    const hair = 10n ** 60n;
    expect(toNumber(rational(tie))).toBe(2 ** 53);
    expect(toNumber(rational(tie + 2n))).toBe(2 ** 53 + 4);
    expect(toNumber(rational(tie * hair + 1n, hair))).toBe(2 ** 53 + 2);
    expect(toNumber(rational(-tie * hair - 1n, hair))).toBe(-(2 ** 53) - 2);
  });

  it("goes to ±Infinity and to 0 beyond the range of doubles", () => {
    expect(toNumber(rational(10n ** 400n))).toBe(Number.POSITIVE_INFINITY);
    expect(toNumber(rational(-(10n ** 400n)))).toBe(Number.NEGATIVE_INFINITY);
    expect(toNumber(rational(1n, 10n ** 400n))).toBe(0);
    expect(toNumber(rational(10n ** 1000n + 1n, 10n ** 1000n))).toBe(1);
    expect(toNumber(rational(10n ** 400n, 3n * 10n ** 399n))).toBe(10 / 3);
  });

  it("keeps the smallest doubles within one place", () => {
    const smallest = rational(1n, 2n ** 1074n);
    expect(toNumber(smallest)).toBe(Number.MIN_VALUE);
    expect(toNumber(multiply(smallest, integer(12345)))).toBe(12345 * Number.MIN_VALUE);
  });
});

/** The number that a double is, from its 64 bits (IEEE 754): (−1)^sign · fraction · 2^(exponent − 1075). */
function exactly(double: number): Rational {
  const bits = new DataView(new ArrayBuffer(8));
  bits.setFloat64(0, double);
  const whole = bits.getBigUint64(0);
  const biased = (whole >> 52n) & 0x7ffn;
  const stored = whole & 0xf_ffff_ffff_ffffn;
  const fraction = biased === 0n ? stored : stored | (1n << 52n);
  const power = (biased === 0n ? 1n : biased) - 1075n;
  const signed = whole >> 63n === 1n ? -fraction : fraction;
  return power >= 0n ? rational(signed << power) : rational(signed, 1n << -power);
}

/** The next double away from 0. */
function nextAbove(double: number): number {
  const bits = new DataView(new ArrayBuffer(8));
  bits.setFloat64(0, double);
  bits.setBigUint64(0, bits.getBigUint64(0) + 1n);
  return bits.getFloat64(0);
}
