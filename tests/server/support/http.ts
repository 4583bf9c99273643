import type { CreateRoom, JoinRoom, RoomCreated, RoomJoined } from "../../../shared/messages";
import type { TestServer } from "./testServer";

/** What an HTTP request was answered with; `cookie` is what a browser would send back. */
export type Answered<T> = { readonly status: number; readonly body: T; readonly cookie: string };

type Asked = { readonly cookie?: string; readonly headers?: Readonly<Record<string, string>> };

export async function get<T>(server: TestServer, path: string, { cookie, headers }: Asked = {}): Promise<Answered<T>> {
  return answered(await fetch(addressOf(server, path), { headers: { ...headers, ...(cookie ? { cookie } : {}) } }));
}

export async function post<T>(
  server: TestServer,
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

export const create = (server: TestServer, body: CreateRoom, asked: Asked = {}) =>
  post<RoomCreated>(server, "/api/rooms", body, asked);

export const join = (server: TestServer, room: string, body: JoinRoom, asked: Asked = {}) =>
  post<RoomJoined>(server, `/api/rooms/${room}/join`, body, asked);

function addressOf({ port }: TestServer, path: string): string {
  return `http://127.0.0.1:${port}${path}`;
}

async function answered<T>(response: Response): Promise<Answered<T>> {
  const [cookie = ""] = (response.headers.get("set-cookie") ?? "").split(";", 1);
  return { status: response.status, body: (await response.json()) as T, cookie };
}
