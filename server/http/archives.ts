import type { IncomingMessage } from "node:http";
import type { RoomCreated } from "../../shared/messages";
import { decideJoin, hashOfKey, type Identity, nameSchema, newInstructorKey, type RoomAccess } from "../access";
import { ENTRY, type HistoryEntry, type HistoryStore, jsonBytes, type RoomDirectory, UNFINISHED } from "../history";
import type { Limits } from "../limits";
import type { RateLimits } from "../rateLimit";
import { type RoomReplay, readArchive, rebuild, type Session, writeArchive } from "../replay";
import { accessFrom } from "../room/accessHistory";
import { type ApiAnswer, failure, joinFailure, TOO_MANY } from "./apiAnswer";
import { addressOf, readBytesBody } from "./requestBody";
import type { RoomMaker } from "./roomMaker";

export type ArchivesServices = {
  readonly store: HistoryStore;
  readonly directory: RoomDirectory;
  readonly identity: Identity;
  readonly maker: RoomMaker;
  readonly creates: RateLimits;
  readonly limits: Limits;
  readonly now: () => number;
};

/** Sessions as files: a room's out, and one in as a new room (server/replay/ARCHIVE.md). */
export class Archives {
  readonly #services: ArchivesServices;
  /** One at a time, since each may take as much memory as the longest archive. */
  #isImporting = false;

  constructor(services: ArchivesServices) {
    this.#services = services;
  }

  /** The room's session, part by part. */
  give(replay: RoomReplay, access: RoomAccess, title: string): ApiAnswer {
    const { store, now } = this.#services;
    return {
      status: 200,
      body: {},
      headers: { "Content-Disposition": `attachment; filename="${replay.room}.addend-session"` },
      parts: writeArchive(replay, store, access, title, now()),
    };
  }

  /** Makes a room of an archive, whose instructor is whoever sends it, by the name in the address. Changes nothing else. */
  async take(request: IncomingMessage, query: URLSearchParams): Promise<ApiAnswer> {
    const { creates, limits, now } = this.#services;
    const name = nameSchema.safeParse(query.get("name") ?? "");
    if (!name.success) return failure("badRequest", '"name" of the address is to be a name of 1 to 40 characters.');
    if (!creates.take(addressOf(request), now())) return TOO_MANY;
    if (this.#isImporting) return BUSY;
    this.#isImporting = true;
    try {
      const bytes = await readBytesBody(request, limits.archiveBytes);
      if (!bytes) return failure("tooLarge", `An archive has at most ${limits.archiveBytes} bytes.`);
      const reading = readArchive(bytes, { entries: limits.archiveEntries, entryBytes: limits.frameBytes });
      if (!reading.ok) return failure("badArchive", reading.text);
      return await this.#makeRoom(request, name.data, reading.session);
    } finally {
      this.#isImporting = false;
    }
  }

  async #makeRoom(request: IncomingMessage, name: string, session: Session): Promise<ApiAnswer> {
    const { store, directory, identity, maker, limits } = this.#services;
    const participant = identity.read(request.headers.cookie) ?? identity.newParticipant();
    const entries = session.entries.map((entry) => ({ ...entry, room: "" }));
    const admission = this.#admission(entries, participant, name);
    if ("status" in admission) return admission;
    const rebuilt = await rebuild(entries, limits);
    if (!rebuilt.ok) {
      const text = `Entry ${rebuilt.sequence} of this archive is no change that a board can take in: ${rebuilt.reason}.`;
      return failure("badArchive", text);
    }
    const instructorKey = newInstructorKey();
    // The room counts from the moment on that it has its key: until then the next start of the server takes it away.
    const room = await maker.newCode(UNFINISHED);
    try {
      const inRoom = <T extends object>(each: T) => ({ ...each, room });
      await store.putWhole([...entries, admission].map(inRoom), rebuilt.snapshots.map(inRoom));
      await directory.setKey(room, hashOfKey(instructorKey));
    } catch (error) {
      await store.erase(room);
      await directory.remove(room);
      throw error;
    }
    const created: RoomCreated = { room, instructorKey };
    return { status: 201, body: created, headers: { "Set-Cookie": identity.cookie(participant) } };
  }

  /** What follows the last entry: whoever imports a session comes in as an instructor, also where the session had ended. */
  #admission(entries: readonly HistoryEntry[], participant: string, name: string): HistoryEntry | ApiAnswer {
    const access = accessFrom({ snapshot: null, entries });
    const admission = decideJoin({ ...access, isEnded: false }, participant, { name }, true);
    if (admission.outcome === "refused") return joinFailure(admission.why);
    const bytes = jsonBytes(admission.change);
    const last = entries.at(-1);
    const time = Math.max(this.#services.now(), last?.time ?? 0);
    return { room: "", sequence: (last?.sequence ?? 0) + 1, time, participant, kind: ENTRY.settings, bytes };
  }
}

const BUSY = failure("unavailable", "Another session is being imported at the moment. Try again in a while.");
