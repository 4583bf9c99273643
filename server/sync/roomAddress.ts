/** What a client asks for by the address that it opens its WebSocket with. */
export type RoomAddress =
  | { readonly kind: "room"; readonly room: string; readonly wantsAnswers: boolean }
  | { readonly kind: "badName"; readonly reason: string }
  /** Not an address of rooms at all. */
  | { readonly kind: "other" };

const PREFIX = "/sync/";
const NAME = /^[A-Za-z0-9][A-Za-z0-9_-]{0,63}$/;
export const NAME_RULE =
  "A room's name has 1 to 64 letters (a to z), digits, hyphens and underscores, and starts with a letter or digit.";

/** Whether a room may be called so: rooms' own codes are, and names from before there were codes. */
export function isRoomName(text: string): boolean {
  return NAME.test(text);
}

/** Reads `/sync/<room>?answers=1`. */
export function readRoomAddress(requestUrl: string): RoomAddress {
  const [path = "", query = ""] = requestUrl.split("?", 2);
  if (!path.startsWith(PREFIX)) return { kind: "other" };
  const room = decoded(path.slice(PREFIX.length));
  if (room === null || !isRoomName(room)) return { kind: "badName", reason: NAME_RULE };
  return { kind: "room", room, wantsAnswers: new URLSearchParams(query).get("answers") === "1" };
}

function decoded(text: string): string | null {
  try {
    return decodeURIComponent(text);
  } catch {
    return null;
  }
}
