import type { ServerResponse } from "node:http";
import type { ApiErrorCode, ApiFailure } from "../../shared/messages";
import type { JoinRefusal } from "../access";

/** What a request is answered with. */
export type ApiAnswer = {
  readonly status: number;
  readonly body: object;
  readonly headers?: Readonly<Record<string, string>>;
};

const STATUS: Readonly<Record<ApiErrorCode, number>> = {
  badRequest: 400,
  badFile: 400,
  unknownExample: 400,
  wrongKey: 403,
  removed: 403,
  otherOrigin: 403,
  unknownRoom: 404,
  notFound: 404,
  ended: 410,
  tooLarge: 413,
  locked: 423,
  tooMany: 429,
  roomFull: 503,
  unavailable: 503,
};

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

export function sendAnswer(response: ServerResponse, { status, body, headers }: ApiAnswer): void {
  const text = JSON.stringify(body);
  response.writeHead(status, {
    "Content-Type": "application/json; charset=utf-8",
    "Content-Length": Buffer.byteLength(text),
    "Cache-Control": "no-store",
    "X-Content-Type-Options": "nosniff",
    ...headers,
  });
  response.end(text);
}
