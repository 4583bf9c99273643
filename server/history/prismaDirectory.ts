import type { Role, RoomVisit } from "../../shared/messages";
import type { PrismaClient } from "../generated/prisma/client";
import type { ListedRoom, RoomDirectory } from "./roomDirectory";

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
    const found = await this.#client.room.findUnique({ where: { name: room } });
    return found && { room, keyHash: found.keyHash };
  }

  async setKey(room: string, keyHash: string): Promise<void> {
    await this.#client.room.updateMany({ where: { name: room }, data: { keyHash } });
  }

  async keyless(): Promise<readonly string[]> {
    const rooms = await this.#client.room.findMany({ where: { keyHash: null }, orderBy: { name: "asc" } });
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
}
