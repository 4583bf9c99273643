import type { IncomingMessage, ServerResponse } from "node:http";
import { LINK_HEADER, writeCheckpoint, writeChunk, writeTimeline } from "../../shared/replay";
import type { Identity, RoomAccess } from "../access";
import type { HistoryStore, RoomDirectory } from "../history";
import type { Limits } from "../limits";
import type { Log } from "../log";
import { RateLimits } from "../rateLimit";
import {
  answersFor,
  DeskBusy,
  MomentDesk,
  manifestOf,
  Removal,
  Replays,
  type RoomReplay,
  type Viewer,
  viewerOf,
  workingsFor,
} from "../replay";
import { EntryRefused, type RoomRegistry } from "../room";
import type { Solver } from "../solver";
import { type ApiAnswer, failure, ok, sendAnswer, TOO_MANY, UNKNOWN_ROOM } from "./apiAnswer";
import { Archives } from "./archives";
import { isOwnOrigin } from "./origin";
import { IMPORT, type ReplayRequest, readReplayRequest } from "./replayAddress";
import { hashOfLink, NOT_ALLOWED, noSuchMoment, ReplayChanges } from "./replayChanges";
import { addressOf } from "./requestBody";
import { RoomMaker } from "./roomMaker";

export type ReplayApiServices = {
  readonly registry: RoomRegistry;
  readonly directory: RoomDirectory;
  readonly store: HistoryStore;
  readonly solver: Solver;
  readonly identity: Identity;
  /** Rates of rooms made from one address, those made from replays among them. */
  readonly creates: RateLimits;
  readonly limits: Limits;
  readonly log: Log;
  readonly now: () => number;
};

/** `/api/rooms/<room>/replay…` and what else is about rooms' histories (server/sync/PROTOCOL.md, "Replay"). */
export class ReplayApi {
  readonly #services: ReplayApiServices;
  readonly #replays: Replays;
  readonly #desk: MomentDesk;
  readonly #rates: RateLimits;
  readonly #wrongLinks: RateLimits;
  readonly #removal: Removal;
  readonly #changes: ReplayChanges;
  readonly #archives: Archives;

