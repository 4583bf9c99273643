import type { IncomingMessage, ServerResponse } from "node:http";
import { writeCheckpoint, writeChunk, writeTimeline } from "../../shared/replay";
import type { Identity } from "../access";
import type { HistoryStore, RoomDirectory } from "../history";
import type { Limits } from "../limits";
import type { Log } from "../log";
import { RateLimits } from "../rateLimit";
import {
  answersFor,
  DeskBusy,
  MomentDesk,
  manifestOf,
  Replays,
  type RoomReplay,
  type Viewer,
  viewerOf,
  workingsFor,
} from "../replay";
import { EntryRefused, type RoomRegistry } from "../room";
import type { Solver } from "../solver";
import { isRoomName } from "../sync/roomAddress";
import { type ApiAnswer, failure, sendAnswer, TOO_MANY, UNKNOWN_ROOM } from "./apiAnswer";
import { addressOf } from "./requestBody";

export type ReplayApiServices = {
  readonly registry: RoomRegistry;
  readonly directory: RoomDirectory;
  readonly store: HistoryStore;
  readonly solver: Solver;
  readonly identity: Identity;
  readonly limits: Limits;
  readonly log: Log;
  readonly now: () => number;
};

/** A request for a room's replay: `what` is the rest of its path, "" for the replay itself. */
type Asked = { readonly room: string; readonly what: string; readonly query: URLSearchParams };

/** `/api/rooms/<room>/replay…`: a room's history as it is played back (server/sync/PROTOCOL.md, "Replay"). */
export class ReplayApi {
  readonly #services: ReplayApiServices;
  readonly #replays: Replays;
  readonly #desk: MomentDesk;
  readonly #rates: RateLimits;

  constructor(services: ReplayApiServices) {
    const { store, solver, limits } = services;
    this.#services = services;
    this.#replays = new Replays(store);
    this.#desk = new MomentDesk(solver, { queue: limits.momentQueue, patience: limits.momentTime });
    this.#rates = new RateLimits(limits.replayRate);
  }

  /** Answers a request for a replay; false for any other. */
  answer(request: IncomingMessage, response: ServerResponse): boolean {
    const asked = readAddress(request.url ?? "");
    if (!asked) return false;
    void this.#handle(request, asked)
      .catch((error: unknown) => this.#failed(error, asked))
      .then((answer) => {
        if (!request.complete) response.setHeader("Connection", "close");
        sendAnswer(response, answer);
      });
    return true;
  }

  #failed(error: unknown, { room, what }: Asked): ApiAnswer {
    if (error instanceof DeskBusy || error instanceof EntryRefused) {
      return failure("unavailable", `This can't be done now: ${error.message}. Try again in a moment.`);
    }
    this.#services.log.warn(`the replay of room "${room}" failed (${what})`, error);
    return failure("unavailable", "The server can't do this at the moment. Try again in a while.");
  }

  async #handle(request: IncomingMessage, asked: Asked): Promise<ApiAnswer> {
    if (request.method !== "GET") return NOTHING_HERE;
    const { identity, now } = this.#services;
    const participant = identity.read(request.headers.cookie);
    if (!this.#rates.take(participant ?? addressOf(request), now())) return TOO_MANY;
    const viewer = await this.#viewer(asked.room, participant);
    if ("status" in viewer) return viewer;
    const replay = await this.#replays.open(asked.room);
    return this.#give(replay, viewer, asked);
  }

  /** Who asks, by the newest that is known of the room: somebody who was removed a moment ago is a stranger. */
  async #viewer(room: string, participant: string | null): Promise<Viewer | ApiAnswer> {
    const { registry, directory } = this.#services;
    const loaded = registry.loaded(room);
    if (!loaded && (await directory.find(room)) === null) return UNKNOWN_ROOM;
    if (participant === null) return NOT_MEMBER;
    const access = loaded?.access ?? (await this.#replays.open(room)).access;
    return viewerOf(access, participant) ?? NOT_MEMBER;
  }

  async #give(replay: RoomReplay, viewer: Viewer, { what, query }: Asked): Promise<ApiAnswer> {
    switch (what) {
      case "": {
        const { registry, store } = this.#services;
        const room = registry.loaded(replay.room) ?? (await registry.find(replay.room));
        return ok(manifestOf(replay, viewer, room?.title ?? "", await store.snapshotsOf(replay.room)));
      }
      case "timeline":
        return ok(writeTimeline(replay.timeline));
      case "entries":
        return this.#entries(replay, query);
      case "board":
      case "answers":
      case "workings": {
        const at = readSequence(query.get("at"));
        if (at === null) return badSequence("at");
        if (at > replay.length) return noSuchMoment(replay.length);
        return what === "board" ? this.#board(replay, at) : this.#solved(what, replay, viewer, at);
      }
      default:
        return NOTHING_HERE;
    }
  }

  async #entries(replay: RoomReplay, query: URLSearchParams): Promise<ApiAnswer> {
    const { chunkEntries, chunkBytes } = this.#services.limits;
    const from = readSequence(query.get("from"));
    const to = query.has("to") ? readSequence(query.get("to")) : replay.length;
    if (from === null || from === 0) return badSequence("from");
    if (to === null) return badSequence("to");
    const end = replay.endOf(from, to, chunkEntries, chunkBytes);
    const entries = end < from ? [] : await replay.entries(from, end);
    return ok(writeChunk({ entries, next: end >= from && end < Math.min(to, replay.length) ? end + 1 : 0 }));
  }

  /** The stored board nearest before the moment, which the page goes on from by itself. */
  async #board(replay: RoomReplay, at: number): Promise<ApiAnswer> {
    const snapshot = await this.#services.store.snapshotAt(replay.room, at);
    const moment = replay.momentAt(snapshot?.sequence ?? 0);
    return ok(writeCheckpoint({ moment, board: snapshot?.bytes ?? new Uint8Array() }));
  }

  async #solved(what: "answers" | "workings", replay: RoomReplay, viewer: Viewer, at: number): Promise<ApiAnswer> {
    const { room } = replay;
    const board = () => this.#replays.boardAt(room, at);
    const moment = { room, revision: replay.revisionAt(at), board };
    const now = this.#services.registry.loaded(room)?.access ?? replay.access;
    if (what === "answers") return ok(answersFor(replay, viewer, at, now, await this.#desk.answers(moment)));
    return ok(workingsFor(replay, viewer, at, now, await this.#desk.workings(moment)));
  }
}

const ok = (body: object): ApiAnswer => ({ status: 200, body });

const NOTHING_HERE = failure("notFound", "There is nothing at this address.");
const NOT_MEMBER = failure("notMember", "Only members of the room see its replay. Join the room first.");

function badSequence(name: string): ApiAnswer {
  return failure("badRequest", `"${name}" of the address is to be the number of an entry.`);
}

function noSuchMoment(length: number): ApiAnswer {
  return failure("unknownMoment", `The history of this room has ${length} entries so far.`);
}

function readSequence(text: string | null): number | null {
  return text !== null && /^\d{1,9}$/.test(text) ? Number(text) : null;
}

/** Reads `/api/rooms/<room>/replay/<what>?…`; null for another address. */
function readAddress(url: string): Asked | null {
  const [path = "", query = ""] = url.split("?", 2);
  const [empty, api, rooms, room = "", replay, ...what] = path.split("/");
  if (empty !== "" || api !== "api" || rooms !== "rooms" || replay !== "replay" || !isRoomName(room)) return null;
  return { room, what: what.join("/"), query: new URLSearchParams(query) };
}
