import { randomInt } from "node:crypto";

/** Digits and small letters without those that are mistaken for one another. */
const ALPHABET = "23456789abcdefghjkmnpqrstuvwxyz";
const LENGTH = 6;
const TRY_LENGTH = 20;

/** A join code that is easy to read out, one of 31⁶ (about 890 million); it is also the room's name. */
export function newRoomCode(): string {
  return newCode(LENGTH);
}

/** The name of the room of somebody's own try: nobody reads it out, and nobody guesses it. */
export function newTryCode(): string {
  return newCode(TRY_LENGTH);
}

function newCode(length: number): string {
  return Array.from({ length }, () => ALPHABET[randomInt(ALPHABET.length)]).join("");
}
