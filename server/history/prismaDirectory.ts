import type { Role, RoomVisit, TryProgress } from "../../shared/messages";
import type { ReplayLink, Retention } from "../../shared/replay";
import type { PrismaClient } from "../generated/prisma/client";
import { DAY, type ListedRoom, type ListedTry, type RoomDirectory, UNFINISHED } from "./roomDirectory";

/** The directory in the database, on the same client as the histories. */
export class PrismaDirectory implements RoomDirectory {
  readonly #client: PrismaClient;

  constructor(client: PrismaClient) {
    this.#client = client;
  }

  async create(room: string, keyHash: string): Promise<boolean> {
    // One statement that either makes the room or changes nothing, where two ask for one name at once.
    const made = await this.#client.$executeRaw`
      INSERT INTO "Room" ("name", "keyHash") VALUES (${room}, ${keyHash}) ON CONFLICT DO NOTHING`;
    return made === 1;
  }

  async find(room: string): Promise<ListedRoom | null> {
    const found = await this.#client.room.findUnique({ where: { name: room }, include: { parent: true } });
    if (!found) return null;
    const { keyHash, parent, owner } = found;
    return { room, keyHash, tryOf: parent && owner !== null ? { room: parent.name, owner } : null };
  }

  async setKey(room: string, keyHash: string): Promise<void> {
    await this.#client.room.updateMany({ where: { name: room }, data: { keyHash } });
  }

  async keyless(): Promise<readonly string[]> {
    const rooms = await this.#client.room.findMany({
      where: { keyHash: null, parentId: null },
      orderBy: { name: "asc" },
    });
    return rooms.map(({ name }) => name);
  }

  async noteVisit(participant: string, room: string, visit: Omit<RoomVisit, "room"> | null): Promise<void> {
    const found = await this.#client.room.findUnique({ where: { name: room } });
    if (!found) return;
    const key = { participant, roomId: found.id };
    if (visit === null) {
      await this.#client.visit.deleteMany({ where: key });
      return;
    }
    const data = { title: visit.title, role: visit.role, lastSeen: new Date(visit.lastSeen) };
    await this.#client.visit.upsert({
      where: { participant_roomId: key },
      create: { ...key, ...data },
      update: data,
    });
  }

  async visits(participant: string, limit: number): Promise<readonly RoomVisit[]> {
    const visits = await this.#client.visit.findMany({
      where: { participant },
      include: { room: true },
      orderBy: { lastSeen: "desc" },
      take: limit,
    });
    return visits.map(({ room, title, role, lastSeen }) => ({
      room: room.name,
      title,
      // Written by noteVisit alone.
      role: role as Role,
      lastSeen: lastSeen.getTime(),
    }));
  }

  async remove(room: string): Promise<void> {
    // Links and visits go with it.
    await this.#client.room.deleteMany({ where: { name: room } });
  }

  async unfinished(): Promise<readonly string[]> {
    const rooms = await this.#client.room.findMany({ where: { keyHash: UNFINISHED } });
    return rooms.map(({ name }) => name);
  }

  async retention(room: string): Promise<Retention> {
    const found = await this.#client.room.findUnique({ where: { name: room } });
    if (found?.keepUntil) return { keep: "until", until: found.keepUntil.getTime() };
    return found?.keepDays ? { keep: "days", days: found.keepDays } : { keep: "forever" };
  }

  async setRetention(room: string, retention: Retention): Promise<void> {
    const data = {
      keepDays: retention.keep === "days" ? retention.days : null,
      keepUntil: retention.keep === "until" ? new Date(retention.until) : null,
    };
    await this.#client.room.updateMany({ where: { name: room }, data });
  }

  async overdue(now: number): Promise<readonly string[]> {
    const until = await this.#client.room.findMany({ where: { keepUntil: { lte: new Date(now) } } });
    const days = await this.#client.room.findMany({
      where: { keepDays: { not: null } },
      include: { entries: { orderBy: { sequence: "desc" }, take: 1, select: { time: true } } },
    });
    const over = days.filter(({ keepDays, createdAt, entries }) => {
      const last = entries[0]?.time ?? createdAt;
      return last.getTime() + (keepDays ?? 0) * DAY <= now;
    });
    return [...until, ...over].map(({ name }) => name);
  }

  async addLink(room: string, hash: string, madeAt: number, until: number | null): Promise<ReplayLink> {
    // One statement, like all that changes anything here (PrismaHistory says why).
    await this.#client.$executeRaw`
      INSERT INTO "ReplayLink" ("roomId", "hash", "madeAt", "until")
      SELECT "id", ${hash}, ${new Date(madeAt)}, ${until === null ? null : new Date(until)} FROM "Room" WHERE "name" = ${room}`;
    const made = await this.#client.replayLink.findUniqueOrThrow({ where: { hash } });
    return listed(made);
  }

  async links(room: string): Promise<readonly ReplayLink[]> {
    const links = await this.#client.replayLink.findMany({ where: { room: { name: room } }, orderBy: { id: "desc" } });
    return links.map(listed);
  }

  async findLink(room: string, hash: string): Promise<ReplayLink | null> {
    const found = await this.#client.replayLink.findFirst({ where: { hash, room: { name: room } } });
    return found && listed(found);
  }

  async revokeLink(room: string, id: number, at: number): Promise<boolean> {
    const where = { id, room: { name: room } };
    const found = await this.#client.replayLink.findFirst({ where });
    if (found && !found.revokedAt) {
      await this.#client.replayLink.update({ where: { id }, data: { revokedAt: new Date(at) } });
    }
    return found !== null;
  }

  async createTry(name: string, room: string, owner: string): Promise<void> {
    const parent = await this.#client.room.findUniqueOrThrow({ where: { name: room } });
    await this.#client.$executeRaw`
      INSERT INTO "Room" ("name", "parentId", "owner") VALUES (${name}, ${parent.id}, ${owner}) ON CONFLICT DO NOTHING`;
  }

  async findTry(room: string, owner: string): Promise<string | null> {
    const found = await this.#client.room.findFirst({ where: { parent: { name: room }, owner } });
    return found?.name ?? null;
  }

  async tries(room: string): Promise<readonly ListedTry[]> {
    const rooms = await this.#client.room.findMany({ where: { parent: { name: room } }, orderBy: { id: "asc" } });
    return rooms.map(({ name, owner, progress }) => ({
      room: name,
      owner: owner ?? "",
      // Written by noteProgress alone.
      progress: progress === null ? null : (JSON.parse(progress) as TryProgress),
    }));
  }

  async noteProgress(room: string, progress: TryProgress): Promise<void> {
    await this.#client.room.updateMany({ where: { name: room }, data: { progress: JSON.stringify(progress) } });
  }
}

type StoredLink = {
  readonly id: number;
  readonly madeAt: Date;
  readonly until: Date | null;
  readonly revokedAt: Date | null;
};

function listed({ id, madeAt, until, revokedAt }: StoredLink): ReplayLink {
  return { id, madeAt: madeAt.getTime(), until: until?.getTime() ?? null, isRevoked: revokedAt !== null };
}
