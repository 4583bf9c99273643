import { agreedUnit, readAmount } from "./amount";
import { accept, type Cursor, isAtEnd, refuse, take } from "./cursor";
import { readMagnitude, readSign } from "./numberText";
import { readDivisor, takePi } from "./phaseText";
import type { Reading } from "./problem";
import { divide, integer, multiply, ONE, type Rational, signOf } from "./rational";
import type { Frequency } from "./unit";
import { unitValue } from "./unitValue";

const AT_MARK = / ?@ ?/y;
const SPACE = / ?/y;
const TIME = / ?[*·]? ?t(?![A-Za-z])/y;
const TIMES = / ?[*·]? ?(?=[\d.(])/y;
const OPEN = /\( ?/y;
const CLOSE = / ?\)/y;
const UNIT = / ?([kM]?)(Hz|rad\/s)/y;
const TWO = integer(2);
/** Of a product before t; keeps its integers small, as the limits on one number do. */
const FACTOR_LIMIT = 3;
const POWER_OF_PREFIX: ReadonlyMap<string, Rational> = new Map([
  ["", ONE],
  ["k", integer(1000)],
  ["M", integer(1_000_000)],
]);

/** Moves past `@ 50 Hz`; null where no @ stands here. Problems: unitMissing, wrongUnit, frequencyNotPositive. */
export function readFrequencyMark(cursor: Cursor): Reading<Frequency> | null {
  if (!take(cursor, AT_MARK)) return null;
  if (isAtEnd(cursor)) return refuse(cursor, { code: "frequencyMissing" });
  const start = cursor.at;
  const amount = readAmount(cursor);
  if (!amount.ok) return amount;
  // Quotes the frequency alone, since the fault is in it and not in the whole.
  const quoted = { ...cursor, source: cursor.source.slice(start, cursor.at) };
  const unit = agreedUnit(quoted, amount.value, ["Hz", "rad/s"]);
  return unit.ok ? positive(cursor, unitValue(amount.value.value, unit.value)) : unit;
}

/**
 * Moves past `1000 t`, in rad/s, or `2π·50 t` or `100π t`, in Hz, since only so they stay exact: a product of numbers
 * and at most one π, three factors at most, perhaps with its unit, then t. Problems: cosineArgument, frequencyNotPositive, those of numbers.
 */
export function readAngularTerm(cursor: Cursor): Reading<Frequency> {
  take(cursor, SPACE);
  if (readSign(cursor)) return refuse(cursor, { code: "frequencyNotPositive" });
  const product = readProduct(cursor);
  if (!product.ok) return product;
  const { factor, piCount } = product.value;
  const [, prefix = "", unit] = take(cursor, UNIT) ?? [];
  const isHertzWithoutPi = piCount === 0 && unit === "Hz";
  if (piCount > 1 || isHertzWithoutPi || !take(cursor, TIME)) return refuse(cursor, { code: "cosineArgument" });
  const value = multiply(factor, POWER_OF_PREFIX.get(prefix) ?? ONE);
  return positive(cursor, piCount === 1 ? unitValue(divide(value, TWO), "Hz") : unitValue(value, "rad/s"));
}

function readProduct(cursor: Cursor): Reading<{ readonly factor: Rational; readonly piCount: number }> {
  let factor = ONE;
  let piCount = 0;
  let factorCount = 0;
  while (factorCount + piCount <= FACTOR_LIMIT) {
    if (takePi(cursor)) {
      piCount += 1;
      const divided = readDivisor(cursor, factor);
      if (!divided.ok) return divided;
      factor = divided.value;
    } else if (take(cursor, TIMES)) {
      const next = readFactor(cursor);
      if (!next.ok) return next;
      factor = multiply(factor, next.value);
      factorCount += 1;
    } else {
      return accept({ factor, piCount });
    }
  }
  return refuse(cursor, { code: "cosineArgument" });
}

/** A number, or one in parentheses. */
function readFactor(cursor: Cursor): Reading<Rational> {
  if (!take(cursor, OPEN)) return readMagnitude(cursor);
  const number = readMagnitude(cursor);
  if (number.ok && !take(cursor, CLOSE)) return refuse(cursor, { code: "cosineArgument" });
  return number;
}

function positive(cursor: Cursor, frequency: Frequency): Reading<Frequency> {
  return signOf(frequency.value) > 0 ? accept(frequency) : refuse(cursor, { code: "frequencyNotPositive" });
}
