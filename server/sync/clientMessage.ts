import * as decoding from "lib0/decoding";
import { MESSAGE_REQUEST, type RoomRequest } from "../../shared/messages";
import { faultText, requestSchema } from "../access";

/** A message from a client, in the framing of y-protocols; PROTOCOL.md has the grammar. */
export type ClientMessage =
  | { readonly type: "askState"; readonly stateVector: Uint8Array }
  /** What the server lacked by its state vector ("step 2"), or a change just made: both are a Yjs update. */
  | { readonly type: "update"; readonly update: Uint8Array }
  | { readonly type: "awareness"; readonly update: Uint8Array }
  | { readonly type: "askAwareness" }
  | { readonly type: "request"; readonly request: RoomRequest };

export type ReadMessage =
  | { readonly ok: true; readonly message: ClientMessage }
  | { readonly ok: false; readonly reason: string };

/** Longest JSON of a request, in UTF-16 units. */
const REQUEST_LENGTH = 4096;

/** Reads one frame, all of it: bytes behind the message's end are a fault. Never throws. */
export function readClientMessage(frame: Uint8Array): ReadMessage {
  try {
    const decoder = decoding.createDecoder(frame);
    const message = readMessage(decoder);
    if (typeof message === "string") return { ok: false, reason: message };
    const rest = frame.length - decoder.pos;
    return rest === 0 ? { ok: true, message } : { ok: false, reason: `${rest} bytes follow the message's end` };
  } catch {
    // The decoder throws where a number or a byte array runs past the end of the frame.
    return { ok: false, reason: `the message of ${frame.length} bytes is cut short or malformed` };
  }
}

function readMessage(decoder: decoding.Decoder): ClientMessage | string {
  const type = decoding.readVarUint(decoder);
  switch (type) {
    case 0:
      return readSyncMessage(decoder);
    case 1:
      return { type: "awareness", update: decoding.readVarUint8Array(decoder) };
    case 3:
      return { type: "askAwareness" };
    case MESSAGE_REQUEST:
      return readRequest(decoding.readVarString(decoder));
    default:
      return `message type ${type} is not known`;
  }
}

function readSyncMessage(decoder: decoding.Decoder): ClientMessage | string {
  const step = decoding.readVarUint(decoder);
  switch (step) {
    case 0:
      return { type: "askState", stateVector: decoding.readVarUint8Array(decoder) };
    case 1:
    case 2:
      return { type: "update", update: decoding.readVarUint8Array(decoder) };
    default:
      return `sync message type ${step} is not known`;
  }
}

function readRequest(text: string): ClientMessage | string {
  if (text.length > REQUEST_LENGTH)
    return `a request has at most ${REQUEST_LENGTH} characters, this one has ${text.length}`;
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return "the request is no JSON";
  }
  const read = requestSchema.safeParse(json);
  return read.success ? { type: "request", request: read.data } : faultText(read.error, "request");
}
