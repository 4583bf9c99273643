import { Prisma, type PrismaClient } from "../generated/prisma/client";
import type { HistoryEntry, HistoryStore, Snapshot, StoredRoom } from "./historyStore";
import { conflictText } from "./memoryHistory";

/** Rooms' histories in the database. Closing it disconnects the client. */
export class PrismaHistory implements HistoryStore {
  readonly #client: PrismaClient;
  /** Database ids of rooms by name; a room never changes its id. */
  readonly #roomIds = new Map<string, number>();

  constructor(client: PrismaClient) {
    this.#client = client;
  }

  async append(entries: readonly HistoryEntry[]): Promise<void> {
    const rows = await Promise.all(entries.map((entry) => this.#row(entry)));
    try {
      await this.#insert(rows);
    } catch (error) {
      const missing = await this.#withoutStored(rows, entries);
      if (missing.length === rows.length) throw error;
      if (missing.length > 0) await this.#insert(missing);
    }
  }

  async load(room: string): Promise<StoredRoom> {
    const found = await this.#client.room.findUnique({ where: { name: room } });
    if (!found) return { snapshot: null, entries: [] };
    this.#roomIds.set(room, found.id);
    const snapshot = await this.#client.snapshot.findFirst({
      where: { roomId: found.id },
      orderBy: { sequence: "desc" },
    });
    const entries = await this.#client.historyEntry.findMany({
      where: { roomId: found.id, sequence: { gt: snapshot?.sequence ?? 0 } },
      orderBy: { sequence: "asc" },
    });
    return {
      snapshot: snapshot && { ...snapshot, room, time: snapshot.time.getTime() },
      entries: entries.map((entry) => ({ ...entry, room, time: entry.time.getTime() })),
    };
  }

  async writeSnapshot({ room, sequence, time, bytes, access }: Snapshot): Promise<void> {
    const roomId = await this.#roomId(room);
    const row = { roomId, sequence, time: new Date(time), bytes: owned(bytes), access };
    await this.#client.snapshot.upsert({
      where: { roomId_sequence: { roomId, sequence } },
      create: row,
      update: {},
    });
  }

  async close(): Promise<void> {
    await this.#client.$disconnect();
  }

  /**
   * One statement, so all or nothing. Written out, in SQL that SQLite and PostgreSQL share, since every change waits for
   * it: the client's own `createMany` takes three times as long for one row and ten times for a hundred.
   */
  async #insert(rows: readonly Row[]): Promise<void> {
    const values = rows.map(
      ({ roomId, sequence, time, participant, kind, bytes }) =>
        Prisma.sql`(${roomId}, ${sequence}, ${time}, ${participant}, ${kind}, ${bytes})`,
    );
    await this.#client.$executeRaw`
      INSERT INTO "HistoryEntry" ("roomId", "sequence", "time", "participant", "kind", "bytes")
      VALUES ${Prisma.join(values)}`;
  }

  /** The rows that are not there from an earlier try whose outcome nobody learned. Throws where a place is taken by others. */
  async #withoutStored(rows: readonly Row[], entries: readonly HistoryEntry[]): Promise<readonly Row[]> {
    const missing: Row[] = [];
    for (const [index, row] of rows.entries()) {
      const { roomId, sequence } = row;
      const stored = await this.#client.historyEntry.findUnique({ where: { roomId_sequence: { roomId, sequence } } });
      if (!stored) missing.push(row);
      else if (!Buffer.from(stored.bytes).equals(row.bytes))
        throw new Error(conflictText(entries[index] as HistoryEntry));
    }
    return missing;
  }

  async #row(entry: HistoryEntry): Promise<Row> {
    const { sequence, participant, kind } = entry;
    const roomId = await this.#roomId(entry.room);
    return { roomId, sequence, time: new Date(entry.time), participant, kind, bytes: owned(entry.bytes) };
  }

  async #roomId(name: string): Promise<number> {
    const known = this.#roomIds.get(name);
    if (known !== undefined) return known;
    const { id } = await this.#client.room.upsert({ where: { name }, create: { name }, update: {} });
    this.#roomIds.set(name, id);
    return id;
  }
}

type Row = {
  readonly roomId: number;
  readonly sequence: number;
  readonly time: Date;
  readonly participant: string;
  readonly kind: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
};

/** The client's type asks for bytes over an `ArrayBuffer` of their own. */
function owned(bytes: Uint8Array): Uint8Array<ArrayBuffer> {
  return bytes.buffer instanceof ArrayBuffer ? (bytes as Uint8Array<ArrayBuffer>) : new Uint8Array(bytes);
}
