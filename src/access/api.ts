import type {
  ApiErrorCode,
  ApiFailure,
  CreateRoom,
  JoinRoom,
  RoomCreated,
  RoomGlance,
  RoomJoined,
  RoomVisit,
  TryGlance,
  TryListed,
  TryOpened,
} from "../../shared/messages";

/** Why the server did not do what was asked. "unreachable": it was not there to be asked. */
export type Refusal = { readonly code: ApiErrorCode | "unreachable"; readonly text: string };

export type Answer<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly refusal: Refusal };

export function createRoom(request: CreateRoom): Promise<Answer<RoomCreated>> {
  return askJson("/api/rooms", { body: request });
}

export function joinRoom(room: string, request: JoinRoom): Promise<Answer<RoomJoined>> {
  return askJson(`/api/rooms/${encodeURIComponent(room)}/join`, { body: request });
}

/** What can be seen of a room from outside, and who this browser is in it. */
export function glanceAtRoom(room: string): Promise<Answer<RoomGlance>> {
  return askJson(`/api/rooms/${encodeURIComponent(room)}`);
}

/** Makes a room of a saved session, of which the person of this name is the instructor. */
export function importSession(file: Blob, name: string): Promise<Answer<RoomCreated>> {
  return askJson(`/api/rooms/import-archive?name=${encodeURIComponent(name)}`, { body: file });
}

/** The rooms that this browser has been in, latest first. */
export function roomsVisited(): Promise<Answer<readonly RoomVisit[]>> {
  return askJson("/api/me/rooms");
}

/** Opens one's own try of a room's problem, which is begun where there is none yet. */
export function openOwnTry(room: string): Promise<Answer<TryOpened>> {
  return askJson(`/api/rooms/${encodeURIComponent(room)}/try`, { body: {} });
}

/** Whose try this is, for those who may see it. */
export function lookAtTry(room: string, ownTry: string): Promise<Answer<TryGlance>> {
  return askJson(`/api/rooms/${encodeURIComponent(room)}/tries/${encodeURIComponent(ownTry)}`);
}

/** All tries of a room's problem, for its instructors. */
export function triesOf(room: string): Promise<Answer<readonly TryListed[]>> {
  return askJson(`/api/rooms/${encodeURIComponent(room)}/tries`);
}

const UNREACHABLE: Refusal = {
  code: "unreachable",
  text: "The server cannot be reached at the moment. Look at the connection, then try again.",
};

/** How something is asked of the server: posted where there is a body, else got, unless a method is named. */
export type Asking = {
  readonly method?: "GET" | "POST" | "PUT" | "DELETE";
  readonly body?: unknown;
  readonly headers?: Readonly<Record<string, string>>;
};

/** Asks the server for JSON. */
export async function askJson<T>(path: string, asking: Asking = {}): Promise<Answer<T>> {
  const response = await fetchAs(path, asking);
  const json: unknown = await response?.json().catch(() => null);
  if (!response || json === null || json === undefined) return { ok: false, refusal: UNREACHABLE };
  return response.ok ? { ok: true, value: json as T } : { ok: false, refusal: (json as ApiFailure).error };
}

/** Asks the server for bytes. What it refuses comes as JSON, as everywhere. */
export async function askBytes(path: string, asking: Asking = {}): Promise<Answer<Uint8Array>> {
  const response = await fetchAs(path, asking);
  const body = await (response?.ok ? response.arrayBuffer() : response?.json())?.catch(() => null);
  if (!body) return { ok: false, refusal: UNREACHABLE };
  return body instanceof ArrayBuffer
    ? { ok: true, value: new Uint8Array(body) }
    : { ok: false, refusal: (body as ApiFailure).error };
}

/** A file goes as it is, all else as JSON. Null where the server is not there to be asked. */
function fetchAs(path: string, { method, body, headers = {} }: Asking): Promise<Response | null> {
  const isGet = body === undefined;
  const isFile = body instanceof Blob;
  const type = isFile ? "application/octet-stream" : "application/json";
  const init: RequestInit = {
    method: method ?? (isGet ? "GET" : "POST"),
    headers: isGet ? headers : { "content-type": type, ...headers },
    ...(isGet ? {} : { body: isFile ? body : JSON.stringify(body) }),
  };
  return fetch(path, init).catch(() => null);
}
