import { accept, type Cursor, isAtEnd, refuse, restOf, take } from "./cursor";
import { hasToleranceLetter, type LetterCode, readLetterCode } from "./letterCode";
import { readMagnitude, readSign, scaleByTen } from "./numberText";
import type { Reading } from "./problem";
import { negate, type Rational } from "./rational";
import type { UnitSymbol } from "./unit";
import { findSuffix, isDoublePrefix, type Suffix, similarSuffixes } from "./unitTable";

/** A number with the unit that was written behind it, null where none was; prefixes are multiplied in. */
export type Amount = {
  readonly value: Rational;
  readonly unit: UnitSymbol | null;
  /** The letter code it was written in (`3k3`), null where it was written as a number. */
  readonly letterCode: string | null;
};

// Letters of one unit. Stops before a word that belongs to a sinusoid, so that `20Vrms` and `5Vcos(…)` fall apart there.
const WORD = /(?:(?!cos|sin|rms|peak)[A-Za-zΩ°℧])+(?:\/[A-Za-z]+)?/iy;
const SPACES = / */y;
const SINUSOID_START = /[∠<@]|[·*]? ?(?:cos|sin|rms|peak|\(rms|\(peak)/iy;
const PLUS_OR_MINUS = /[+-]/y;

/** Reads one number with its unit and leaves the cursor behind it. Problems: those of number, letter code and unit. */
export function readAmount(cursor: Cursor): Reading<Amount> {
  const isNegative = readSign(cursor);
  const magnitude = readUnsignedAmount(cursor);
  if (!magnitude.ok || !isNegative) return magnitude;
  return accept({ ...magnitude.value, value: negate(magnitude.value.value) });
}

function readUnsignedAmount(cursor: Cursor): Reading<Amount> {
  const code = readLetterCode(cursor);
  if (code) return code.ok ? readUnitOfCode(cursor, code.value) : code;
  const number = readMagnitude(cursor);
  if (!number.ok) return number;
  const suffix = readSuffix(cursor);
  if (!suffix.ok) return suffix;
  const { unit, power } = suffix.value ?? { unit: null, power: 0 };
  return accept({ value: scaleByTen(number.value, power), unit, letterCode: null });
}

/** A letter code has its unit in its letter; it may be written behind once more (`3k3 Ω`), without a prefix. */
function readUnitOfCode(cursor: Cursor, { code, value, unit }: LetterCode): Reading<Amount> {
  const suffix = readSuffix(cursor);
  if (!suffix.ok) return suffix;
  if (suffix.value && (suffix.value.unit !== unit || suffix.value.power !== 0)) {
    return refuse(cursor, { code: "letterCodeUnit", found: code });
  }
  return accept({ value, unit, letterCode: code });
}

/** Reads a prefix and unit, null where no word follows. Problems: unknownUnit, doublePrefix, toleranceLetter. */
export function readSuffix(cursor: Cursor): Reading<Suffix | null> {
  const start = cursor.at;
  take(cursor, SPACES);
  const word = take(cursor, WORD)?.[0];
  if (word === undefined) return accept(null);
  const suffix = findSuffix(word);
  if (suffix) return accept(suffix);
  if (hasToleranceLetter(word) && cursor.at - start === word.length) {
    return refuse(cursor, { code: "toleranceLetter", letter: word.charAt(1), rest: cursor.source.slice(0, start + 1) });
  }
  const found = cursor.source.slice(cursor.at - word.length, cursor.at);
  if (isDoublePrefix(word)) return refuse(cursor, { code: "doublePrefix", found });
  return refuse(cursor, { code: "unknownUnit", found, similar: similarSuffixes(word) });
}

/** The unit of an amount whose unit is to be one of `wanted`; a bare number takes the single wanted one. */
export function agreedUnit<U extends UnitSymbol>(cursor: Cursor, amount: Amount, wanted: readonly U[]): Reading<U> {
  const [only, ...others] = wanted;
  if (amount.unit === null) {
    return only !== undefined && others.length === 0 ? accept(only) : refuse(cursor, { code: "unitMissing", wanted });
  }
  const unit = wanted.find((symbol) => symbol === amount.unit);
  if (unit !== undefined) return accept(unit);
  if (amount.letterCode !== null) return refuse(cursor, { code: "letterCodeUnit", found: amount.letterCode });
  return refuse(cursor, { code: "wrongUnit", found: amount.unit, wanted });
}

/**
 * Accepts `value` where nothing is left to read. `wanted` is null where a sinusoid has been looked for.
 * Problems: sinusoidNotWanted, sumOfTerms, unexpected.
 */
export function finish<T>(cursor: Cursor, value: T, wanted: readonly UnitSymbol[] | null): Reading<T> {
  take(cursor, SPACES);
  if (isAtEnd(cursor)) return accept(value);
  const found = restOf(cursor);
  if (wanted && take(cursor, SINUSOID_START)) return refuse(cursor, { code: "sinusoidNotWanted", wanted });
  if (take(cursor, PLUS_OR_MINUS)) return refuse(cursor, { code: "sumOfTerms" });
  return refuse(cursor, { code: "unexpected", found });
}
