import { existsSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { afterEach, expect, it } from "vitest";
import { OperatorError, takeDataFolder } from "../../../server/database";
import { removeFolders, temporaryFolder } from "../support/database";

afterEach(removeFolders);

it("makes the folder, with those above it", async () => {
  const path = join(temporaryFolder(), "a", "b");
  const folder = await takeDataFolder(path);
  expect(existsSync(path)).toBe(true);
  expect(folder.databaseUrl).toBe(`file:${join(path, "addend.db")}`);
  await folder.release();
});

it("gives a folder to one server at a time, and to the next when that one has let go", async () => {
  const path = temporaryFolder();
  const first = await takeDataFolder(path);
  await expect(takeDataFolder(path)).rejects.toThrow(`The data folder ${path} is in use by another server.`);
  await expect(takeDataFolder(path)).rejects.toBeInstanceOf(OperatorError);
  await first.release();
  await (await takeDataFolder(path)).release();
});

it("keeps a folder for as long as the process lives, though nobody holds on to it", async () => {
  const path = temporaryFolder();
  await takeDataFolder(path);
  setFlagsFromString("--expose-gc");
  const collectGarbage = runInNewContext("gc") as () => void;
  // What a finished promise held is free in the next turn of the event loop.
  await new Promise(setImmediate);
  collectGarbage();
  await expect(takeDataFolder(path)).rejects.toThrow("is in use by another server");
});

it("names a folder that can't be written, and how to choose another", async () => {
  const file = join(temporaryFolder(), "file");
  writeFileSync(file, "");
  const refused = takeDataFolder(join(file, "data"));
  await expect(refused).rejects.toThrow(/^The data folder .*data can't be written \(ENOTDIR\)\. .*ADDEND_DATA\.$/);
  await expect(refused).rejects.toBeInstanceOf(OperatorError);
});
