import type { InkColour } from "../../shared/board";

/** What marks a person on the board beside their name: a colour together with a sign, never colour alone. */
export type PersonMark = { readonly sign: string; readonly colour: InkColour };

// The signs that printers put at footnotes; none of them is a source's mark.
const SIGNS = ["∗", "†", "‡", "§", "¶", "‖", "#"] as const;
const COLOURS: readonly InkColour[] = ["violet", "brick", "moss", "sea", "brown", "ink"];

/** The mark of the n-th person of a room: no two alike among the first 42. */
export function personMark(index: number): PersonMark {
  const sign = SIGNS[index % SIGNS.length] ?? SIGNS[0];
  return { sign, colour: COLOURS[index % COLOURS.length] ?? "ink" };
}

/** One or two letters that stand for a name: "Ana Ruiz" is AR, "Ana" is A, "Ana 2" is A2. */
export function initials(name: string): string {
  const words = name.split(/\s+/u).filter((word) => word !== "");
  const firstOf = (word: string) => [...word][0]?.toUpperCase() ?? "";
  const [first, last] = [words[0], words.length > 1 ? words.at(-1) : undefined];
  return `${firstOf(first ?? "?")}${last === undefined ? "" : firstOf(last)}`;
}
