import type { IncomingMessage, ServerResponse } from "node:http";
import { unreachable } from "../../shared/circuit";
import type { RoomGlance } from "../../shared/messages";
import { createRoomSchema, type Identity, isKeyOf, joinRoomSchema, openTrySchema } from "../access";
import type { RoomDirectory } from "../history";
import type { Limits } from "../limits";
import type { Log } from "../log";
import { RateLimits } from "../rateLimit";
import { EntryRefused, type RoomRegistry } from "../room";
import { StartThread } from "../roomStart";
import { isRoomName } from "../sync/roomAddress";
import { type ApiAnswer, failure, sendAnswer, TOO_MANY, UNKNOWN_ROOM } from "./apiAnswer";
import { isOwnOrigin } from "./origin";
import { readAsked } from "./readAsked";
import { addressOf } from "./requestBody";
import { RoomMaker } from "./roomMaker";
import { TriesApi } from "./triesApi";

export type RoomsApiServices = {
  readonly registry: RoomRegistry;
  readonly directory: RoomDirectory;
  readonly identity: Identity;
  /** Rates of rooms made from one address. */
  readonly creates: RateLimits;
  readonly limits: Limits;
  readonly log: Log;
  readonly now: () => number;
};

const MOST_VISITS = 100;

type Route =
  | { readonly to: "create" }
  | { readonly to: "visits" }
  | { readonly to: "glance" | "join"; readonly room: string }
  | TryRoute;
/** What is asked about learners' own tries of a room's problem. */
type TryRoute =
  | { readonly to: "openTry" | "tries"; readonly room: string }
  | { readonly to: "lookAtTry"; readonly room: string; readonly ownTry: string };

/** `/api/rooms…` and `/api/me/rooms`: making, finding and joining rooms. All answers are JSON. */
export class RoomsApi {
  readonly #services: RoomsApiServices;
  readonly #creates: RateLimits;
  readonly #joins: RateLimits;
  readonly #wrongKeys: RateLimits;
  readonly #starts: StartThread;
  readonly #maker: RoomMaker;
  readonly #tries: TriesApi;

  constructor(services: RoomsApiServices) {
    const { joinRate, wrongKeyRate } = services.limits;
    this.#services = services;
    this.#maker = new RoomMaker(services);
    this.#starts = new StartThread(services.limits.startTime);
    this.#tries = new TriesApi({ ...services, maker: this.#maker });
    this.#creates = services.creates;
    this.#joins = new RateLimits(joinRate);
    this.#wrongKeys = new RateLimits(wrongKeyRate);
  }

