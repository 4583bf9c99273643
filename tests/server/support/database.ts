import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { openDatabase } from "../../../server/database";
import { PrismaDirectory, PrismaHistory } from "../../../server/history";

export const MIGRATIONS = fileURLToPath(new URL("../../../prisma/migrations", import.meta.url));

const folders: string[] = [];

/** A new folder, which {@link removeFolders} takes away. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "addend-test-"));
  folders.push(folder);
  return folder;
}

export function removeFolders(): void {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
}

/** The history in a real database in the folder. */
export async function openHistory(folder: string): Promise<PrismaHistory> {
  return (await openStores(folder)).store;
}

/** History and directory in a real database in the folder. */
export async function openStores(folder: string): Promise<{ store: PrismaHistory; directory: PrismaDirectory }> {
  const client = await openDatabase(`file:${join(folder, "addend.db")}`, MIGRATIONS);
  return { store: new PrismaHistory(client), directory: new PrismaDirectory(client) };
}
