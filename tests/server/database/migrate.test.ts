import { createHash } from "node:crypto";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { PrismaBetterSqlite3 } from "@prisma/adapter-better-sqlite3";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { type Migration, migrate, OperatorError, readMigrations } from "../../../server/database";
import { MIGRATIONS, removeFolders, temporaryFolder } from "../support/database";

type Connection = Awaited<ReturnType<PrismaBetterSqlite3["connect"]>>;
let connection: Connection;

beforeEach(async () => {
  connection = await new PrismaBetterSqlite3({ url: ":memory:" }).connect();
});
afterEach(async () => {
  await connection.dispose();
  removeFolders();
});

const sha256 = (text: string) => createHash("sha256").update(text).digest("hex");
const migration = (name: string, sql: string): Migration => ({ name, sql, checksum: sha256(sql) });
const ONE = migration("1_one", 'CREATE TABLE "One" ("id" INTEGER PRIMARY KEY)');
const TWO = migration("2_two", 'CREATE TABLE "Two" ("id" INTEGER PRIMARY KEY, "one" INTEGER REFERENCES "One" ("id"))');

async function query(sql: string): Promise<unknown[][]> {
  return (await connection.queryRaw({ sql, args: [], argTypes: [] })).rows;
}

const tables = async () =>
  (await query("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")).map(([name]) => name);

/** The rejection's message, which must be meant for whoever runs the server. */
async function refusal(...migrations: Migration[]): Promise<string> {
  const error = await migrate(connection, migrations).then(
    () => null,
    (reason: unknown) => reason,
  );
  expect(error).toBeInstanceOf(OperatorError);
  return (error as OperatorError).message;
}

describe("migrations", () => {
  it("are applied in order, once, and recorded as Prisma's command line does", async () => {
    expect(await migrate(connection, [ONE, TWO])).toEqual(["1_one", "2_two"]);
    expect(await migrate(connection, [ONE, TWO])).toEqual([]);
    expect(await tables()).toEqual(["One", "Two", "_prisma_migrations"]);
    const records = await query(
      `SELECT "migration_name", "checksum", "applied_steps_count", "finished_at" >= "started_at", "logs", "rolled_back_at", length("id")
        FROM "_prisma_migrations" ORDER BY "migration_name"`,
    );
    expect(records.map((row) => row.map((value) => (typeof value === "bigint" ? Number(value) : value)))).toEqual([
      ["1_one", ONE.checksum, 1, 1, null, null, 36],
      ["2_two", TWO.checksum, 1, 1, null, null, 36],
    ]);
  });

  it("that are new are applied to a database that has the older ones", async () => {
    await migrate(connection, [ONE]);
    expect(await migrate(connection, [ONE, TWO])).toEqual(["2_two"]);
  });

  it("are refused where one that was applied has been changed, by name", async () => {
    await migrate(connection, [ONE]);
    const message = await refusal(migration("1_one", "SELECT 1"), TWO);
    expect(message).toContain("The migration 1_one was changed after it was applied");
    expect(await tables()).not.toContain("Two");
  });

  it("are refused where the database has one that this version lacks", async () => {
    await migrate(connection, [ONE, TWO]);
    expect(await refusal(ONE)).toContain("has the migration 2_two, which this version of the program lacks");
  });

  it("are refused where one is recorded as failed, and not where that one was rolled back", async () => {
    await migrate(connection, []);
    const failed = `INSERT INTO "_prisma_migrations" ("id", "checksum", "migration_name") VALUES ('x', '', '1_one')`;
    await connection.executeScript(failed);
    expect(await refusal(ONE)).toContain("The migration 1_one failed on this database earlier");
    await connection.executeScript(`UPDATE "_prisma_migrations" SET "rolled_back_at" = 1`);
    expect(await migrate(connection, [ONE])).toEqual(["1_one"]);
  });

  it("that fail half way leave nothing behind, and can be applied once mended", async () => {
    const broken = migration("2_two", `${TWO.sql}; INSERT INTO "Nowhere" VALUES (1)`);
    expect(await refusal(ONE, broken)).toContain("The migration 2_two failed and was taken back: ");
    expect(await tables()).toEqual(["One", "_prisma_migrations"]);
    expect(await migrate(connection, [ONE, TWO])).toEqual(["2_two"]);
  });

  it("that leave a reference to a missing row are taken back", async () => {
    const dangling = migration("3_dangling", 'INSERT INTO "Two" VALUES (1, 99)');
    expect(await refusal(ONE, TWO, dangling)).toContain("it leaves 1 rows that refer to missing ones");
    expect(await query('SELECT * FROM "Two"')).toEqual([]);
  });

  it("that build a table anew keep the rows that refer to it", async () => {
    const child = migration(
      "2_two",
      `${TWO.sql.replace('("id"))', '("id") ON DELETE CASCADE)')}; INSERT INTO "One" VALUES (5); INSERT INTO "Two" VALUES (1, 5)`,
    );
    // The way in which Prisma rewrites a table of SQLite.
    const rebuilt = migration(
      "3_rebuilt",
      `PRAGMA defer_foreign_keys=ON; PRAGMA foreign_keys=OFF;
       CREATE TABLE "new_One" ("id" INTEGER PRIMARY KEY, "name" TEXT);
       INSERT INTO "new_One" ("id") SELECT "id" FROM "One"; DROP TABLE "One"; ALTER TABLE "new_One" RENAME TO "One";
       PRAGMA foreign_keys=ON; PRAGMA defer_foreign_keys=OFF;`,
    );
    await migrate(connection, [ONE, child, rebuilt]);
    expect((await query('SELECT * FROM "Two"')).map((row) => row.map(Number))).toEqual([[1, 5]]);
    expect((await query("PRAGMA foreign_keys"))[0]?.map(Number)).toEqual([1]);
  });
});

it("reads migrations from Prisma's folders, oldest first, with the SHA-256 of each file", () => {
  const folder = temporaryFolder();
  for (const { name, sql } of [TWO, ONE]) {
    mkdirSync(join(folder, name));
    writeFileSync(join(folder, name, "migration.sql"), sql);
  }
  writeFileSync(join(folder, "migration_lock.toml"), 'provider = "sqlite"\n');
  expect(readMigrations(folder)).toEqual([ONE, TWO]);
});

it("applies the project's own migrations", async () => {
  const names = await migrate(connection, readMigrations(MIGRATIONS));
  expect(names.length).toBeGreaterThan(0);
  expect(await tables()).toContain("HistoryEntry");
});
