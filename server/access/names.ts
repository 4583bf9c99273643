import { NAME_LENGTH } from "../../shared/messages";
import type { Member } from "./roomAccess";

/** Control characters, line ends, and marks that turn the direction of the text around them. */
const UNSEEN = /[\p{Cc}\p{Cs}\p{Zl}\p{Zp}\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]/gu;

/** A name as it is kept: without unseen characters, one space between words. Null where nothing or too much is left. */
export function tidyName(text: string): string | null {
  const name = text.normalize("NFC").replace(UNSEEN, " ").replace(/\s+/gu, " ").trim();
  const length = [...name].length;
  return length >= 1 && length <= NAME_LENGTH ? name : null;
}

/**
 * The name, with a number behind it where another member has it (`Ana 2`). Names that differ in case alone count as the
 * same. Removed members keep theirs: nobody takes the place of another by their name. `name` is tidy.
 */
export function freeName(name: string, members: readonly Member[], own: string): string {
  const taken = new Set(members.filter(({ id }) => id !== own).map((member) => key(member.name)));
  for (let number = 1; ; number++) {
    const tail = number === 1 ? "" : ` ${number}`;
    const candidate = `${[...name]
      .slice(0, NAME_LENGTH - tail.length)
      .join("")
      .trimEnd()}${tail}`;
    if (!taken.has(key(candidate))) return candidate;
  }
}

const key = (name: string) => name.normalize("NFKC").toLowerCase();
