/** What the address of a replay's page says besides the room. */
export type ReplayAddress = {
  /** The moment to open at, as the sequence of an entry; null for the beginning. */
  readonly at: number | null;
  /** What stands in its place where that is no number; null where there is nothing wrong. */
  readonly unread: string | null;
  /** The secret of the link that it was opened by; null for members. What stands behind # is never sent with the address. */
  readonly secret: string | null;
  /** Whether it begins as a link's does, and has no secret that could be read: it was cut, or something came into it. */
  readonly isCut: boolean;
};

export function readAddress(search: string, fragment: string): ReplayAddress {
  const text = new URLSearchParams(search).get("at");
  const secret = /^#link=([\w-]+)$/.exec(fragment)?.[1] ?? null;
  const at = text !== null && /^\d{1,12}$/.test(text) ? Number(text) : null;
  return {
    at,
    unread: at === null ? text : null,
    secret,
    isCut: secret === null && /^#link\b/i.test(fragment),
  };
}

/** Why a session opens at another moment than its address says; null where it does not. */
export function missedText({ at, unread }: Pick<ReplayAddress, "at" | "unread">, last: number): string | null {
  if (unread !== null) return `“${unread.slice(0, 20)}” in the link names no moment. This is the beginning.`;
  if (at === null || at <= last) return null;
  return `The link names moment ${at}, but the session has only ${last}. This is its end.`;
}

/** The address of a moment. Who comes by a link hands the link on with it. */
export function momentLink(room: string, at: number, secret: string | null, origin: string): string {
  return new URL(`/room/${room}/replay?at=${at}${secret === null ? "" : `#link=${secret}`}`, origin).href;
}

/** The address of a replay link. */
export function sharedLink(room: string, secret: string, origin: string): string {
  return new URL(`/room/${room}/replay#link=${secret}`, origin).href;
}
