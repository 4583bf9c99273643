import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, afterEach, describe, expect, it } from "vitest";
import { MemoryHistory } from "../../../server/history";
import { applyCommand, entryId, LOCAL } from "../../../shared/board";
import type { RoomGlance } from "../../../shared/messages";
import { openStores, removeFolders, temporaryFolder } from "../support/database";
import { BreakableHistory } from "../support/faultyHistory";
import { get } from "../support/http";
import { INSTRUCTOR, joinPage, type PageClient } from "../support/pageClient";
import { seedRooms, startTestServer, type TestServer, type TestServerOptions } from "../support/testServer";
import { until } from "../support/until";
import { ask, manifest, send } from "./support";

const ROOM = "algebra";
const DAY = 24 * 3600 * 1000;
let server: TestServer;
const pages: PageClient[] = [];

afterEach(async () => {
  for (const page of pages.splice(0)) page.leave();
  await server.stop();
});
afterAll(removeFolders);

async function inDatabase(folder: string): ReturnType<typeof openStores> {
  const stores = await openStores(folder);
  await seedRooms(stores.directory);
  return stores;
}

async function start(options: TestServerOptions): Promise<void> {
  server = await startTestServer(options);
}

async function enter(room: string, asked: Parameters<typeof joinPage>[2]): Promise<PageClient> {
  const page = await joinPage(server.url, room, asked);
  pages.push(page);
  return page;
}

const glance = async (room: string) => (await get<RoomGlance>(server, `/api/rooms/${room}`)).body;

/** In how many of the folder's files a text is found. */
const filesWith = (folder: string, text: string) =>
  readdirSync(folder).filter((file) => readFileSync(join(folder, file)).includes(text)).length;

describe("a room that is deleted", () => {
  it("is gone from every file of the database, with its names, boards, tries and snapshots; other rooms are whole", async () => {
    const folder = temporaryFolder();
    await start(await inDatabase(folder));
    const hart = await enter(ROOM, { ...INSTRUCTOR, name: "Prof. Erasable" });
    const kim = await enter("geometry", { name: "Kim Lasting" });
    for (let index = 0; index < 1200; index++) {
      const text = `erasable note ${index}`;
      const note = { colour: "ink", card: [], at: { x: index % 50, y: 1 }, text } as const;
      applyCommand(hart.doc, { do: "placeNote", id: entryId(`n${index % 40}`), ...note }, LOCAL);
      kim.board.set(`k${index % 5}`, `lasting ${index}`);
    }
    applyCommand(hart.doc, { do: "setPage", title: "Erasable title", statement: "" }, LOCAL);
    await send(server, "POST", `${ROOM}/replay/chapters`, hart, { do: "add", at: 0, title: "Erasable chapter" });
    await send(server, "POST", `${ROOM}/replay/links`, hart, { until: null });
    await until("snapshots are there", () => filesWith(folder, "lasting 1199") > 0);
    expect((await manifest(server, ROOM, hart)).snapshots.length).toBeGreaterThan(0);
    const traces = ["erasable note", "Erasable title", "Prof. Erasable", "Erasable chapter", hart.you.id];
    for (const trace of traces) expect(filesWith(folder, trace)).toBeGreaterThan(0);

    expect(await send(server, "DELETE", ROOM, hart)).toMatchObject({ status: 200, body: { deleted: ROOM } });
    await until("hart is sent away", () => hart.closed === 4410);
    expect(hart.notices.at(-1)).toEqual({ code: "deleted" });
    for (const trace of traces) expect([trace, filesWith(folder, trace)]).toEqual([trace, 0]);
    expect(existsSync(join(folder, "addend.db"))).toBe(true);
    expect(await glance(ROOM)).toMatchObject({ exists: false });
    expect((await ask(server, `${ROOM}/replay`, hart)).status).toBe(404);
    const late = await enter("geometry", { name: "Late" });
    expect(late.board.get("k4")).toBe("lasting 1199");
    expect(server.warnings).toEqual([]);
  });

  it("is an instructor's to delete, and nobody else's", async () => {
    await start({});
    await enter(ROOM, INSTRUCTOR);
    const ann = await enter(ROOM, { name: "Ann" });
    expect((await send(server, "DELETE", ROOM, ann)).status).toBe(403);
    expect((await send(server, "DELETE", ROOM, {})).status).toBe(401);
    expect((await send(server, "DELETE", "nowhere", ann)).status).toBe(404);
    expect(await glance(ROOM)).toMatchObject({ exists: true });
  });

  it("keeps everybody out, also those who draw while it is deleted, and records nothing more", async () => {
    await start({});
    const hart = await enter(ROOM, INSTRUCTOR);
    const ann = await enter(ROOM, { name: "Ann" });
    let isOver = false;
    const drawing = (async () => {
      for (let index = 0; !isOver; index++) {
        ann.board.set("k", index);
        await new Promise((resolve) => setImmediate(resolve));
      }
    })();
    expect((await send(server, "DELETE", ROOM, hart)).status).toBe(200);
    await until("ann is sent away", () => ann.closed === 4410);
    isOver = true;
    await drawing;
    expect((await server.store.load(ROOM)).entries).toEqual([]);
    expect(await server.directory.find(ROOM)).toBeNull();
  });

  it("stays as it is, with everybody in it, while its last changes can't be stored", async () => {
    const store = new BreakableHistory(new MemoryHistory());
    await start({ store, limits: { storePatience: 50 } });
    const hart = await enter(ROOM, INSTRUCTOR);
    store.isBroken = true;
    hart.board.set("k", 1);
    await until("the store refuses it", () => store.refusals > 0);
    const answer = await send(server, "DELETE", ROOM, hart);
    expect([answer.status, answer.text]).toEqual([503, expect.stringContaining("not stored yet")]);
    expect(hart.closed).toBe(0);
    store.isBroken = false;
    await until("it is stored", () => hart.notices.some(({ code }) => code === "storingAgain"));
    expect((await send(server, "DELETE", ROOM, hart)).status).toBe(200);
  });
});

