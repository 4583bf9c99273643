import { createHmac, randomBytes, timingSafeEqual } from "node:crypto";

const COOKIE = "addend_who";
const YEAR = 365 * 24 * 3600;
/** `<participant>.<expiry in seconds, base 36>.<signature>` */
const FORM = /^([A-Za-z0-9_-]{22})\.([0-9a-z]{1,10})\.([A-Za-z0-9_-]{43})$/;

/**
 * Who a browser is, as a cookie that only this server can write: a random participant id and the time until which it
 * counts, signed with HMAC-SHA256. Scripts of a page can't read it, and other sites' requests don't bring it.
 */
export class Identity {
  readonly #secret: Uint8Array;
  readonly #now: () => number;

  /** `now` gives milliseconds since 1970. */
  constructor(secret: Uint8Array, now: () => number) {
    this.#secret = secret;
    this.#now = now;
  }

  /** The participant of a `Cookie` header, null where it has no cookie of ours that counts. Never throws. */
  read(header: string | undefined): string | null {
    for (const pair of (header ?? "").split(";")) {
      const [name, value] = pair.trim().split("=", 2);
      if (name !== COOKIE) continue;
      const participant = this.#verified(value ?? "");
      if (participant !== null) return participant;
    }
    return null;
  }

  newParticipant(): string {
    return randomBytes(16).toString("base64url");
  }

  /** A `Set-Cookie` header that says who the browser is, for a year from now. */
  cookie(participant: string): string {
    const until = Math.floor(this.#now() / 1000) + YEAR;
    const text = `${participant}.${until.toString(36)}`;
    return `${COOKIE}=${text}.${this.#sign(text)}; Path=/; Max-Age=${YEAR}; HttpOnly; SameSite=Lax`;
  }

  #verified(value: string): string | null {
    const [, participant, until, signature] = FORM.exec(value) ?? [];
    if (!participant || !until || !signature) return null;
    const wanted = Buffer.from(this.#sign(`${participant}.${until}`));
    if (!timingSafeEqual(wanted, Buffer.from(signature))) return null;
    return Number.parseInt(until, 36) * 1000 > this.#now() ? participant : null;
  }

  #sign(text: string): string {
    // The purpose stands in front, so that no other use of the secret gives the same bytes.
    return createHmac("sha256", this.#secret).update(`cookie ${text}`).digest("base64url");
  }
}
