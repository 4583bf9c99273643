import type { CreateRoom, JoinRoom, RoomCreated, RoomJoined } from "../../../shared/messages";

/** A server on the loopback, in this process or another. */
export type Reached = { readonly port: number };

/** What an HTTP request was answered with; `cookie` is what a browser would send back. */
export type Answered<T> = { readonly status: number; readonly body: T; readonly cookie: string };

type Asked = { readonly cookie?: string; readonly headers?: Readonly<Record<string, string>> };

export async function get<T>(server: Reached, path: string, { cookie, headers }: Asked = {}): Promise<Answered<T>> {
  return answered(await fetch(addressOf(server, path), { headers: { ...headers, ...(cookie ? { cookie } : {}) } }));
}

export async function post<T>(
  server: Reached,
  path: string,
  body: unknown,
  { cookie, headers }: Asked = {},
): Promise<Answered<T>> {
  const text = typeof body === "string" ? body : JSON.stringify(body);
  return answered(
    await fetch(addressOf(server, path), {
      method: "POST",
      body: text,
      headers: { "Content-Type": "application/json", ...headers, ...(cookie ? { cookie } : {}) },
    }),
  );
}

export const create = (server: Reached, body: CreateRoom, asked: Asked = {}) =>
  post<RoomCreated>(server, "/api/rooms", body, asked);

export const join = (server: Reached, room: string, body: JoinRoom, asked: Asked = {}) =>
  post<RoomJoined>(server, `/api/rooms/${room}/join`, body, asked);

function addressOf({ port }: Reached, path: string): string {
  return `http://127.0.0.1:${port}${path}`;
}

async function answered<T>(response: Response): Promise<Answered<T>> {
  const [cookie = ""] = (response.headers.get("set-cookie") ?? "").split(";", 1);
  return { status: response.status, body: (await response.json()) as T, cookie };
}