  constructor(services: ReplayApiServices) {
    const { store, directory, solver, limits } = services;
    this.#services = services;
    this.#replays = new Replays(store, directory);
    this.#desk = new MomentDesk(solver, { queue: limits.momentQueue, patience: limits.momentTime });
    this.#rates = new RateLimits(limits.replayRate);
    this.#wrongLinks = new RateLimits(limits.wrongKeyRate);
    this.#removal = new Removal({
      ...services,
      onRemoved: (room) => {
        this.#replays.forget(room);
        this.#desk.forget(room);
      },
    });
    const maker = new RoomMaker(services);
    this.#changes = new ReplayChanges({ ...services, replays: this.#replays, removal: this.#removal, maker });
    this.#archives = new Archives({ ...services, maker, removal: this.#removal });
  }

  /** Answers a request for a replay; false for any other. */
  answer(request: IncomingMessage, response: ServerResponse): boolean {
    const asked = readReplayRequest(request);
    if (!asked) return false;
    void this.#handle(request, asked)
      .catch((error: unknown) => this.#failed(error, asked))
      .then((answer) => sendAnswer(response, answer, (error) => this.#failed(error, asked)));
    return true;
  }

  /** Deletes what is kept no longer; to be waited for before the store is closed. */
  async stop(): Promise<void> {
    await this.#removal.stop();
  }

  #failed(error: unknown, { room, what }: ReplayRequest): ApiAnswer {
    if (error instanceof DeskBusy || error instanceof EntryRefused) {
      return failure("unavailable", `This can't be done now: ${error.message}. Try again in a moment.`);
    }
    this.#services.log.warn(`a request about the history of room "${room}" failed (${what})`, error);
    return failure("unavailable", "The server can't do this at the moment. Try again in a while.");
  }

  async #handle(request: IncomingMessage, asked: ReplayRequest): Promise<ApiAnswer> {
    if (request.method !== "GET" && !isOwnOrigin(request)) {
      return failure("otherOrigin", "This request comes from a page of another site.");
    }
    const { identity, now } = this.#services;
    const participant = identity.read(request.headers.cookie);
    if (!this.#rates.take(participant ?? addressOf(request), now())) return TOO_MANY;
    if (asked.what === IMPORT) return this.#archives.take(request, asked.query);
    const viewer = await this.#viewer(request, asked.room, participant);
    if ("status" in viewer) return viewer;
    const replay = await this.#replays.open(asked.room);
    const reading = asked.method === "GET" ? await this.#give(replay, viewer, asked) : null;
    return reading ?? (await this.#changes.answer(request, asked, replay, viewer)) ?? NOTHING_HERE;
  }

  /**
   * Who asks: whoever brings a link by that, so that an instructor sees what others see by it; else a member, by the newest
   * that is known of the room. Somebody who was removed a moment ago is a stranger.
   */
  async #viewer(request: IncomingMessage, room: string, participant: string | null): Promise<Viewer | ApiAnswer> {
    const { registry, directory } = this.#services;
    const listed = registry.loaded(room) ? null : await directory.find(room);
    // Who may see somebody's own try is known to the room that it is a try of, and not to its history.
    const loaded = listed?.tryOf ? await registry.find(room) : registry.loaded(room);
    if (!loaded && listed === null) return UNKNOWN_ROOM;
    const secret = request.headers[LINK_HEADER];
    if (secret !== undefined) return this.#linkViewer(request, room, String(secret));
    if (participant === null) return NOT_MEMBER;
    const access = loaded?.access ?? (await this.#replays.open(room)).access;
    return viewerOf(access, participant) ?? NOT_MEMBER;
  }

  async #linkViewer(request: IncomingMessage, room: string, secret: string): Promise<Viewer | ApiAnswer> {
    const { directory, now } = this.#services;
    const link = await directory.findLink(room, hashOfLink(secret));
    if (!link) return this.#wrongLinks.take(addressOf(request), now()) ? WRONG_LINK : TOO_MANY;
    if (link.isRevoked) return LINK_REVOKED;
    return link.until !== null && link.until <= now()
      ? LINK_EXPIRED
      : { as: "link", participant: null, mayGoOn: false };
  }

  /** Reads a replay; null where what is asked for is no reading. */
  async #give(replay: RoomReplay, viewer: Viewer, { what, query }: ReplayRequest): Promise<ApiAnswer | null> {
    switch (what) {
      case "replay": {
        const snapshots = await this.#services.store.snapshotsOf(replay.room);
        return ok(manifestOf(replay, viewer, this.#access(replay), await this.#title(replay.room), snapshots));
      }
      case "replay/archive":
        if (viewer.as !== "instructor") return NOT_ALLOWED;
        return this.#archives.give(replay, this.#access(replay), await this.#title(replay.room));
      case "replay/timeline":
        return ok(writeTimeline(replay.timeline));
      case "replay/entries":
        return this.#entries(replay, viewer, query);
      case "replay/board":
      case "replay/answers":
      case "replay/workings": {
        const at = readSequence(query.get("at"));
        if (at === null) return badSequence("at");
        if (at > replay.length) return noSuchMoment(replay.length);
        if (what !== "replay/board") return this.#solved(what, replay, viewer, at);
        const unfit = query.has("unfit") ? readSequence(query.get("unfit")) : 0;
        return unfit === null ? badSequence("unfit") : this.#board(replay, viewer, at, unfit);
      }
      default:
        return null;
    }
  }

  /** The access that counts now: in somebody's own try it is that of the room whose problem is tried. */
  #access({ room, access }: RoomReplay): RoomAccess {
    return this.#services.registry.loaded(room)?.access ?? access;
  }

  async #title(name: string): Promise<string> {
    const room = await this.#services.registry.find(name);
    return room?.title ?? "";
  }

  async #entries(replay: RoomReplay, viewer: Viewer, query: URLSearchParams): Promise<ApiAnswer> {
    const { chunkEntries, chunkBytes } = this.#services.limits;
    const from = readSequence(query.get("from"));
    const to = query.has("to") ? readSequence(query.get("to")) : replay.length;
    if (from === null || from === 0) return badSequence("from");
    if (to === null) return badSequence("to");
    const end = replay.endOf(from, to, chunkEntries, chunkBytes);
    const entries = end < from ? [] : await replay.entries(from, end, viewer);
    return ok(writeChunk({ entries, next: end >= from && end < Math.min(to, replay.length) ? end + 1 : 0 }));
  }

  /** The stored board nearest before the moment, which the page goes on from by itself; whole where it is that of `unfit`. */
  async #board(replay: RoomReplay, viewer: Viewer, at: number, unfit: number): Promise<ApiAnswer> {
    const stored = await this.#services.store.boardAt(replay.room, at, unfit);
    const moment = replay.momentAt(stored?.sequence ?? 0, viewer);
    return ok(writeCheckpoint({ moment, ...(stored ?? { board: new Uint8Array(), isThin: false }) }));
  }

  async #solved(what: string, replay: RoomReplay, viewer: Viewer, at: number): Promise<ApiAnswer> {
    const { room } = replay;
    const board = () => this.#replays.boardAt(room, at);
    const moment = { room, revision: replay.revisionAt(at), board };
    const now = this.#access(replay);
    if (what === "replay/answers") return ok(answersFor(replay, viewer, at, now, await this.#desk.answers(moment)));
    return ok(workingsFor(replay, viewer, at, now, await this.#desk.workings(moment)));
  }
}

const NOTHING_HERE = failure("notFound", "There is nothing at this address.");
const WRONG_LINK = failure(
  "wrongLink",
  "This link opens no replay of this room. If a part of it was lost, copy the whole link once more.",
);
const LINK_REVOKED = failure("linkRevoked", "The instructor has withdrawn this link. Ask for another one.");
const LINK_EXPIRED = failure("linkExpired", "This link was good until a date that has passed. Ask for another one.");
const NOT_MEMBER = failure("notMember", "Only members of the room see its replay. Join the room first.");

function badSequence(name: string): ApiAnswer {
  return failure("badRequest", `"${name}" of the address is to be the number of an entry.`);
}

function readSequence(text: string | null): number | null {
  return text !== null && /^\d{1,9}$/.test(text) ? Number(text) : null;
}
