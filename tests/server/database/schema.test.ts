import { readFileSync } from "node:fs";
import { join } from "node:path";
import { PrismaBetterSqlite3 } from "@prisma/adapter-better-sqlite3";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { migrate, openDatabase, readMigrations } from "../../../server/database";
import { Prisma, type PrismaClient } from "../../../server/generated/prisma/client";
import { MIGRATIONS, removeFolders, temporaryFolder } from "../support/database";

const SCHEMA = readFileSync(new URL("../../../prisma/schema.prisma", import.meta.url), "utf8");

/** SQLite's column type for each scalar type of the schema (Prisma's mapping; the ones that PostgreSQL has too). */
const COLUMN_TYPES: Readonly<Record<string, string>> = {
  Int: "INTEGER",
  String: "TEXT",
  DateTime: "DATETIME",
  Bytes: "BLOB",
};

type Column = {
  name: string;
  type: string;
  notNull: boolean;
  keyPlace: number;
  isUnique: boolean;
  default: string | null;
};
type ForeignKey = { from: string; table: string; to: string; onDelete: string; onUpdate: string };
type Table = { columns: Column[]; foreignKeys: ForeignKey[] };

/** What the schema's text says of each model's table. */
function schemaTables(): Map<string, Table> {
  const models = SCHEMA.matchAll(/^model (\w+) \{\n([\s\S]*?)^\}/gm);
  return new Map([...models].map(([, name = "", body = ""]) => [name, schemaTable(body)]));
}

function schemaTable(body: string): Table {
  const lines = body.split("\n").map((line) => line.trim());
  const keyNames = /@@id\(\[(.*)\]\)/.exec(body)?.[1]?.split(", ") ?? [];
  const table: Table = { columns: [], foreignKeys: [] };
  for (const line of lines) {
    const relation =
      /^\w+ +(\w+)\?? +@relation\((?:"\w+", )?fields: \[(\w+)\], references: \[(\w+)\], onDelete: (\w+)\)$/.exec(line);
    if (relation) {
      const [, to = "", from = "", key = "", onDelete = ""] = relation;
      // Prisma updates by cascade where the schema doesn't say.
      table.foreignKeys.push({ from, table: to, to: key, onDelete: onDelete.toUpperCase(), onUpdate: "CASCADE" });
    }
    const [, name = "", type = "", optional = "", rest = ""] = /^(\w+) +(\w+)(\??)(.*)$/.exec(line) ?? [];
    const columnType = COLUMN_TYPES[type];
    if (!columnType) continue;
    table.columns.push({
      name,
      type: columnType,
      notNull: optional === "",
      keyPlace: rest.includes("@id") ? 1 : keyNames.indexOf(name) + 1,
      isUnique: rest.includes("@unique"),
      default: rest.includes("@default(now())") ? "CURRENT_TIMESTAMP" : null,
    });
  }
  return table;
}

type Connection = Awaited<ReturnType<PrismaBetterSqlite3["connect"]>>;

async function rows(connection: Connection, sql: string): Promise<unknown[][]> {
  return (await connection.queryRaw({ sql, args: [], argTypes: [] })).rows;
}

/** What SQLite says of a table after the migrations. */
async function databaseTable(connection: Connection, name: string): Promise<Table> {
  const unique = new Set<unknown>();
  for (const [, index, isUnique, origin] of await rows(connection, `PRAGMA index_list("${name}")`)) {
    const columns = await rows(connection, `PRAGMA index_info("${index}")`);
    if (Number(isUnique) === 1 && origin === "c" && columns.length === 1) unique.add(columns[0]?.[2]);
  }
  const columns = await rows(connection, `PRAGMA table_info("${name}")`);
  const keys = await rows(connection, `PRAGMA foreign_key_list("${name}")`);
  return {
    columns: columns.map(([, column, type, notNull, preset, keyPlace]) => ({
      name: String(column),
      type: String(type),
      notNull: Number(notNull) === 1,
      keyPlace: Number(keyPlace),
      isUnique: unique.has(column),
      default: preset === null ? null : String(preset),
    })),
    foreignKeys: keys.map(([, , table, from, to, onUpdate, onDelete]) => ({
      from: String(from),
      table: String(table),
      to: String(to),
      onDelete: String(onDelete),
      onUpdate: String(onUpdate),
    })),
  };
}

