import { Prisma, type PrismaClient } from "../generated/prisma/client";
import type { HistoryEntry, HistoryStore, Snapshot, StoredBoard, StoredHead, StoredRoom } from "./historyStore";
import { conflictText } from "./memoryHistory";

/**
 * Rooms' histories in the database. Closing it disconnects the client. Each change is one statement, and no verb opens a
 * transaction: there is one connection, so that whatever others store meanwhile would fall into it, and be taken back with it
 * after they were told that it is stored.
 */
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
      omit: { thin: true },
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

  async writeSnapshot({ room, sequence, time, bytes, thin, access }: Snapshot): Promise<void> {
    const roomId = await this.#roomId(room);
    await this.#client.$executeRaw`
      INSERT INTO "Snapshot" ("roomId", "sequence", "time", "bytes", "thin", "access")
      VALUES (${roomId}, ${sequence}, ${new Date(time)}, ${owned(bytes)}, ${thin && owned(thin)}, ${access})
      ON CONFLICT DO NOTHING`;
  }

  async heads(room: string, after: number, limit: number): Promise<readonly StoredHead[]> {
    const roomId = await this.#knownId(room);
    if (roomId === null) return [];
    // In SQL, since a long session has tens of thousands and the client's own reading takes four times as long.
    const rows = await this.#client.$queryRaw<(Omit<StoredHead, "time" | "size"> & { time: Date; size: bigint })[]>`
      SELECT "sequence", "time", "participant", "kind", length("bytes") AS "size" FROM "HistoryEntry"
      WHERE "roomId" = ${roomId} AND "sequence" > ${after} ORDER BY "sequence" LIMIT ${limit}`;
    return rows.map((row) => ({ ...row, size: Number(row.size), time: row.time.getTime() }));
  }

  async read(room: string, from: number, to: number, kinds?: readonly string[]): Promise<readonly HistoryEntry[]> {
    const roomId = await this.#knownId(room);
    if (roomId === null) return [];
    const ofKinds = kinds ? Prisma.sql`AND "kind" IN (${Prisma.join([...kinds])})` : Prisma.empty;
    const rows = await this.#client.$queryRaw<(Omit<HistoryEntry, "room" | "time"> & { time: Date })[]>`
      SELECT "sequence", "time", "participant", "kind", "bytes" FROM "HistoryEntry"
      WHERE "roomId" = ${roomId} AND "sequence" >= ${from} AND "sequence" <= ${to} ${ofKinds} ORDER BY "sequence"`;
    return rows.map((row) => ({ ...row, room, time: row.time.getTime() }));
  }

  async snapshotsOf(room: string): Promise<readonly number[]> {
    const roomId = await this.#knownId(room);
    if (roomId === null) return [];
    const rows = await this.#client.snapshot.findMany({
      where: { roomId },
      select: { sequence: true },
      orderBy: { sequence: "asc" },
    });
    return rows.map(({ sequence }) => sequence);
  }

  async boardAt(room: string, sequence: number, unfit: number | null): Promise<StoredBoard | null> {
    const roomId = await this.#knownId(room);
    if (roomId === null) return null;
    const newest = await this.#client.snapshot.findFirst({
      where: { roomId, sequence: { lte: sequence } },
      select: { sequence: true, thin: true },
      orderBy: { sequence: "desc" },
    });
    if (newest === null) return null;
    if (newest.thin && newest.sequence !== unfit)
      return { sequence: newest.sequence, board: newest.thin, isThin: true };
    const where = { roomId_sequence: { roomId, sequence: newest.sequence } };
    // Another one may have taken its place meanwhile.
    const whole = await this.#client.snapshot.findUnique({ where, select: { sequence: true, bytes: true } });
    return whole
      ? { sequence: whole.sequence, board: whole.bytes, isThin: false }
      : this.boardAt(room, sequence, unfit);
  }

  async dropSnapshot(room: string, sequence: number): Promise<void> {
    const roomId = await this.#knownId(room);
    if (roomId !== null) await this.#client.snapshot.deleteMany({ where: { roomId, sequence } });
  }

  async putWhole(entries: readonly HistoryEntry[], snapshots: readonly Snapshot[]): Promise<void> {
    for (let index = 0; index < entries.length; index += PART) await this.append(entries.slice(index, index + PART));
    for (const snapshot of snapshots) await this.writeSnapshot(snapshot);
  }

  async erase(room: string): Promise<void> {
    // What hangs on the room goes with it. The database overwrites what it deletes (openDatabase), but its log still has
    // older copies of the pages; they go when the log is cut.
    await this.#client.room.deleteMany({ where: { name: room } });
    this.#roomIds.delete(room);
    await this.#client.$queryRaw`PRAGMA wal_checkpoint(TRUNCATE)`;
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

  /** The id of a room that there is; null for another. */
  async #knownId(name: string): Promise<number | null> {
    const known = this.#roomIds.get(name);
    if (known !== undefined) return known;
    const found = await this.#client.room.findUnique({ where: { name } });
    if (found) this.#roomIds.set(name, found.id);
    return found?.id ?? null;
  }

  async #roomId(name: string): Promise<number> {
    const known = this.#roomIds.get(name);
    if (known !== undefined) return known;
    await this.#client.$executeRaw`INSERT INTO "Room" ("name") VALUES (${name}) ON CONFLICT DO NOTHING`;
    const { id } = await this.#client.room.findUniqueOrThrow({ where: { name } });
    this.#roomIds.set(name, id);
    return id;
  }
}

/** Entries of a whole history that are stored at once; others' changes go in between. */
const PART = 200;

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
