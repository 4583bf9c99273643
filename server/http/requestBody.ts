import type { IncomingMessage } from "node:http";

export type Body =
  | { readonly ok: true; readonly json: unknown }
  | { readonly ok: false; readonly why: "tooLarge" | "notJson" };

/** Reads a request's body as JSON, of `limit` bytes at most. Rejects where the connection breaks. */
export async function readJsonBody(request: IncomingMessage, limit: number): Promise<Body> {
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of request as AsyncIterable<Buffer>) {
    size += chunk.length;
    if (size > limit) return { ok: false, why: "tooLarge" };
    chunks.push(chunk);
  }
  try {
    return { ok: true, json: JSON.parse(Buffer.concat(chunks).toString("utf8")) };
  } catch {
    return { ok: false, why: "notJson" };
  }
}

/** The network address that a request comes from. */
export function addressOf(request: IncomingMessage): string {
  return request.socket.remoteAddress ?? "";
}