  /** Answers a request to an address under /api; false for any other. */
  answer(request: IncomingMessage, response: ServerResponse): boolean {
    const path = request.url?.split("?", 1)[0] ?? "";
    if (path !== "/api" && !path.startsWith("/api/")) return false;
    void this.#handle(request, path)
      .catch((error: unknown) => this.#failed(error, path))
      .then((answer) => sendAnswer(response, answer, (error) => this.#failed(error, path)));
    return true;
  }

  #failed(error: unknown, path: string): ApiAnswer {
    if (error instanceof EntryRefused) return failure("unavailable", `This can't be done now: ${error.message}.`);
    this.#services.log.warn(`${path} failed`, error);
    return failure("unavailable", "The server can't do this at the moment. Try again in a while.");
  }

  async #handle(request: IncomingMessage, path: string): Promise<ApiAnswer> {
    const route = readRoute(request.method ?? "", path);
    if (route === null) return failure("notFound", "There is nothing at this address.");
    if (request.method === "POST" && !isOwnOrigin(request)) {
      return failure("otherOrigin", "This request comes from a page of another site.");
    }
    switch (route.to) {
      case "create":
        return this.#create(request);
      case "join":
        return this.#join(request, route.room);
      case "glance":
        return this.#glance(request, route.room);
      case "visits":
        return this.#visits(request);
      case "openTry":
      case "tries":
      case "lookAtTry":
        return this.#ownTries(request, route);
      default:
        return unreachable(route);
    }
  }

  async #create(request: IncomingMessage): Promise<ApiAnswer> {
    const { limits, now } = this.#services;
    if (!this.#creates.take(addressOf(request), now())) return TOO_MANY;
    const asked = await readAsked(request, createRoomSchema, limits.fileBytes);
    if (!asked.ok) return asked.answer;
    const start = await this.#starts.read(asked.value.from);
    if (!start.ok) return failure(start.code, start.text);
    return this.#maker.make(request, asked.value, start.update);
  }

  async #join(request: IncomingMessage, name: string): Promise<ApiAnswer> {
    const { registry, identity, directory, now } = this.#services;
    if (!this.#joins.take(addressOf(request), now())) return TOO_MANY;
    const asked = await readAsked(request, joinRoomSchema);
    if (!asked.ok) return asked.answer;
    const listed = await directory.find(name);
    const room = listed && (await registry.find(name));
    // Nobody joins somebody's own try: who sees it follows from the room that it is a try of.
    if (!room || room.tryOf !== null) return UNKNOWN_ROOM;
    const { key } = asked.value;
    const holdsKey = key !== undefined && listed.keyHash !== null && isKeyOf(listed.keyHash, key);
    if (key !== undefined && !holdsKey) return this.#wrongKey(request);
    const participant = identity.read(request.headers.cookie) ?? identity.newParticipant();
    const you = await this.#maker.admit(room, participant, asked.value, holdsKey);
    if ("status" in you) return you;
    return { status: 200, body: you, headers: { "Set-Cookie": identity.cookie(participant) } };
  }

  #wrongKey(request: IncomingMessage): ApiAnswer {
    if (!this.#wrongKeys.take(addressOf(request), this.#services.now())) return TOO_MANY;
    return failure("wrongKey", "This instructor's link is not the one of this room.");
  }

  async #glance(request: IncomingMessage, name: string): Promise<ApiAnswer> {
    const { registry, identity, now } = this.#services;
    if (!this.#joins.take(addressOf(request), now())) return TOO_MANY;
    const found = await registry.find(name);
    const room = found?.tryOf ? null : found;
    const participant = identity.read(request.headers.cookie);
    const maySee = participant !== null && found?.you(participant);
    const glance: RoomGlance = {
      room: name,
      exists: room !== null,
      title: room?.title ?? "",
      isEnded: room?.isEnded ?? false,
      isLocked: room?.access.isLocked ?? false,
      you: (participant !== null && room?.you(participant)) || null,
      tryOf: (maySee && found?.tryOf) || null,
    };
    return { status: 200, body: glance };
  }

  async #ownTries(request: IncomingMessage, route: TryRoute): Promise<ApiAnswer> {
    const { registry, identity, now } = this.#services;
    const address = addressOf(request);
    if (!this.#joins.take(address, now())) return TOO_MANY;
    if (route.to === "openTry") {
      const asked = await readAsked(request, openTrySchema);
      if (!asked.ok) return asked.answer;
    }
    const room = await registry.find(route.room);
    if (!room || room.tryOf !== null) return UNKNOWN_ROOM;
    const asker = { participant: identity.read(request.headers.cookie), address };
    switch (route.to) {
      case "openTry":
        return this.#tries.open(room, asker);
      case "tries":
        return this.#tries.list(room, asker);
      case "lookAtTry":
        return this.#tries.look(room, route.ownTry, asker);
      default:
        return unreachable(route);
    }
  }

  async #visits(request: IncomingMessage): Promise<ApiAnswer> {
    const participant = this.#services.identity.read(request.headers.cookie);
    const visits = participant === null ? [] : await this.#services.directory.visits(participant, MOST_VISITS);
    return { status: 200, body: visits };
  }
}

/** Where a request wants to go; null for an address or method that there isn't. */
function readRoute(method: string, path: string): Route | null {
  const [, , ...steps] = path.split("/");
  const [first, second = "", third] = steps;
  if (method === "GET" && path === "/api/me/rooms") return { to: "visits" };
  if (first !== "rooms") return null;
  if (method === "POST" && steps.length === 1) return { to: "create" };
  // No name needs to be escaped, so one that is escaped is none.
  if (!isRoomName(second)) return null;
  if (method === "GET" && steps.length === 2) return { to: "glance", room: second };
  if (method === "POST" && steps.length === 3 && third === "join") return { to: "join", room: second };
  return readTryRoute(method, second, steps.slice(2));
}

function readTryRoute(method: string, room: string, steps: readonly string[]): TryRoute | null {
  const [what, ownTry = ""] = steps;
  if (method === "POST" && what === "try" && steps.length === 1) return { to: "openTry", room };
  if (method === "GET" && what === "tries" && steps.length === 1) return { to: "tries", room };
  if (method === "GET" && what === "tries" && steps.length === 2 && isRoomName(ownTry)) {
    return { to: "lookAtTry", room, ownTry };
  }
  return null;
}
