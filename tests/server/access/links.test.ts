import { readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, describe, expect, it } from "vitest";
import { hashOfKey, isKeyOf, newInstructorKey, newRoomCode, takeSecret } from "../../../server/access";
import { OperatorError, openDatabase } from "../../../server/database";
import { DEMO_ROOM, demoInstructorLink, seedDemoRoom } from "../../../server/demoRoom";
import { PrismaDirectory, PrismaHistory } from "../../../server/history";
import { giveLinks, keepLinks } from "../../../server/oldRooms";
import { admit } from "../support/admit";
import { MIGRATIONS, removeFolders, temporaryFolder } from "../support/database";
import { joinPage } from "../support/pageClient";
import { startTestServer } from "../support/testServer";

afterEach(removeFolders);

const SECRET = new Uint8Array(32).fill(3);
const keyIn = (link: string) => link.split("#key=")[1] ?? "";

async function openStores(folder: string) {
  const client = await openDatabase(`file:${join(folder, "addend.db")}`, MIGRATIONS);
  return { store: new PrismaHistory(client), directory: new PrismaDirectory(client) };
}

describe("keys and codes", () => {
  it("are random, and only the right key fits a hash", () => {
    const keys = Array.from({ length: 100 }, newInstructorKey);
    expect(new Set(keys).size).toBe(100);
    const [key = "", other = ""] = keys;
    expect(isKeyOf(hashOfKey(key), key)).toBe(true);
    expect(isKeyOf(hashOfKey(key), other)).toBe(false);
    expect(isKeyOf("", "")).toBe(false);
    expect(new Set(Array.from({ length: 1000 }, newRoomCode)).size).toBeGreaterThan(990);
  });
});

describe("the demo room", () => {
  it("is open to everyone, and its link makes an instructor, the same one at each start", async () => {
    const { store, directory } = await openStores(temporaryFolder());
    await seedDemoRoom(store, Date.now);
    const link = await demoInstructorLink(directory, SECRET);
    expect(link).toMatch(/^\/room\/demo#key=[\w-]{22}$/);
    expect(await demoInstructorLink(directory, SECRET)).toBe(link);
    expect(await giveLinks(directory, SECRET)).toEqual([]);
    const server = await startTestServer({ store, directory });
    const hart = await joinPage(server.url, DEMO_ROOM, { key: keyIn(link) });
    expect(hart.you.role).toBe("instructor");
    expect(hart.state).toMatchObject({ drawing: "everyone", answers: { shown: true }, isLocked: false });
    expect(hart.state?.lines).toEqual({ shown: true, except: [] });
    hart.leave();
    await server.stop();
  });
});

describe("rooms from before there were links", () => {
  it("get one each, once, that works, and stay open to everyone", async () => {
    const { store, directory } = await openStores(temporaryFolder());
    const entry = { sequence: 1, time: 0, participant: "unknown", kind: "settings", bytes: new Uint8Array() };
    await store.append([
      { ...entry, room: "wxk4-h7mt-q2rd" },
      { ...entry, room: "algebra" },
    ]);
    const links = await giveLinks(directory, SECRET);
    expect(links.map((link) => link.split("#")[0])).toEqual(["/room/algebra", "/room/wxk4-h7mt-q2rd"]);
    expect(new Set(links.map(keyIn)).size).toBe(2);
    expect(await giveLinks(directory, SECRET)).toEqual([]);
    const server = await startTestServer({ store, directory });
    expect((await admit(server.url, "algebra", { key: keyIn(links[0] ?? "") })).you.role).toBe("instructor");
    await expect(admit(server.url, "algebra", { key: keyIn(links[1] ?? "") })).rejects.toThrow("403");
    await server.stop();
  });

  it("have their links kept in a file that only its owner reads, each line an address", () => {
    const folder = temporaryFolder();
    const path = keepLinks(["/room/a#key=1"], "http://localhost:3000", folder);
    keepLinks(["/room/b#key=2"], "http://localhost:3000", folder);
    expect(readFileSync(path, "utf8")).toBe("http://localhost:3000/room/a#key=1\nhttp://localhost:3000/room/b#key=2\n");
    expect(statSync(path).mode & 0o077).toBe(0);
  });
});

describe("the secret", () => {
  it("is made at the first start, the same at the next, and its owner's alone", () => {
    const folder = temporaryFolder();
    const secret = takeSecret(folder);
    expect(secret).toHaveLength(32);
    expect(takeSecret(folder)).toEqual(secret);
    expect(takeSecret(temporaryFolder())).not.toEqual(secret);
    expect(statSync(join(folder, "secret")).mode & 0o077).toBe(0);
  });

  it("that was damaged, or can't be written, is told to whoever runs the server", () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, "secret"), "short");
    expect(() => takeSecret(folder)).toThrow(OperatorError);
    expect(() => takeSecret(join(folder, "missing"))).toThrow("can't be written (ENOENT)");
  });
});
