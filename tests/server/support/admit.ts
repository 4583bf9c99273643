import type { JoinRoom, RoomJoined, You } from "../../../shared/messages";

/**
 * Joins a room over HTTP, as a page does before it opens its WebSocket. `url` is the address of the rooms that stock
 * clients take. Throws the answer where it is no success.
 */
export async function admit(
  url: string,
  room: string,
  asked: Partial<JoinRoom> = {},
  cookie = "",
): Promise<{ readonly cookie: string; readonly you: You }> {
  const address = `${url.replace(/^ws:/, "http:").replace(/\/sync$/, "")}/api/rooms/${room}/join`;
  const body = JSON.stringify({ name: "Kim", ...asked });
  const response = await fetch(address, { method: "POST", body, headers: cookie ? { cookie } : {} });
  const text = await response.text();
  if (!response.ok) throw new Error(`${room} can't be joined: ${response.status} ${text}`);
  const [given = ""] = (response.headers.get("set-cookie") ?? "").split(";", 1);
  return { cookie: given, you: (JSON.parse(text) as RoomJoined).you };
}
