import type { IncomingMessage } from "node:http";
import type { z } from "zod";
import { faultText } from "../access";
import { type ApiAnswer, failure } from "./apiAnswer";
import { readJsonBody } from "./requestBody";

/** Longest body of a request that has no file in it, in bytes. */
const SMALL_BODY = 8 * 1024;

export type Asked<T> =
  | { readonly ok: true; readonly value: T }
  /** What a body that is not as it should be is answered with. */
  | { readonly ok: false; readonly answer: ApiAnswer };

/** Reads what a request asks for, checked whole, from a body of `limit` bytes at most. Rejects where the connection breaks. */
export async function readAsked<T>(
  request: IncomingMessage,
  schema: z.ZodType<T>,
  limit = SMALL_BODY,
): Promise<Asked<T>> {
  const body = await readJsonBody(request, limit);
  if (!body.ok) return { ok: false, answer: badBody(body.why, limit) };
  const { success, data, error } = schema.safeParse(body.json);
  return success
    ? { ok: true, value: data }
    : { ok: false, answer: failure("badRequest", faultText(error, "request")) };
}

function badBody(why: "tooLarge" | "notJson", limit: number): ApiAnswer {
  if (why === "tooLarge") return failure("tooLarge", `A request has at most ${limit} bytes.`);
  return failure("badRequest", "The request is no JSON.");
}
