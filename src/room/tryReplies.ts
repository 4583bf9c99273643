import type { TryReply } from "../../shared/messages";

/** Tries that this page has sent and that wait for what the server says to them, by the ids of their requests. */
export class TryReplies {
  readonly #waiting = new Map<number, (reply: TryReply) => void>();

  /** What is said to the try of this request. */
  to(request: number): Promise<TryReply> {
    return new Promise((resolve) => this.#waiting.set(request, resolve));
  }

  take(request: number, reply: TryReply): void {
    this.#waiting.get(request)?.(reply);
    this.#waiting.delete(request);
  }

  /** To be called when the line is down: what was on its way may have been lost. */
  giveUp(): void {
    for (const request of [...this.#waiting.keys()]) this.take(request, { outcome: "refused", why: "unreachable" });
  }
}
