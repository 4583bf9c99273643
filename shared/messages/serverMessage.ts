import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import type { Answers } from "./answers";
import type { Notice } from "./notice";
import type { Call, RoomRequest } from "./roomRequest";
import type { RoomState } from "./roomState";
import type { TriesMessage } from "./tries";
import type { Workings } from "./workings";

/**
 * First number of each message of our own. y-protocols has 0 to 3; a stock client is sent none of these, since only
 * clients that join with `answers=1` are. All are `varUint(number) • varString(JSON)`.
 */
export const MESSAGE_ANSWERS = 100;
export const MESSAGE_NOTICE = 101;
/** The only one that goes from client to server. */
export const MESSAGE_REQUEST = 102;
export const MESSAGE_ROOM = 103;
export const MESSAGE_CALL = 104;
export const MESSAGE_WORKINGS = 105;
export const MESSAGE_TRIES = 106;

export const writeAnswers = (answers: Answers): Uint8Array => write(MESSAGE_ANSWERS, answers);
export const writeNotice = (notice: Notice): Uint8Array => write(MESSAGE_NOTICE, notice);
export const writeRequest = (request: RoomRequest): Uint8Array => write(MESSAGE_REQUEST, request);
export const writeRoomState = (state: RoomState): Uint8Array => write(MESSAGE_ROOM, state);
export const writeCall = (call: Call): Uint8Array => write(MESSAGE_CALL, call);
export const writeWorkings = (workings: Workings): Uint8Array => write(MESSAGE_WORKINGS, workings);
export const writeTries = (tries: TriesMessage): Uint8Array => write(MESSAGE_TRIES, tries);

// Readers take a decoder that stands behind the message's number. The server checks requests itself: it trusts nobody.

export const readAnswers = (decoder: decoding.Decoder): Answers => read(decoder) as Answers;
export const readNotice = (decoder: decoding.Decoder): Notice => read(decoder) as Notice;
export const readRoomState = (decoder: decoding.Decoder): RoomState => read(decoder) as RoomState;
export const readCall = (decoder: decoding.Decoder): Call => read(decoder) as Call;
export const readWorkings = (decoder: decoding.Decoder): Workings => read(decoder) as Workings;
export const readTries = (decoder: decoding.Decoder): TriesMessage => read(decoder) as TriesMessage;

function read(decoder: decoding.Decoder): unknown {
  return JSON.parse(decoding.readVarString(decoder));
}

function write(
  type: number,
  value: Answers | Notice | RoomRequest | RoomState | Call | Workings | TriesMessage,
): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, type);
  encoding.writeVarString(encoder, JSON.stringify(value));
  return encoding.toUint8Array(encoder);
}
