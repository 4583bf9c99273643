import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

export type Migration = {
  readonly name: string;
  readonly sql: string;
  /** SHA-256 of the file in hexadecimal, as Prisma's command line records it. */
  readonly checksum: string;
};

/** Reads `<folder>/<timestamp>_<name>/migration.sql`, oldest first: Prisma's own layout. */
export function readMigrations(folder: string): readonly Migration[] {
  return readdirSync(folder)
    .filter((name) => existsSync(join(folder, name, "migration.sql")))
    .sort()
    .map((name) => {
      const bytes = readFileSync(join(folder, name, "migration.sql"));
      return { name, sql: bytes.toString("utf8"), checksum: createHash("sha256").update(bytes).digest("hex") };
    });
}
