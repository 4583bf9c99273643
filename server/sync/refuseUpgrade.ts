import { STATUS_CODES } from "node:http";
import type { Duplex } from "node:stream";

/** Answers an upgrade request with a status and one sentence, and ends the connection. */
export function refuseUpgrade(socket: Duplex, status: number, sentence: string): void {
  const head = [
    `HTTP/1.1 ${status} ${STATUS_CODES[status] ?? ""}`,
    "Connection: close",
    "Content-Type: text/plain; charset=utf-8",
    `Content-Length: ${Buffer.byteLength(sentence)}`,
  ];
  socket.end(`${head.join("\r\n")}\r\n\r\n${sentence}`, () => socket.destroy());
}
