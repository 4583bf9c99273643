import type { IncomingMessage } from "node:http";
import type { JoinRoom, RoomCreated, RoomJoined } from "../../shared/messages";
import { hashOfKey, type Identity, newInstructorKey, newRoomCode, newTryCode } from "../access";
import type { RoomDirectory } from "../history";
import type { Limits } from "../limits";
import type { Room, RoomRegistry } from "../room";
import { within } from "../within";
import { type ApiAnswer, joinFailure, NOT_STORED } from "./apiAnswer";

export type RoomMakerServices = {
  readonly registry: RoomRegistry;
  readonly directory: RoomDirectory;
  readonly identity: Identity;
  readonly limits: Pick<Limits, "storePatience">;
};

/** How often a join code that is taken is drawn again; with a million rooms a second try is needed once in 900. */
const CODE_TRIES = 20;
/** The same of the name of a new try, which is taken once in 31²⁰. */
const TRY_CODE_TRIES = 3;

/** Makes rooms, and admits people to them over HTTP. */
export class RoomMaker {
  readonly #services: RoomMakerServices;

  constructor(services: RoomMakerServices) {
    this.#services = services;
  }

  /** Makes a room that begins with a board, null for a blank one, and whose instructor is whoever asks. */
  async make(request: IncomingMessage, asked: Pick<JoinRoom, "name">, update: Uint8Array | null): Promise<ApiAnswer> {
    const { registry, identity } = this.#services;
    const instructorKey = newInstructorKey();
    const name = await this.newCode(hashOfKey(instructorKey));
    const room = await registry.open(name);
    const participant = identity.read(request.headers.cookie) ?? identity.newParticipant();
    if (update) room.begin(participant, update);
    const you = await this.admit(room, participant, asked, true);
    if ("status" in you) return you;
    const created: RoomCreated = { room: name, instructorKey };
    return { status: 201, body: created, headers: { "Set-Cookie": identity.cookie(participant) } };
  }

  /** Takes a free code for a new room. */
  async newCode(keyHash: string): Promise<string> {
    for (let attempt = 0; attempt < CODE_TRIES; attempt++) {
      const code = newRoomCode();
      if (await this.#services.directory.create(code, keyHash)) return code;
    }
    throw new Error(`no free room code in ${CODE_TRIES} tries`);
  }

  /** Makes the room of a participant's try of a room's problem. Of several that are asked for at once, all get the same. */
  async newTry(room: string, owner: string): Promise<string> {
    const { directory } = this.#services;
    for (let attempt = 0; attempt < TRY_CODE_TRIES; attempt++) {
      await directory.createTry(newTryCode(), room, owner);
      const name = await directory.findTry(room, owner);
      if (name !== null) return name;
    }
    throw new Error(`no free name for a try in ${TRY_CODE_TRIES} attempts`);
  }

  /** Waits for the membership to be stored, but not for a store that doesn't work. */
  async admit(
    room: Room,
    participant: string,
    asked: Omit<JoinRoom, "key">,
    holdsKey: boolean,
  ): Promise<RoomJoined | ApiAnswer> {
    const { identity, limits } = this.#services;
    const you = await within(room.admit(participant, asked, holdsKey), limits.storePatience);
    if (you === "late") {
      // With the cookie, the next try is the same participant's, and finds the membership that waits to be stored.
      const headers = { "Set-Cookie": identity.cookie(participant) };
      return { ...NOT_STORED, headers };
    }
    return typeof you === "string" ? joinFailure(you) : { you };
  }
}
