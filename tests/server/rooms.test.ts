import { afterEach, describe, expect, it, vi } from "vitest";
import { ENTRY, MemoryHistory } from "../../server/history";
import type { Limits } from "../../server/limits";
import { admit } from "./support/admit";
import { openHistory, removeFolders, temporaryFolder } from "./support/database";
import { joinRaw, refusedUpgrade } from "./support/rawClient";
import { connectStock, joinStock, type StockClient } from "./support/stockClient";
import { startTestServer, type TestServer } from "./support/testServer";
import { until } from "./support/until";

vi.setConfig({ testTimeout: 30_000 });

let server: TestServer;
const clients: StockClient[] = [];

async function join(room: string): Promise<StockClient> {
  const client = await joinStock(server.url, room);
  clients.push(client);
  return client;
}

const start = async (limits: Partial<Limits>, store = new MemoryHistory()) => {
  server = await startTestServer({ limits, store });
  return store;
};

const updatesOf = (store: MemoryHistory) => store.entries.filter(({ kind }) => kind === ENTRY.update);

afterEach(async () => {
  for (const client of clients.splice(0)) client.leave();
  await server.stop();
  removeFolders();
});

describe("a room", () => {
  it("leaves memory when it has been empty for a while, and comes back whole", async () => {
    await start({ idleTime: 5 });
    const ann = await join("algebra");
    ann.board.set("R1", "3.3k");
    ann.leave();
    await until("the room has left memory", () => server.rooms.size === 0);
    expect((await join("algebra")).board.toJSON()).toEqual({ R1: "3.3k" });
  });

  it("stays in memory while somebody is in it", async () => {
    await start({ idleTime: 5 });
    await join("algebra");
    const bob = await join("geometry");
    bob.leave();
    await until("the empty room has left memory", () => server.rooms.size === 1);
    expect((await join("algebra")).provider.synced).toBe(true);
  });

  it("comes back whole from a real database after the server has stopped", async () => {
    const folder = temporaryFolder();
    server = await startTestServer({ store: await openHistory(folder) });
    const ann = await join("algebra");
    for (let index = 0; index < 50; index++) ann.board.set(`R${index}`, index);
    const bob = await join("algebra");
    await until("bob has everything", () => bob.board.size === 50);
    const drawn = ann.board.toJSON();
    for (const client of clients.splice(0)) client.leave();
    expect(await server.stop()).toBe(0);
    server = await startTestServer({ store: await openHistory(folder) });
    expect((await join("algebra")).board.toJSON()).toEqual(drawn);
  });

  it("writes a snapshot now and then, and comes back from it and what came after", async () => {
    const store = await start({ idleTime: 5 });
    const ann = await join("algebra");
    for (let index = 0; index < 1100; index++) ann.board.set(`R${index % 7}`, index);
    await until("everything is stored", () => updatesOf(store).length === 1100);
    const drawn = ann.board.toJSON();
    ann.leave();
    await until("the room has left memory", () => server.rooms.size === 0);
    // At a thousand entries or 64 kB, whichever comes first.
    expect(store.snapshots.map(({ sequence }) => sequence)).toEqual([1000]);
    const { entries } = await store.load("algebra");
    expect(entries.map(({ sequence }) => sequence)).toEqual(entries.map((_, index) => 1001 + index));
    expect(entries.filter(({ kind }) => kind === ENTRY.update).length).toBeGreaterThanOrEqual(100);
    expect((await join("algebra")).board.toJSON()).toEqual(drawn);
  });

  it("numbers its history without gaps, with the time and what each change was", async () => {
    const store = await start({ idleTime: 5 });
    const before = Date.now();
    for (const value of ["1k", "2k", "3k"]) {
      const ann = await join("algebra");
      ann.board.set("R1", value);
      ann.leave();
      await until("the room has left memory", () => server.rooms.size === 0);
    }
    expect(store.entries.map(({ sequence }) => sequence)).toEqual(store.entries.map((_, index) => index + 1));
    const comings = store.entries.filter(({ kind }) => kind !== ENTRY.settings);
    const coming = ["join", "update", "leave"];
    expect(comings.map(({ kind }) => kind)).toEqual([...coming, ...coming, ...coming]);
    for (const { time } of store.entries) expect(time).toBeGreaterThanOrEqual(before);
  });
});

describe("a full server", () => {
  it("lets an empty room go for a new one", async () => {
    await start({ rooms: 2, idleTime: 60_000 });
    (await join("algebra")).leave();
    const bob = await join("geometry");
    expect(server.rooms.size).toBe(2);
    // Until the server has noticed that algebra is empty, and stored it.
    while (!(await join("calculus").catch(() => null)));
    expect(server.rooms.size).toBe(2);
    expect(bob.provider.wsconnected).toBe(true);
  });

  it("says so to whoever wants a room more than it holds, and takes them once there is space", async () => {
    const store = await start({ rooms: 1 });
    const { cookie } = await admit(server.url, "geometry");
    await until("geometry is stored", () => store.entries.length > 0);
    const ann = await join("algebra");
    const problem = "This can't be done now: all 1 rooms of this server are in use.";
    await expect(admit(server.url, "geometry")).rejects.toThrow(problem);
    const raw = await joinRaw(server.url, "geometry", cookie);
    expect(await raw.closedAfter(new Uint8Array())).toEqual({
      code: 4503,
      reason: "all 1 rooms of this server are in use",
    });
    const bob = connectStock(server.url, "geometry", ann.doc, cookie);
    clients.push(bob);
    ann.leave();
    await until("the other room is open", () => bob.provider.synced);
  });

  it("says so to whoever comes to a room that is full", async () => {
    await start({ connectionsInRoom: 1 });
    await join("algebra");
    const raw = await joinRaw(server.url, "algebra");
    expect(await raw.closedAfter(new Uint8Array())).toEqual({ code: 4503, reason: "a room holds 1 connections" });
    await join("geometry");
  });

  it("refuses connections above its number before they are opened", async () => {
    await start({ connections: 2 });
    await join("algebra");
    const bob = await join("algebra");
    expect(await refusedUpgrade(`${server.url}/algebra`)).toEqual({
      status: 503,
      sentence: "This server holds 2 connections, all in use.",
    });
    bob.leave();
    const late = connectStock(server.url, "algebra", bob.doc, bob.cookie);
    clients.push(late);
    await until("there is space again", () => late.provider.synced);
  });
});
