import { PrismaBetterSqlite3 } from "@prisma/adapter-better-sqlite3";
import { PrismaClient } from "../generated/prisma/client";
import { migrate } from "./migrate";
import { readMigrations } from "./migrationFolder";

/**
 * Opens the SQLite database at `url` (`file:…`), brought up to date. With the write-ahead log and synchronous = NORMAL a
 * commit outlives the process at once, however it ends; a power cut can take back the last moments, but damages nothing.
 */
export async function openDatabase(url: string, migrationsFolder: string): Promise<PrismaClient> {
  const adapter = new PrismaBetterSqlite3({ url });
  const connection = await adapter.connect();
  try {
    await migrate(connection, readMigrations(migrationsFolder));
  } finally {
    await connection.dispose();
  }
  const client = new PrismaClient({ adapter });
  await client.$queryRaw`PRAGMA journal_mode = WAL`;
  await client.$executeRaw`PRAGMA synchronous = NORMAL`;
  // What is deleted is overwritten with zeros, so that no deleted room can be read out of the file.
  await client.$queryRaw`PRAGMA secure_delete = ON`;
  return client;
}
