import type { IncomingMessage } from "node:http";

/**
 * Whether a request comes from a page of this server, or from no page at all: browsers say where a page came from in
 * `Origin`, and it must be the host that the request is for. A proxy in front has to pass `Host` on.
 */
export function isOwnOrigin({ headers }: IncomingMessage): boolean {
  if (headers.origin === undefined)
    return headers["sec-fetch-site"] === undefined || headers["sec-fetch-site"] === "same-origin";
  try {
    return new URL(headers.origin).host === headers.host;
  } catch {
    return false;
  }
}
