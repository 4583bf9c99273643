import {
  BEGINNING,
  type Chunk,
  type ReplayManifest,
  readCheckpoint,
  readChunk,
  readTimeline,
} from "../../../shared/replay";
import type { TestServer } from "../support/testServer";

/** Who asks: by cookie, by a link, or nobody. */
export type Asker = { readonly cookie?: string; readonly link?: string };

export async function ask(server: TestServer, path: string, { cookie, link }: Asker = {}): Promise<Response> {
  const headers = { ...(cookie ? { cookie } : {}), ...(link ? { "addend-replay-link": link } : {}) };
  return fetch(`http://127.0.0.1:${server.port}/api/rooms/${path}`, { headers });
}

async function bytes(response: Response): Promise<Uint8Array> {
  if (!response.ok) throw new Error(`${response.status} ${await response.text()}`);
  return new Uint8Array(await response.arrayBuffer());
}

export async function manifest(server: TestServer, room: string, asker: Asker): Promise<ReplayManifest> {
  const response = await ask(server, `${room}/replay`, asker);
  if (!response.ok) throw new Error(`${response.status} ${await response.text()}`);
  return (await response.json()) as ReplayManifest;
}

/** All entries of a replay, chunk by chunk. */
export async function allEntries(server: TestServer, room: string, asker: Asker): Promise<Chunk["entries"]> {
  const entries: Chunk["entries"][number][] = [];
  for (let from = 1; from > 0; ) {
    const chunk = readChunk(await bytes(await ask(server, `${room}/replay/entries?from=${from}`, asker)));
    if (!chunk) throw new Error("the chunk can't be read");
    entries.push(...chunk.entries);
    from = chunk.next;
  }
  return entries;
}

export async function timeline(server: TestServer, room: string, asker: Asker) {
  return readTimeline(await bytes(await ask(server, `${room}/replay/timeline`, asker)));
}

export async function checkpoint(server: TestServer, room: string, at: number, asker: Asker) {
  const read = readCheckpoint(await bytes(await ask(server, `${room}/replay/board?at=${at}`, asker)));
  return read ?? { moment: BEGINNING, board: new Uint8Array() };
}

/** What a replay says of a moment, as JSON. */
export async function solved<T>(
  server: TestServer,
  room: string,
  what: "answers" | "workings",
  at: number,
  asker: Asker,
): Promise<T> {
  const response = await ask(server, `${room}/replay/${what}?at=${at}`, asker);
  if (!response.ok) throw new Error(`${response.status} ${await response.text()}`);
  return (await response.json()) as T;
}

/** A request that changes something, with a JSON body. */
export async function send(
  server: TestServer,
  method: "POST" | "PUT" | "DELETE",
  path: string,
  { cookie, link }: Asker,
  body: unknown = {},
): Promise<{ readonly status: number; readonly body: unknown; readonly text: string }> {
  const headers = { ...(cookie ? { cookie } : {}), ...(link ? { "addend-replay-link": link } : {}) };
  const options = { method, headers, ...(method === "DELETE" ? {} : { body: JSON.stringify(body) }) };
  const response = await fetch(`http://127.0.0.1:${server.port}/api/rooms/${path}`, options);
  const text = await response.text();
  return { status: response.status, body: JSON.parse(text), text };
}
