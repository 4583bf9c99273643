import type { CloseCode } from "../sync/closeCode";

/** One connected client, as its room sees it. */
export interface Peer {
  /** Id of whoever it belongs to; they may have several. */
  readonly participant: string;
  /** Whether it understands messages of our own. */
  readonly wantsAnswers: boolean;
  /** Sends what must arrive. A client that falls too far behind is let go; it comes back and catches up. */
  send(bytes: Uint8Array): void;
  /** Sends what a slow client can do without: it then misses it, and is given the newest of it when it has caught up. */
  offer(bytes: Uint8Array): void;
  close(code: CloseCode, reason: string): void;
}
