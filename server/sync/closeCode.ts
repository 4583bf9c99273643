/**
 * Why the server closes a connection. As y-websocket reads them, 4400 to 4499 are final (the client must not come back
 * with the same), and all others mean: try again later.
 */
export const CLOSE = {
  /** A text frame; this endpoint speaks binary (RFC 6455, 7.4.1). */
  textFrame: 1003,
  stopping: 1001,
  /** The server is at fault (RFC 6455, 7.4.1). */
  defect: 1011,
  badMessage: 4400,
  /** The participant was removed from the room, and can't come back. */
  removed: 4403,
  /** The room is gone, and can't be come back to. */
  deleted: 4410,
  tooLarge: 4413,
  /** More requests than a person can make. */
  tooMany: 4429,
  unavailable: 4503,
} as const;
export type CloseCode = (typeof CLOSE)[keyof typeof CLOSE];

/** A close frame's reason has 123 bytes at most (RFC 6455, 5.5). */
const REASON_BYTES = 123;

/** The reason, shortened where it is too long to be sent. */
export function closeReason(text: string): string {
  if (Buffer.byteLength(text) <= REASON_BYTES) return text;
  let end = REASON_BYTES;
  while (Buffer.byteLength(text.slice(0, end)) > REASON_BYTES - 3) end -= 1;
  return `${text.slice(0, end)}…`;
}
