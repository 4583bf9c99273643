import type { IncomingMessage } from "node:http";
import { isRoomName } from "../sync/roomAddress";

/** A request about a room's history: `what` is the rest of its path, such as "replay/entries", "" for the room itself. */
export type ReplayRequest = {
  readonly method: string;
  readonly room: string;
  readonly what: string;
  readonly query: URLSearchParams;
};

/** What stands in a room's place in the address to which an archive is sent. */
export const IMPORT = "import-archive";

/** Reads requests to import an archive, for `/api/rooms/<room>/replay…`, `…/retention`, and to delete a room; null for any other. */
export function readReplayRequest({ method = "", url = "" }: IncomingMessage): ReplayRequest | null {
  const [path = "", query = ""] = url.split("?", 2);
  const [empty, api, rooms, room = "", ...steps] = path.split("/");
  if (empty !== "" || api !== "api" || rooms !== "rooms" || !isRoomName(room)) return null;
  if (room === IMPORT && steps.length === 0 && method === "POST") {
    return { method, room, what: IMPORT, query: new URLSearchParams(query) };
  }
  const isOurs = steps[0] === "replay" || steps[0] === "retention" || (steps.length === 0 && method === "DELETE");
  return isOurs ? { method, room, what: steps.join("/"), query: new URLSearchParams(query) } : null;
}
