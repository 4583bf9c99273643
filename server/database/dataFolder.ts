import { accessSync, constants, mkdirSync } from "node:fs";
import { join, resolve } from "node:path";
import { PrismaBetterSqlite3 } from "@prisma/adapter-better-sqlite3";
import { OperatorError } from "./operatorError";

/** A folder that this process has to itself, until it is released or the process ends in whatever way. */
export type DataFolder = { readonly path: string; readonly databaseUrl: string; readonly release: () => Promise<void> };

/**
 * Makes the folder where it is missing and takes it for this process: two servers on one database would each keep their
 * own copy of a room. Rejects with an {@link OperatorError} where it can't be written or is taken.
 */
export async function takeDataFolder(folder: string): Promise<DataFolder> {
  const path = resolve(folder);
  try {
    mkdirSync(path, { recursive: true });
    accessSync(path, constants.R_OK | constants.W_OK | constants.X_OK);
  } catch (error) {
    throw new OperatorError(`The data folder ${path} can't be written (${codeOf(error)}). ${CHOOSE}`);
  }
  const release = await lock(path);
  return { path, databaseUrl: `file:${join(path, "addend.db")}`, release };
}

const CHOOSE = "Give write permission, or choose another folder with ADDEND_DATA.";

/** Load-bearing: a connection that is collected as garbage lets go of its lock. */
const heldLocks = new Set<object>();

/** Holds SQLite's lock on an empty database: the operating system lets go of it even when the process is killed. */
async function lock(path: string): Promise<() => Promise<void>> {
  const file = join(path, "in-use.db");
  const connection = await new PrismaBetterSqlite3({ url: `file:${file}`, timeout: 0 }).connect().catch((error) => {
    throw new OperatorError(`${file} can't be opened (${codeOf(error)}). ${CHOOSE}`);
  });
  try {
    await connection.executeScript("BEGIN EXCLUSIVE");
  } catch {
    await connection.dispose();
    throw new OperatorError(
      `The data folder ${path} is in use by another server. Stop that one, or choose another folder with ADDEND_DATA.`,
    );
  }
  heldLocks.add(connection);
  return async () => {
    heldLocks.delete(connection);
    await connection.dispose();
  };
}

function codeOf(error: unknown): string {
  if (error instanceof Error && "code" in error) return String(error.code);
  return error instanceof Error ? error.message : String(error);
}
