/** What the address of a replay's page says besides the room. */
export type ReplayAddress = {
  /** The moment to open at, as the sequence of an entry; null for the beginning. */
  readonly at: number | null;
  /** The secret of the link that it was opened by; null for members. What stands behind # is never sent with the address. */
  readonly secret: string | null;
};

export function readAddress(search: string, fragment: string): ReplayAddress {
  const at = new URLSearchParams(search).get("at");
  return {
    at: at !== null && /^\d{1,12}$/.test(at) ? Number(at) : null,
    secret: /^#link=([\w-]+)$/.exec(fragment)?.[1] ?? null,
  };
}

/** The address of a moment. Who comes by a link hands the link on with it. */
export function momentLink(room: string, at: number, secret: string | null, origin: string): string {
  return new URL(`/room/${room}/replay?at=${at}${secret === null ? "" : `#link=${secret}`}`, origin).href;
}

/** The address of a replay link. */
export function sharedLink(room: string, secret: string, origin: string): string {
  return new URL(`/room/${room}/replay#link=${secret}`, origin).href;
}
