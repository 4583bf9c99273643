import type { IncomingMessage, ServerResponse } from "node:http";

/** Answers `GET /health` with `{"ok":true}` as long as the process serves at all; false for any other request. */
export function answerHealth(request: IncomingMessage, response: ServerResponse): boolean {
  if (request.method !== "GET" || request.url?.split("?", 1)[0] !== "/health") return false;
  response.writeHead(200, { "Content-Type": "application/json", "Cache-Control": "no-store" });
  response.end(JSON.stringify({ ok: true }));
  return true;
}
