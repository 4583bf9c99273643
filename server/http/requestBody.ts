import type { IncomingMessage } from "node:http";

export type Body =
  | { readonly ok: true; readonly json: unknown }
  | { readonly ok: false; readonly why: "tooLarge" | "notJson" };

/** Reads a request's body as JSON, of `limit` bytes at most. Rejects where the connection breaks. */
export async function readJsonBody(request: IncomingMessage, limit: number): Promise<Body> {
  const bytes = await readBytesBody(request, limit);
  if (!bytes) return { ok: false, why: "tooLarge" };
  try {
    return { ok: true, json: JSON.parse(bytes.toString("utf8")) };
  } catch {
    return { ok: false, why: "notJson" };
  }
}

/** Reads a request's body, of `limit` bytes at most; null where it is longer. Rejects where the connection breaks. */
export async function readBytesBody(request: IncomingMessage, limit: number): Promise<Buffer | null> {
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of request as AsyncIterable<Buffer>) {
    size += chunk.length;
    if (size > limit) return null;
    chunks.push(chunk);
  }
  return Buffer.concat(chunks);
}

/** The network address that a request comes from. */
export function addressOf(request: IncomingMessage): string {
  return request.socket.remoteAddress ?? "";
}
