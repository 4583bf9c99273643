import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { greatestCommonDivisor, safeCommonDivisor, safeRemainder } from "../../shared/quantity";

/** Whole numbers of any length up to `bits`, short ones as often as long ones. */
function wholes(bits: number): fc.Arbitrary<bigint> {
  return fc.integer({ min: 1, max: bits }).chain((length) => fc.bigInt({ min: 0n, max: 2n ** BigInt(length) }));
}

const safe = fc.oneof(fc.maxSafeNat(), fc.nat({ max: 2 ** 27 }), fc.integer({ min: 2 ** 53 - 1000, max: 2 ** 53 - 1 }));

describe("the greatest common divisor", () => {
  it("is what Euclid's plain algorithm finds, for numbers of any length and sign", () =>
    fc.assert(
      fc.property(wholes(2500), wholes(2500), wholes(200), fc.boolean(), (a, b, common, isNegative) => {
        const x = a * common;
        const y = (isNegative ? -b : b) * common;
        expect(greatestCommonDivisor(x, y)).toBe(plain(x, y));
      }),
      { numRuns: 3000 },
    ));

  it("of neighbours in Fibonacci's sequence, where every quotient is 1, is 1", () => {
    let [a, b] = [1n, 1n];
    for (let k = 0; k < 3200; k++) {
      [a, b] = [b, a + b];
      expect(greatestCommonDivisor(b * 6n, a * 6n)).toBe(6n);
    }
  });

  it("is found beside powers of two, where a double's exponent changes", () => {
    for (let bits = 50n; bits < 2100n; bits++) {
      for (const off of [-1n, 0n, 1n]) {
        const x = 2n ** bits + off;
        for (const y of [2n ** (bits - 1n) + 1n, 2n ** bits - 3n, x - 1n]) {
          expect(greatestCommonDivisor(3n * x, 3n * y)).toBe(plain(3n * x, 3n * y));
        }
      }
    }
  });
});

describe("whole numbers in doubles", () => {
  it("leave the remainder that bigints leave", () =>
    fc.assert(
      fc.property(safe, safe, (a, divisor) => {
        fc.pre(divisor > 0);
        expect(BigInt(safeRemainder(a, divisor))).toBe(BigInt(a) % BigInt(divisor));
      }),
      { numRuns: 3000 },
    ));

  it("leave it also just below and above a multiple, where the quotient rounds", () =>
    fc.assert(
      fc.property(safe, safe, fc.constantFrom(-1, 0, 1), (n, divisor, off) => {
        fc.pre(divisor > 1);
        const a = Math.floor(n / divisor) * divisor + off;
        fc.pre(Number.isSafeInteger(a) && a >= 0);
        expect(BigInt(safeRemainder(a, divisor))).toBe(BigInt(a) % BigInt(divisor));
      }),
      { numRuns: 3000 },
    ));

  it("have the common divisor that bigints have", () =>
    fc.assert(
      fc.property(safe, safe, (a, b) => {
        expect(BigInt(safeCommonDivisor(a, b))).toBe(plain(BigInt(a), BigInt(b)));
      }),
    ));
});

function plain(a: bigint, b: bigint): bigint {
  let x = a < 0n ? -a : a;
  let y = b < 0n ? -b : b;
  while (y !== 0n) [x, y] = [y, x % y];
  return x;
}