describe("the migrations make the tables of schema.prisma", () => {
  let connection: Connection;
  beforeAll(async () => {
    connection = await new PrismaBetterSqlite3({ url: ":memory:" }).connect();
    await migrate(connection, readMigrations(MIGRATIONS));
  });
  afterAll(() => connection.dispose());

  it("and no others", async () => {
    const names = await rows(
      connection,
      "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name <> '_prisma_migrations'",
    );
    expect(names.map(([name]) => name).sort()).toEqual([...schemaTables().keys()].sort());
  });

  it.each([...schemaTables()])("%s with its columns, keys and references", async (name, table) => {
    expect(table.columns.length).toBeGreaterThan(2);
    expect(await databaseTable(connection, name)).toEqual(table);
  });
});

it("the generated client has the columns of schema.prisma", () => {
  const generated = {
    Room: Object.keys(Prisma.RoomScalarFieldEnum),
    HistoryEntry: Object.keys(Prisma.HistoryEntryScalarFieldEnum),
    Snapshot: Object.keys(Prisma.SnapshotScalarFieldEnum),
    Visit: Object.keys(Prisma.VisitScalarFieldEnum),
    ReplayLink: Object.keys(Prisma.ReplayLinkScalarFieldEnum),
  };
  const written = [...schemaTables()].map(([name, { columns }]) => [name, columns.map((column) => column.name)]);
  expect(generated).toEqual(Object.fromEntries(written));
});

it("the schema uses only scalar types that SQLite and PostgreSQL share, and names no native ones", () => {
  const types = [...SCHEMA.matchAll(/^ {2}\w+ +([A-Z]\w+)/gm)].map(([, type = ""]) => type);
  const models = new Set(schemaTables().keys());
  expect(types.filter((type) => !models.has(type) && !(type in COLUMN_TYPES))).toEqual([]);
  expect(SCHEMA).not.toContain("@db.");
});

describe("the generated client on the migrated database", () => {
  let client: PrismaClient;
  beforeAll(async () => {
    client = await openDatabase(`file:${join(temporaryFolder(), "addend.db")}`, MIGRATIONS);
  });
  afterAll(async () => {
    await client.$disconnect();
    removeFolders();
  });

  it("creates, reads, updates and deletes, and deletes a room's history with it", async () => {
    const room = await client.room.create({ data: { name: "algebra" } });
    const time = new Date(1_700_000_000_123);
    const bytes = Uint8Array.of(0, 1, 255);
    const key = { roomId: room.id, sequence: 1 };
    await client.historyEntry.create({ data: { ...key, time, participant: "Ann", kind: "update", bytes } });
    await client.snapshot.create({ data: { ...key, time, bytes } });
    const found = await client.historyEntry.findFirstOrThrow({ include: { room: true } });
    expect(found).toMatchObject({ ...key, time, participant: "Ann", kind: "update", room: { name: "algebra" } });
    expect([...found.bytes]).toEqual([0, 1, 255]);
    await client.room.update({ where: { name: "algebra" }, data: { name: "geometry" } });
    expect((await client.snapshot.findFirstOrThrow({ include: { room: true } })).room.name).toBe("geometry");
    await client.room.delete({ where: { name: "geometry" } });
    expect([await client.historyEntry.count(), await client.snapshot.count()]).toEqual([0, 0]);
  });

  it("deletes with a room the tries of its problem, and their histories", async () => {
    const room = await client.room.create({ data: { name: "algebra" } });
    const other = await client.room.create({ data: { name: "geometry" } });
    const own = await client.room.create({ data: { name: "t1", parentId: room.id, owner: "ann" } });
    await client.room.create({ data: { name: "t2", parentId: other.id, owner: "ann" } });
    const twice = client.room.create({ data: { name: "t3", parentId: room.id, owner: "ann" } });
    await expect(twice).rejects.toThrow(/Unique constraint/);
    const entry = { roomId: own.id, sequence: 1, time: new Date(0), participant: "ann", kind: "join" };
    await client.historyEntry.create({ data: { ...entry, bytes: Uint8Array.of(1) } });
    await client.room.delete({ where: { name: "algebra" } });
    expect((await client.room.findMany({ orderBy: { name: "asc" } })).map(({ name }) => name)).toEqual([
      "geometry",
      "t2",
    ]);
    expect(await client.historyEntry.count()).toBe(0);
    await client.room.delete({ where: { name: "geometry" } });
    expect(await client.room.count()).toBe(0);
  });

  it("keeps its log apart from the data and gives commits to the system at once", async () => {
    expect(await client.$queryRaw`PRAGMA journal_mode`).toEqual([{ journal_mode: "wal" }]);
    // 1 is NORMAL.
    expect(await client.$queryRaw`PRAGMA synchronous`).toEqual([{ synchronous: 1n }]);
  });
});
