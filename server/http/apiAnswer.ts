import type { ServerResponse } from "node:http";
import { pipeline, Readable } from "node:stream";
import type { ApiErrorCode, ApiFailure } from "../../shared/messages";
import type { JoinRefusal } from "../access";

/** What a request is answered with. */
export type ApiAnswer = {
  readonly status: number;
  /** Bytes go as they are, anything else as JSON. */
  readonly body: object;
  readonly headers?: Readonly<Record<string, string>>;
  /** What goes part by part, in place of the body. */
  readonly parts?: AsyncIterable<Uint8Array>;
};

const STATUS: Readonly<Record<ApiErrorCode, number>> = {
  badRequest: 400,
  badFile: 400,
  unknownExample: 400,
  wrongKey: 403,
  removed: 403,
  notYours: 403,
  notLearner: 403,
  otherOrigin: 403,
  unknownRoom: 404,
  notFound: 404,
  notMember: 401,
  notAllowed: 403,
  wrongLink: 403,
  linkExpired: 410,
  linkRevoked: 410,
  unknownMoment: 404,
  badArchive: 400,
  ended: 410,
  tooLarge: 413,
  locked: 423,
  tooMany: 429,
  roomFull: 503,
  unavailable: 503,
};

export const ok = (body: object): ApiAnswer => ({ status: 200, body });

/** An answer that is no success, with one plain sentence. */
export function failure(code: ApiErrorCode, text: string): ApiAnswer {
  const body: ApiFailure = { error: { code, text } };
  return { status: STATUS[code], body, ...(code === "tooMany" ? { headers: { "Retry-After": "10" } } : {}) };
}

const JOIN_TEXTS: Readonly<Record<JoinRefusal, string>> = {
  removed: "The instructor has removed you from this room.",
  ended: "This room has ended. Nobody new can join it.",
  locked: "The instructor has locked this room. Nobody new can join it now.",
  roomFull: "This room has as many people as it can keep.",
};

export const joinFailure = (why: JoinRefusal): ApiAnswer => failure(why, JOIN_TEXTS[why]);

/** More requests than are taken from one place. */
export const TOO_MANY = failure("tooMany", "Too many requests came from this network. Wait a moment and try again.");
export const NOT_STORED = failure("unavailable", "Nothing can be saved at the moment. Try again in a while.");
export const UNKNOWN_ROOM = failure("unknownRoom", "There is no room with this code.");

const PLAIN_HEADERS = { "Cache-Control": "no-store", "X-Content-Type-Options": "nosniff" };

/** Sends an answer. One whose parts fail is cut off, so that nobody takes what came for all of it. */
export function sendAnswer(response: ServerResponse, answer: ApiAnswer, onFailed: (error: Error) => void): void {
  const { status, body, headers, parts } = answer;
  // What is left of a body that was too long is not waited for.
  if (!response.req.complete) response.setHeader("Connection", "close");
  if (parts) {
    response.writeHead(status, { ...PLAIN_HEADERS, "Content-Type": "application/octet-stream", ...headers });
    // A reader that goes away is no failure of ours.
    pipeline(Readable.from(parts), response, (error) => error && !response.destroyed && onFailed(error));
    return;
  }
  const bytes = body instanceof Uint8Array ? body : Buffer.from(JSON.stringify(body));
  response.writeHead(status, {
    "Content-Type": body instanceof Uint8Array ? "application/octet-stream" : "application/json; charset=utf-8",
    "Content-Length": bytes.length,
    ...PLAIN_HEADERS,
    ...headers,
  });
  response.end(bytes);
}
