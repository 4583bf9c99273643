import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import type { Answers } from "./answers";
import type { Notice } from "./notice";

/**
 * First number of each message of our own. y-protocols has 0 to 3; a stock client is sent none of these, since only
 * clients that join with `answers=1` are.
 */
export const MESSAGE_ANSWERS = 100;
export const MESSAGE_NOTICE = 101;

/** Writes `varUint(100) • varString(JSON of the answers)`. */
export function writeAnswers(answers: Answers): Uint8Array {
  return write(MESSAGE_ANSWERS, answers);
}

/** Reads what {@link writeAnswers} wrote, from a decoder that stands behind the message's first number. */
export function readAnswers(decoder: decoding.Decoder): Answers {
  return JSON.parse(decoding.readVarString(decoder)) as Answers;
}

/** Writes `varUint(101) • varString(JSON of the notice)`. */
export function writeNotice(notice: Notice): Uint8Array {
  return write(MESSAGE_NOTICE, notice);
}

/** Reads what {@link writeNotice} wrote, from a decoder that stands behind the message's first number. */
export function readNotice(decoder: decoding.Decoder): Notice {
  return JSON.parse(decoding.readVarString(decoder)) as Notice;
}

function write(type: number, value: Answers | Notice): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, type);
  encoding.writeVarString(encoder, JSON.stringify(value));
  return encoding.toUint8Array(encoder);
}
