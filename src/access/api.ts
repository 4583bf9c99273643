import type {
  ApiErrorCode,
  ApiFailure,
  CreateRoom,
  JoinRoom,
  RoomCreated,
  RoomGlance,
  RoomJoined,
  RoomVisit,
} from "../../shared/messages";

/** Why the server did not do what was asked. "unreachable": it was not there to be asked. */
export type Refusal = { readonly code: ApiErrorCode | "unreachable"; readonly text: string };

export type Answer<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly refusal: Refusal };

export function createRoom(request: CreateRoom): Promise<Answer<RoomCreated>> {
  return ask("/api/rooms", request);
}

export function joinRoom(room: string, request: JoinRoom): Promise<Answer<RoomJoined>> {
  return ask(`/api/rooms/${encodeURIComponent(room)}/join`, request);
}

/** What can be seen of a room from outside, and who this browser is in it. */
export function glanceAtRoom(room: string): Promise<Answer<RoomGlance>> {
  return ask(`/api/rooms/${encodeURIComponent(room)}`);
}

/** The rooms that this browser has been in, latest first. */
export function roomsVisited(): Promise<Answer<readonly RoomVisit[]>> {
  return ask("/api/me/rooms");
}

const UNREACHABLE: Refusal = {
  code: "unreachable",
  text: "The server cannot be reached at the moment. Look at the connection, then try again.",
};

/** Posts the body as JSON where there is one, else gets. */
async function ask<T>(path: string, body?: unknown): Promise<Answer<T>> {
  const post = { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify(body) };
  const response = await fetch(path, body === undefined ? {} : post).catch(() => null);
  const json: unknown = await response?.json().catch(() => null);
  if (!response || json === null || json === undefined) return { ok: false, refusal: UNREACHABLE };
  return response.ok ? { ok: true, value: json as T } : { ok: false, refusal: (json as ApiFailure).error };
}