describe("how long a room is kept", () => {
  it("is an instructor's to say", async () => {
    await start({});
    const hart = await enter(ROOM, INSTRUCTOR);
    const ann = await enter(ROOM, { name: "Ann" });
    const kept = async () => (await ask(server, `${ROOM}/retention`, hart)).json();
    expect(await kept()).toEqual({ keep: "forever" });
    for (const retention of [
      { keep: "days", days: 30 },
      { keep: "until", until: Date.now() + DAY },
      { keep: "forever" },
    ]) {
      expect((await send(server, "PUT", `${ROOM}/retention`, hart, retention)).body).toEqual(retention);
      expect(await kept()).toEqual(retention);
    }
    expect((await send(server, "PUT", `${ROOM}/retention`, ann, { keep: "forever" })).status).toBe(403);
    for (const wrong of [{ keep: "days", days: 0 }, { keep: "until", until: 5 }, { keep: "years" }, { keep: "days" }]) {
      expect((await send(server, "PUT", `${ROOM}/retention`, hart, wrong)).status).toBe(400);
    }
  });

  it("is over some days after the last that happened, or at a date; then the room is deleted", async () => {
    const folder = temporaryFolder();
    const { store, directory } = await inDatabase(folder);
    const entry = { room: ROOM, participant: "server", kind: "update", bytes: Uint8Array.of(1) };
    await store.append([{ ...entry, sequence: 1, time: 1000 * DAY }]);
    await directory.setRetention(ROOM, { keep: "days", days: 30 });
    await directory.setRetention("geometry", { keep: "until", until: 1005 * DAY });
    expect(await directory.overdue(1004 * DAY)).toEqual([]);
    expect(await directory.overdue(1005 * DAY)).toEqual(["geometry"]);
    expect(await directory.overdue(1030 * DAY)).toEqual(["geometry", ROOM]);
    // The server's clock is far beyond both.
    await start({ store, directory });
    await until("both are deleted", () => filesWith(folder, "geometry") + filesWith(folder, ROOM) === 0);
    expect([await directory.find(ROOM), await directory.find("geometry")]).toEqual([null, null]);
  });
});
