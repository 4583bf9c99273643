import { randomUUID } from "node:crypto";
import type { PrismaBetterSqlite3 } from "@prisma/adapter-better-sqlite3";
import type { Migration } from "./migrationFolder";
import { OperatorError } from "./operatorError";

type Connection = Awaited<ReturnType<PrismaBetterSqlite3["connect"]>>;

/** The table in which Prisma's command line records migrations, as it makes it for SQLite. */
const RECORDS = `CREATE TABLE IF NOT EXISTS "_prisma_migrations" (
    "id"                    TEXT PRIMARY KEY NOT NULL,
    "checksum"              TEXT NOT NULL,
    "finished_at"           DATETIME,
    "migration_name"        TEXT NOT NULL,
    "logs"                  TEXT,
    "rolled_back_at"        DATETIME,
    "started_at"            DATETIME NOT NULL DEFAULT current_timestamp,
    "applied_steps_count"   INTEGER UNSIGNED NOT NULL DEFAULT 0
)`;

type MigrationRecord = { readonly name: string; readonly checksum: string; readonly isFinished: boolean };

/**
 * Brings a database up to date and records it as `prisma migrate deploy` would, so that either can go on where the other
 * stopped. Gives the names of those it applied. Each is applied whole or not at all. Rejects with an
 * {@link OperatorError} where the database and the folder don't belong together, or a migration fails.
 */
export async function migrate(connection: Connection, migrations: readonly Migration[]): Promise<readonly string[]> {
  await connection.executeScript(RECORDS);
  const records = await readRecords(connection);
  checkRecords(records, migrations);
  const applied = new Set(records.map(({ name }) => name));
  const pending = migrations.filter(({ name }) => !applied.has(name));
  for (const migration of pending) await apply(connection, migration);
  return pending.map(({ name }) => name);
}

function checkRecords(records: readonly MigrationRecord[], migrations: readonly Migration[]): void {
  for (const { name, checksum, isFinished } of records) {
    const migration = migrations.find((each) => each.name === name);
    if (!isFinished) {
      throw new OperatorError(
        `The migration ${name} failed on this database earlier. Mend the database, then mark it with "npx prisma migrate resolve".`,
      );
    }
    if (!migration) {
      throw new OperatorError(
        `This database has the migration ${name}, which this version of the program lacks. Run the version that made it, or a newer one.`,
      );
    }
    if (migration.checksum !== checksum) {
      throw new OperatorError(
        `The migration ${name} was changed after it was applied to this database. Restore its migration.sql, and put changes into a new migration.`,
      );
    }
  }
}

async function readRecords(connection: Connection): Promise<readonly MigrationRecord[]> {
  const sql = `SELECT "migration_name", "checksum", "finished_at" IS NOT NULL FROM "_prisma_migrations"
    WHERE "rolled_back_at" IS NULL ORDER BY "started_at"`;
  const { rows } = await connection.queryRaw({ sql, args: [], argTypes: [] });
  return rows.map(([name, checksum, isFinished]) => ({
    name: String(name),
    checksum: String(checksum),
    isFinished: Number(isFinished) === 1,
  }));
}

async function apply(connection: Connection, { name, sql, checksum }: Migration): Promise<void> {
  // Foreign keys can't be switched off inside a transaction, and with them on, rebuilding a table would delete rows.
  await connection.executeScript("PRAGMA foreign_keys = OFF; BEGIN IMMEDIATE");
  try {
    const startedAt = Date.now();
    await connection.executeScript(sql);
    const { rows } = await connection.queryRaw({ sql: "PRAGMA foreign_key_check", args: [], argTypes: [] });
    if (rows.length > 0) throw new Error(`it leaves ${rows.length} rows that refer to missing ones`);
    // Names and checksums come from our own files, but a quote in a folder's name would still end the text.
    const values = [randomUUID(), checksum, name].map((text) => `'${text.replaceAll("'", "''")}'`).join(", ");
    await connection.executeScript(
      `INSERT INTO "_prisma_migrations" ("id", "checksum", "migration_name", "started_at", "finished_at", "applied_steps_count")
        VALUES (${values}, ${startedAt}, ${Date.now()}, 1); COMMIT`,
    );
  } catch (error) {
    await connection.executeScript("ROLLBACK");
    throw new OperatorError(`The migration ${name} failed and was taken back: ${messageOf(error)}`);
  } finally {
    await connection.executeScript("PRAGMA foreign_keys = ON");
  }
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
