import { accept, type Cursor, isAtEnd, refuse, take } from "./cursor";
import { DIGIT_LIMIT, scaleByTen } from "./numberText";
import type { Reading } from "./problem";
import type { Rational } from "./rational";

// Digits may be missing before the letter (R47), not behind it: 470R is a number with a suffix.
const CODE = /(\d*)([RKkMGLpnumF])(\d+)(?![\d.,])/y;
const TOLERANCE = /[A-Z](?![A-Za-z/])/y;

type CodedUnit = { readonly unit: "Ω" | "F"; readonly power: number };

/** Letters of IEC 60062 (4K7, 2M2, R47; p10, 4n7), from memory and the pages named in the tests. */
const LETTERS: ReadonlyMap<string, CodedUnit> = new Map<string, CodedUnit>([
  ["L", { unit: "Ω", power: -3 }],
  ["R", { unit: "Ω", power: 0 }],
  ["K", { unit: "Ω", power: 3 }],
  ["k", { unit: "Ω", power: 3 }],
  ["M", { unit: "Ω", power: 6 }],
  ["G", { unit: "Ω", power: 9 }],
  ["p", { unit: "F", power: -12 }],
  ["n", { unit: "F", power: -9 }],
  ["u", { unit: "F", power: -6 }],
  ["m", { unit: "F", power: -3 }],
  ["F", { unit: "F", power: 0 }],
]);

/** Letters that state a tolerance in IEC 60062 (F 1 %, J 5 %, K 10 %; the rest from memory). */
const TOLERANCE_LETTERS = "BCDFGHJKMN";

export type LetterCode = { readonly code: string; readonly value: Rational; readonly unit: CodedUnit["unit"] };

/**
 * Reads a letter code, in which a letter takes the place of the decimal mark: `3k3` is 3300 Ω, `4n7` 4.7 nF.
 * Null where no such code stands here. Problems: toleranceLetter, tooManyDigits.
 */
export function readLetterCode(cursor: Cursor): Reading<LetterCode> | null {
  const start = cursor.at;
  const match = take(cursor, CODE);
  if (!match) return null;
  const [code, whole = "", letter = "", fraction = ""] = match;
  if (code.length > DIGIT_LIMIT) return refuse(cursor, { code: "tooManyDigits", limit: DIGIT_LIMIT });
  const suffix = LETTERS.get(letter);
  if (!suffix) throw new RangeError(`letter code "${code}": no entry for "${letter}"`);
  const end = cursor.at;
  const tolerance = take(cursor, TOLERANCE)?.[0];
  // 4n7F may mean farads or 1 %: the same capacitance either way.
  const isUnit = tolerance === suffix.unit;
  if (tolerance !== undefined && TOLERANCE_LETTERS.includes(tolerance) && !isUnit && isAtEnd(cursor)) {
    return refuse(cursor, { code: "toleranceLetter", letter: tolerance, rest: cursor.source.slice(start, end) });
  }
  cursor.at = end;
  const value = scaleByTen({ n: BigInt(whole + fraction), d: 1n }, suffix.power - fraction.length);
  return accept({ code: cursor.source.slice(start, end), value, unit: suffix.unit });
}

/** Whether `word`, after a number, is a letter of the code and a tolerance letter behind it: 470RJ, 100nK. */
export function hasToleranceLetter(word: string): boolean {
  return word.length === 2 && LETTERS.has(word.charAt(0)) && TOLERANCE_LETTERS.includes(word.charAt(1));
}
