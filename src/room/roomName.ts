/** What a room may be called: the part of its address after /room/. */
const ROOM_NAME = /^[A-Za-z0-9][A-Za-z0-9_-]{0,63}$/;

export function isRoomName(text: string): boolean {
  return ROOM_NAME.test(text);
}

export const ROOM_NAME_RULE =
  "A room's name has 1 to 64 letters (a to z), digits, hyphens and underscores, and begins with a letter or digit.";

// No vowels, so that no words come up, and none of the letters and digits that are mistaken for one another.
const LETTERS = "bcdfghjkmnpqrstvwxz23456789";

/** A new name that nobody else has, such as `wxk4-h7mt-q2rd`. `random` gives numbers in [0, 1). */
export function newRoomName(random: () => number): string {
  const group = () => Array.from({ length: 4 }, () => LETTERS[Math.floor(random() * LETTERS.length)]).join("");
  return [group(), group(), group()].join("-");
}
