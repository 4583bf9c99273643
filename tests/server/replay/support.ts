import type { HistoryEntry } from "../../../server/history";
import type { BoardUpdate } from "../../../shared/board";
import type { RoomCreated } from "../../../shared/messages";
import {
  type ReplayEntry,
  type ReplayManifest,
  readCheckpoint,
  readChunk,
  readEvent,
  readTimeline,
} from "../../../shared/replay";
import type { Reached } from "../support/http";

/** Who asks: by cookie, by a link, or nobody. */
export type Asker = { readonly cookie?: string; readonly link?: string };

export async function ask(server: Reached, path: string, asker: Asker = {}): Promise<Response> {
  return fetch(`http://127.0.0.1:${server.port}/api/rooms/${path}`, { headers: headersOf(asker) });
}

function headersOf({ cookie, link }: Asker): Record<string, string> {
  return { ...(cookie ? { cookie } : {}), ...(link ? { "addend-replay-link": link } : {}) };
}

async function checked(response: Response): Promise<Response> {
  if (!response.ok) throw new Error(`${response.status} ${await response.text()}`);
  return response;
}

async function bytes(response: Response): Promise<Uint8Array> {
  return new Uint8Array(await (await checked(response)).arrayBuffer());
}

export async function manifest(server: Reached, room: string, asker: Asker): Promise<ReplayManifest> {
  return (await (await checked(await ask(server, `${room}/replay`, asker))).json()) as ReplayManifest;
}

/** The whole session as one file. */
export async function archiveOf(server: Reached, room: string, asker: Asker): Promise<Uint8Array> {
  return bytes(await ask(server, `${room}/replay/archive`, asker));
}

/** The changes of the board among a replay's entries, as a `BoardReplay` takes them. */
export function updatesOf(entries: readonly ReplayEntry[]): readonly BoardUpdate[] {
  return entries.map(readEvent).flatMap((event) => (event.kind === "update" ? [event] : []));
}

/** All entries of a replay, chunk by chunk. */
export async function allEntries(server: Reached, room: string, asker: Asker): Promise<readonly ReplayEntry[]> {
  const entries: ReplayEntry[] = [];
  for (let from = 1; from > 0; ) {
    const chunk = readChunk(await bytes(await ask(server, `${room}/replay/entries?from=${from}`, asker)));
    if (!chunk) throw new Error("the chunk can't be read");
    entries.push(...chunk.entries);
    from = chunk.next;
  }
  return entries;
}

export async function timeline(server: Reached, room: string, asker: Asker) {
  return readTimeline(await bytes(await ask(server, `${room}/replay/timeline`, asker)));
}

export async function checkpoint(server: Reached, room: string, at: number, asker: Asker, unfit?: number) {
  const without = unfit === undefined ? "" : `&unfit=${unfit}`;
  const read = readCheckpoint(await bytes(await ask(server, `${room}/replay/board?at=${at}${without}`, asker)));
  if (!read) throw new Error("the checkpoint can't be read");
  return read;
}

/** What a replay says of a moment, as JSON. */
export async function solved<T>(
  server: Reached,
  room: string,
  what: "answers" | "workings",
  at: number,
  asker: Asker,
): Promise<T> {
  return (await (await checked(await ask(server, `${room}/replay/${what}?at=${at}`, asker))).json()) as T;
}

/** A request that changes something, with a JSON body. */
export async function send(
  server: Reached,
  method: "POST" | "PUT" | "DELETE",
  path: string,
  asker: Asker,
  body: unknown = {},
): Promise<{ readonly status: number; readonly body: unknown; readonly text: string }> {
  const options = { method, headers: headersOf(asker), ...(method === "DELETE" ? {} : { body: JSON.stringify(body) }) };
  const response = await fetch(`http://127.0.0.1:${server.port}/api/rooms/${path}`, options);
  const text = await response.text();
  return { status: response.status, body: JSON.parse(text), text };
}

/** Makes a room of an archive, as somebody whom the server does not know. */
export async function imported(server: Reached, archive: Uint8Array, name = "Prof. Imai") {
  const url = `http://127.0.0.1:${server.port}/api/rooms/import-archive?name=${encodeURIComponent(name)}`;
  const response = await fetch(url, { method: "POST", body: archive as Uint8Array<ArrayBuffer> });
  const [cookie = ""] = (response.headers.get("set-cookie") ?? "").split(";", 1);
  const text = await response.text();
  return { status: response.status, text, cookie, body: JSON.parse(text) as RoomCreated };
}

/** Entries without their room. */
export const contents = (entries: readonly HistoryEntry[]) =>
  entries.map(({ sequence, time, participant, kind, bytes }) => [
    sequence,
    time,
    participant,
    kind,
    Buffer.from(bytes).toString("hex"),
  ]);
