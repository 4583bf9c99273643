import { randomInt } from "node:crypto";

/** Digits and small letters without those that are mistaken for one another. */
const ALPHABET = "23456789abcdefghjkmnpqrstuvwxyz";
const LENGTH = 6;

/** A join code that is easy to read out, one of 31⁶ (about 890 million); it is also the room's name. */
export function newRoomCode(): string {
  return Array.from({ length: LENGTH }, () => ALPHABET[randomInt(ALPHABET.length)]).join("");
}
