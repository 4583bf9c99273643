import type { QuantityFault, Reading } from "./problem";
import type { UnitSymbol } from "./unit";

/** Longest text of one quantity; keeps every number read from it, and so the solver's, small. */
export const TEXT_LIMIT = 120;
const SHOWN_LIMIT = 40;

/** A place in a text that is being read. `source` is the text as given, `text` the same in canonical characters. */
export type Cursor = { readonly source: string; readonly text: string; at: number };

/** Other code points that people and programs write for a character that we read. One character stands for one. */
const CANONICAL: ReadonlyMap<string, string> = new Map([
  // minus sign, en dash, hyphen, hard hyphen, small and full-width hyphen-minus
  ..."\u2212\u2013\u2010\u2011\ufe63\uff0d".split("").map((minus) => [minus, "-"] as const),
  // no-break, thin, narrow no-break, figure and hair space
  ..."\u00a0\u2009\u202f\u2007\u200a\t\n\r".split("").map((space) => [space, " "] as const),
  ["\u00b5", "u"], // micro sign
  ["\u03bc", "u"], // Greek mu
  ["\u2126", "Ω"], // ohm sign
  ["\u212a", "K"], // kelvin sign
  ["º", "°"],
  ["˚", "°"],
  ["⁄", "/"],
  ["∕", "/"],
  ["⋅", "·"],
  ["∙", "·"],
]);
// One character class, built from the table, so that plain ASCII text costs a single scan.
const OTHER_CHARACTERS = new RegExp(`[${[...CANONICAL.keys()].join("")}]`, "g");

/** Starts reading `source`. Problems: empty, tooLong. */
export function startReading(source: string, wanted: readonly UnitSymbol[]): Reading<Cursor> {
  if (source.length > TEXT_LIMIT) {
    const text = `${source.slice(0, SHOWN_LIMIT)}…`;
    return { ok: false, problem: { code: "tooLong", limit: TEXT_LIMIT, text } };
  }
  const trimmed = source.trim();
  if (trimmed === "") return { ok: false, problem: { code: "empty", wanted, text: "" } };
  return { ok: true, value: { source: trimmed, text: canonicalText(trimmed), at: 0 } };
}

/** The text with one code point for each of the characters that have several. Length and places stay. */
export function canonicalText(text: string): string {
  return text.replace(OTHER_CHARACTERS, (character) => CANONICAL.get(character) ?? character);
}

/**
 * Moves past `pattern` where it matches here, else stays and gives null. The pattern must be sticky and must not
 * match the same text in several ways, since that is what makes hostile text slow.
 */
export function take(cursor: Cursor, pattern: RegExp): RegExpExecArray | null {
  // Set before every use, so the patterns of this folder, though shared, carry nothing from one text to the next.
  pattern.lastIndex = cursor.at;
  const match = pattern.exec(cursor.text);
  if (match) cursor.at += match[0].length;
  return match;
}

export function isAtEnd(cursor: Cursor): boolean {
  return cursor.at === cursor.text.length;
}

/** What is left to read, as given. */
export function restOf(cursor: Cursor): string {
  return cursor.source.slice(cursor.at).trim();
}

export function accept<T>(value: T): { readonly ok: true; readonly value: T } {
  return { ok: true, value };
}

/** Refuses the text with its fault. */
export function refuse(cursor: Cursor, fault: QuantityFault): Extract<Reading<never>, { ok: false }> {
  return { ok: false, problem: { ...fault, text: cursor.source } };
}
