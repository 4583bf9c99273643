import type { IncomingMessage } from "node:http";
import type { RoomCreated } from "../../shared/messages";
import {
  decideJoin,
  hashOfKey,
  type Identity,
  nameSchema,
  newInstructorKey,
  OPEN_ACCESS,
  type RoomAccess,
  TRY_ACCESS,
} from "../access";
import {
  ENTRY,
  type HistoryEntry,
  type HistoryStore,
  jsonBytes,
  type RoomDirectory,
  type Snapshot,
  UNFINISHED,
} from "../history";
import type { Limits } from "../limits";
import type { RateLimits } from "../rateLimit";
import {
  type Rebuilt,
  type Removal,
  type RoomReplay,
  readArchive,
  rebuild,
  type Session,
  writeArchive,
} from "../replay";
import { accessFrom } from "../room/accessHistory";
import { type ApiAnswer, failure, joinFailure, TOO_MANY } from "./apiAnswer";
import { addressOf, readBytesBody } from "./requestBody";
import type { RoomMaker } from "./roomMaker";

export type ArchivesServices = {
  readonly store: HistoryStore;
  readonly directory: RoomDirectory;
  readonly identity: Identity;
  readonly maker: RoomMaker;
  readonly removal: Pick<Removal, "remove">;
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

  /** The room's session with the tries of its problem, part by part. */
  give(replay: RoomReplay, access: RoomAccess, title: string): ApiAnswer {
    const { now } = this.#services;
    return {
      status: 200,
      body: {},
      headers: { "Content-Disposition": `attachment; filename="${replay.room}.addend-session"` },
      parts: writeArchive(replay, this.#services, access, title, now()),
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
      const reading = readArchive(bytes, {
        entries: limits.archiveEntries,
        entryBytes: limits.frameBytes,
        tries: limits.archiveTries,
      });
      if (!reading.ok) return failure("badArchive", reading.text);
      return await this.#makeRoom(request, name.data, reading.session);
    } finally {
      this.#isImporting = false;
    }
  }

  async #makeRoom(request: IncomingMessage, name: string, session: Session): Promise<ApiAnswer> {
    const { directory, identity, maker, removal } = this.#services;
    const participant = identity.read(request.headers.cookie) ?? identity.newParticipant();
    const admission = this.#admission(placed(session.entries, ""), participant, name);
    if ("status" in admission) return admission;
    const rebuilt = await this.#rebuilt(session);
    if ("status" in rebuilt) return rebuilt;
    const instructorKey = newInstructorKey();
    // The room counts from the moment on that it has its key: until then the next start of the server takes it away.
    const room = await maker.newCode(UNFINISHED);
    try {
      await this.#fill(room, [...session.entries, admission], rebuilt.snapshots);
      for (const { owner, progress, entries, snapshots } of rebuilt.tries) {
        const own = await maker.newTry(room, owner);
        await this.#fill(own, entries, snapshots);
        if (progress) await directory.noteProgress(own, progress);
      }
      await directory.setKey(room, hashOfKey(instructorKey));
    } catch (error) {
      await removal.remove(room);
      throw error;
    }
    const created: RoomCreated = { room, instructorKey };
    return { status: 201, body: created, headers: { "Set-Cookie": identity.cookie(participant) } };
  }

  /** The snapshots of the room and of each try; where one has a change that no room would take in, which one. */
  async #rebuilt(session: Session): Promise<RebuiltSession | ApiAnswer> {
    const { limits } = this.#services;
    const own = await rebuild(placed(session.entries, ""), limits, OPEN_ACCESS);
    if (!own.ok) return badChange(own, "");
    const tries: RebuiltSession["tries"][number][] = [];
    for (const [index, each] of session.tries.entries()) {
      const tried = await rebuild(placed(each.entries, ""), limits, TRY_ACCESS);
      if (!tried.ok) return badChange(tried, ` of try ${index + 1}`);
      tries.push({ ...each, snapshots: tried.snapshots });
    }
    return { snapshots: own.snapshots, tries };
  }

  async #fill(room: string, entries: Session["entries"], snapshots: readonly Snapshot[]): Promise<void> {
    await this.#services.store.putWhole(placed(entries, room), placed(snapshots, room));
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

type RebuiltSession = {
  readonly snapshots: readonly Snapshot[];
  readonly tries: readonly (Session["tries"][number] & { readonly snapshots: readonly Snapshot[] })[];
};

function placed<T extends object>(list: readonly T[], room: string): readonly (T & { readonly room: string })[] {
  return list.map((each) => ({ ...each, room }));
}

function badChange({ sequence, reason }: Extract<Rebuilt, { readonly ok: false }>, where: string): ApiAnswer {
  const text = `Entry ${sequence}${where} of this archive is no change that a board can take in: ${reason}.`;
  return failure("badArchive", text);
}

const BUSY = failure("unavailable", "Another session is being imported at the moment. Try again in a while.");
