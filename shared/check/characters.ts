import { canonicalText } from "../quantity";

/** Longest text that is read as a value, in UTF-16 units. */
export const ENTRY_LIMIT = 200;

/** What people write for the signs of an expression. One character stands for one. */
const SIGNS: ReadonlyMap<string, string> = new Map([
  ..."×✕·⋅∙•".split("").map((times) => [times, "*"] as const),
  ["÷", "/"],
  ["‖", "∥"],
  ["⫽", "∥"],
  ..."[{".split("").map((open) => [open, "("] as const),
  ..."]}".split("").map((close) => [close, ")"] as const),
]);
const OTHER_SIGNS = new RegExp(`[${[...SIGNS.keys()].map((sign) => `\\${sign}`).join("")}]`, "g");

/** The x of `2.3x10^-3`, which times a power of ten is no name. */
const LETTER_TIMES = /(?<=\d ?)[xX](?= ?10(?:\^|\*\*|[⁺⁻⁰¹²³⁴-⁹]))/g;

/** The text of an expression with one character for each sign. */
export function canonicalSigns(text: string): string {
  return canonicalText(text)
    .replace(OTHER_SIGNS, (sign) => SIGNS.get(sign) ?? sign)
    .replace(LETTER_TIMES, "*");
}

/** A part's name as it is compared: subscripts as plain digits, without underscores, in small letters. */
export function comparableName(name: string): string {
  return canonicalText(name.normalize("NFKC")).replaceAll("_", "").toLowerCase();
}
