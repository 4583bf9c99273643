import { createHash, randomBytes } from "node:crypto";
import type { IncomingMessage } from "node:http";
import { unreachable } from "../../shared/circuit";
import type { ChapterEdit, ChapterRequest, LinkMade } from "../../shared/replay";
import { chapterRequestSchema, goOnSchema, makeLinkSchema, retentionSchema } from "../access";
import { ENTRY, type RoomDirectory } from "../history";
import type { Limits } from "../limits";
import type { RateLimits } from "../rateLimit";
import type { Removal, Replays, RoomReplay, Viewer } from "../replay";
import type { RoomRegistry } from "../room";
import { type ApiAnswer, failure, ok, TOO_MANY, UNKNOWN_ROOM } from "./apiAnswer";
import { readAsked } from "./readAsked";
import type { ReplayRequest } from "./replayAddress";
import { addressOf } from "./requestBody";
import type { RoomMaker } from "./roomMaker";

export type ReplayChangesServices = {
  readonly registry: RoomRegistry;
  readonly directory: RoomDirectory;
  readonly replays: Replays;
  readonly removal: Removal;
  readonly maker: RoomMaker;
  readonly creates: RateLimits;
  readonly limits: Limits;
  readonly now: () => number;
};

/** What is done to a room's history, and with it: chapters, links, going on from a moment, keeping and deleting. */
export class ReplayChanges {
  readonly #services: ReplayChangesServices;

  constructor(services: ReplayChangesServices) {
    this.#services = services;
  }

  /** Answers a request that is no reading of a replay; null where there is nothing of the kind. */
  async answer(
    request: IncomingMessage,
    { method, what }: ReplayRequest,
    replay: RoomReplay,
    viewer: Viewer,
  ): Promise<ApiAnswer | null> {
    const revoked = /^replay\/links\/(\d{1,9})$/.exec(what)?.[1];
    const asked = revoked === undefined ? `${method} ${what}` : `${method} replay/links/<id>`;
    if (asked === "POST replay/go-on") return this.#goOn(request, replay, viewer);
    const action = ACTIONS.find((each) => each === asked);
    if (action === undefined) return null;
    if (viewer.as !== "instructor") return NOT_ALLOWED;
    switch (action) {
      case "POST replay/chapters":
        return this.#editChapters(request, replay, viewer.participant);
      case "GET replay/links":
        return ok(await this.#services.directory.links(replay.room));
      case "POST replay/links":
        return this.#makeLink(request, replay.room);
      case "DELETE replay/links/<id>":
        return this.#revokeLink(replay.room, Number(revoked));
      case "GET retention":
        return ok(await this.#services.directory.retention(replay.room));
      case "PUT retention":
        return this.#setRetention(request, replay.room);
      case "DELETE ":
        await this.#services.removal.remove(replay.room);
        return ok({ deleted: replay.room });
      default:
        return unreachable(action);
    }
  }

  async #goOn(request: IncomingMessage, replay: RoomReplay, viewer: Viewer): Promise<ApiAnswer> {
    const { maker, creates, replays, now } = this.#services;
    if (!viewer.mayGoOn) return failure("notAllowed", "Only who may draw in a room can go on from its replay.");
    if (!creates.take(addressOf(request), now())) return TOO_MANY;
    const asked = await readAsked(request, goOnSchema);
    if (!asked.ok) return asked.answer;
    const { at, name } = asked.value;
    if (at > replay.length) return noSuchMoment(replay.length);
    const board = replay.revisionAt(at) === 0 ? null : await replays.boardAt(replay.room, at);
    return maker.make(request, { name }, board);
  }

  /** An edit becomes an entry of the history; the reply has the chapters as it leaves them. */
  async #editChapters(request: IncomingMessage, replay: RoomReplay, participant: string): Promise<ApiAnswer> {
    const asked = await readAsked(request, chapterRequestSchema);
    if (!asked.ok) return asked.answer;
    if (asked.value.do === "add" && asked.value.at > replay.length) return noSuchMoment(replay.length);
    if (asked.value.do !== "remove" && replay.chapterEdits >= this.#services.limits.chapters) return TOO_MANY_CHAPTERS;
    if (asked.value.do !== "add" && !hasChapter(replay, asked.value.id)) {
      return failure("badRequest", `There is no chapter "${asked.value.id}".`);
    }
    const room = await this.#services.registry.find(replay.room);
    if (!room) return UNKNOWN_ROOM;
    await room.note(ENTRY.chapter, participant, editOf(asked.value));
    await replay.follow();
    return ok(replay.chapters);
  }

  async #makeLink(request: IncomingMessage, room: string): Promise<ApiAnswer> {
    const { directory, limits, now } = this.#services;
    const asked = await readAsked(request, makeLinkSchema);
    if (!asked.ok) return asked.answer;
    if ((await directory.find(room))?.tryOf) return NOT_SHARED;
    const { until } = asked.value;
    if (until !== null && until <= now())
      return failure("badRequest", `"until" is to be a time that is still to come.`);
    if ((await directory.links(room)).length >= limits.replayLinks) {
      return failure("badRequest", `A replay has ${limits.replayLinks} links at most.`);
    }
    const secret = randomBytes(16).toString("base64url");
    const made: LinkMade = { link: await directory.addLink(room, hashOfLink(secret), now(), until), secret };
    return { status: 201, body: made };
  }

  async #revokeLink(room: string, id: number): Promise<ApiAnswer> {
    const { directory, now } = this.#services;
    if (!(await directory.revokeLink(room, id, now()))) return failure("notFound", `There is no link ${id}.`);
    return ok(await directory.links(room));
  }

  async #setRetention(request: IncomingMessage, room: string): Promise<ApiAnswer> {
    const { directory, now } = this.#services;
    const asked = await readAsked(request, retentionSchema);
    if (!asked.ok) return asked.answer;
    if (asked.value.keep === "until" && asked.value.until <= now()) {
      return failure("badRequest", `"until" is to be a time that is still to come. To delete the room now, delete it.`);
    }
    await directory.setRetention(room, asked.value);
    return ok(await directory.retention(room));
  }
}

/** What only an instructor does. */
const ACTIONS = [
  "POST replay/chapters",
  "GET replay/links",
  "POST replay/links",
  "DELETE replay/links/<id>",
  "GET retention",
  "PUT retention",
  "DELETE ",
] as const;

export const NOT_ALLOWED = failure("notAllowed", "Only an instructor of this room can do this.");
const NOT_SHARED = failure("notAllowed", "Somebody's own try is for them and the instructor, so no link leads to it.");
const TOO_MANY_CHAPTERS = failure("badRequest", "This replay has as many chapters as can be made of it.");

export function noSuchMoment(length: number): ApiAnswer {
  return failure("unknownMoment", `The history of this room has ${length} entries so far.`);
}

/** As the secret of a link is kept. It is random, so that a plain hash tells nothing about it. */
export function hashOfLink(secret: string): string {
  return createHash("sha256").update(`replay ${secret}`).digest("base64url");
}

function hasChapter({ chapters }: RoomReplay, id: string): boolean {
  return chapters.some((chapter) => chapter.id === id);
}

function editOf(asked: ChapterRequest): ChapterEdit {
  return asked.do === "add" ? { ...asked, id: `added ${randomBytes(6).toString("base64url")}` } : asked;
}
