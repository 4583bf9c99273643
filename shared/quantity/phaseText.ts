import { accept, type Cursor, refuse, take } from "./cursor";
import { readMagnitude, readSign } from "./numberText";
import type { Reading } from "./problem";
import { divide, integer, isZero, multiply, negate, ONE, type Rational, rational, ZERO } from "./rational";
import { type Degree, quantity } from "./unit";

const ANGLE_MARK = / ?[∠<] ?/y;
const SPACE = / ?/y;
const DEGREE = / ?(?:°|deg)/y;
const RADIAN = / ?rad(?!\/)/y;
const PI = / ?[*·]? ?(?:π|pi)/iy;
const OVER = / ?\/ ?(\d+)(?! ?[/.,\deE])/y;
const HALF_TURN = integer(180);

/** Moves past `∠ 30°`; null where no angle mark stands here. A number without unit counts degrees. Problems: as below. */
export function readPhaseMark(cursor: Cursor): Reading<Degree> | null {
  if (!take(cursor, ANGLE_MARK)) return null;
  return readPhase(cursor, readSign(cursor), "degrees");
}

/** Moves past the `+ 30°` inside a cosine; 0° where no sign stands here. */
export function readAddedPhase(cursor: Cursor): Reading<Degree> {
  take(cursor, SPACE);
  const start = cursor.at;
  const isNegative = readSign(cursor);
  return cursor.at === start ? accept(quantity(ZERO, "°")) : readPhase(cursor, isNegative, "refused");
}

/**
 * A phase behind its sign: `30°`, `30 deg`, or a multiple of π in radians (`π/6`, `3π/4`), which is an exact number
 * of degrees where other radians are not. `bare` says what to do with a number without unit: it counts degrees
 * behind ∠, and is refused inside a cosine, where mathematics takes it as radians.
 * Problems: phaseInRadians, phaseUnitMissing, zeroDenominator and those of numbers.
 */
function readPhase(cursor: Cursor, isNegative: boolean, bare: "degrees" | "refused"): Reading<Degree> {
  const degrees = readUnsignedPhase(cursor, bare);
  if (!degrees.ok) return degrees;
  return accept(quantity(isNegative ? negate(degrees.value) : degrees.value, "°"));
}

function readUnsignedPhase(cursor: Cursor, bare: "degrees" | "refused"): Reading<Rational> {
  if (takePi(cursor)) return readHalfTurns(cursor, ONE);
  const number = readMagnitude(cursor);
  if (!number.ok) return number;
  if (takePi(cursor)) return readHalfTurns(cursor, number.value);
  if (take(cursor, DEGREE)) return number;
  if (take(cursor, RADIAN)) return isZero(number.value) ? number : refuse(cursor, { code: "phaseInRadians" });
  if (bare === "degrees" || isZero(number.value)) return number;
  return refuse(cursor, { code: "phaseUnitMissing" });
}

/** The rest of a phase that has `factor` π so far. */
function readHalfTurns(cursor: Cursor, factor: Rational): Reading<Rational> {
  const half = readDivisor(cursor, factor);
  take(cursor, RADIAN);
  return half.ok ? accept(multiply(half.value, HALF_TURN)) : half;
}

/** Moves past π (also `pi`) with the times sign before it; whether it stood here. */
export function takePi(cursor: Cursor): boolean {
  return take(cursor, PI) !== null;
}

/** Divides by the whole number in `/ 4`; `factor` itself where no slash and whole number stand here. */
export function readDivisor(cursor: Cursor, factor: Rational): Reading<Rational> {
  const digits = take(cursor, OVER)?.[1];
  if (digits === undefined) return accept(factor);
  const divisor = rational(BigInt(digits));
  return isZero(divisor) ? refuse(cursor, { code: "zeroDenominator" }) : accept(divide(factor, divisor));
}
