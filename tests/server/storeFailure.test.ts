import type * as decoding from "lib0/decoding";
import { afterEach, describe, expect, it, vi } from "vitest";
import * as Y from "yjs";
import { ENTRY, type HistoryStore, MemoryHistory } from "../../server/history";
import {
  MESSAGE_ANSWERS,
  MESSAGE_NOTICE,
  MESSAGE_ROOM,
  type Notice,
  noticeText,
  readNotice,
} from "../../shared/messages";
import { admit } from "./support/admit";
import { openHistory, removeFolders, temporaryFolder } from "./support/database";
import { BreakableHistory, type FaultMoment, FaultyHistory } from "./support/faultyHistory";
import { join as postJoin } from "./support/http";
import { connectStock, joinStock, type StockClient } from "./support/stockClient";
import { startTestServer, type TestServer } from "./support/testServer";
import { until } from "./support/until";

vi.setConfig({ testTimeout: 120_000 });

const clients: StockClient[] = [];
let server: TestServer | null = null;

afterEach(async () => {
  for (const client of clients.splice(0)) client.leave();
  await server?.stop();
  server = null;
  removeFolders();
});

async function join(room: string): Promise<StockClient> {
  const url = server?.url ?? "";
  // Who is told that it can't be done at the moment tries again.
  const client = await joinStock(url, room).catch(() => joinStock(url, room));
  clients.push(client);
  return client;
}

/** What a store's history of a room says, read without the server. */
async function replayed(store: HistoryStore, room: string): Promise<Record<string, unknown>> {
  const { snapshot, entries } = await store.load(room);
  const doc = new Y.Doc();
  if (snapshot) Y.applyUpdate(doc, snapshot.bytes);
  for (const { kind, bytes } of entries) if (kind === ENTRY.update) Y.applyUpdate(doc, bytes);
  return doc.getMap("board").toJSON();
}

/**
 * Two people draw in a room, past the size at which a snapshot is written; both leave, the room leaves memory, and
 * somebody else comes. Every verb of the store is used, some many times.
 */
async function aClass(store: FaultyHistory): Promise<void> {
  server = await startTestServer({ store, limits: { idleTime: 5 } });
  const { rooms } = server;
  const [ann, bob] = [await join("algebra"), await join("algebra")];
  for (let turn = 0; turn < 3; turn++) {
    ann.board.set(`ann${turn}`, turn);
    await until(`bob sees turn ${turn}`, () => bob.board.has(`ann${turn}`));
    bob.board.set(`bob${turn}`, "x".repeat(40_000));
    await until(`ann sees turn ${turn}`, () => ann.board.has(`bob${turn}`));
  }
  const drawn = ann.board.toJSON();
  for (const client of clients.splice(0)) client.leave();
  await until("the room has left memory", () => rooms.size === 0);
  const late = await join("algebra");
  expect(late.board.toJSON()).toEqual(drawn);
  expect(await replayed(store.inner, "algebra")).toEqual(drawn);
  clients.splice(0).forEach((client) => void client.leave());
  expect(await server.stop()).toBe(0);
  server = null;
}

it.each<FaultMoment>(["before", "after"])(
  "nothing is lost, whichever call to the store fails (%s it does its work)",
  async (moment) => {
    let faults = 0;
    for (;;) {
      const store = new FaultyHistory(await openHistory(temporaryFolder()), faults, moment);
      await aClass(store);
      if (!store.hasFailed) break;
      faults++;
    }
    // Two loads, six appends and a snapshot at the least, or the sweep has tried nothing.
    expect(faults).toBeGreaterThanOrEqual(9);
  },
);

describe("while changes can't be stored", () => {
  it("they are not passed on, and are when they can be stored again", async () => {
    const store = new BreakableHistory(new MemoryHistory());
    server = await startTestServer({ store });
    const [ann, bob] = [await join("algebra"), await join("algebra")];
    store.isBroken = true;
    ann.board.set("R1", "3.3k");
    await until("the server notices", () => server?.warnings.length === 1);
    // Presence goes on, and comes behind anything that had been passed on.
    ann.provider.awareness.setLocalStateField("name", "Ann");
    await until("bob sees that ann is there", () => bob.provider.awareness.getStates().size === 2);
    expect(bob.board.size).toBe(0);
    store.isBroken = false;
    await until("bob sees the change", () => bob.board.size === 1);
    expect(server.warnings).toEqual(["changes can't be stored (disk full)", "changes are stored again"]);
  });

  it("those who understand notices are told, also when they come later, and told when it is over", async () => {
    const store = new BreakableHistory(new MemoryHistory());
    server = await startTestServer({ store });
    // Nobody can join while nothing is stored, so they do so before.
    const cookies = [await admit(server.url, "algebra"), await admit(server.url, "algebra")].map(
      ({ cookie }) => cookie,
    );
    const told = async (cookie = "") => {
      const notices: Notice[] = [];
      const client = connectStock(server?.url ?? "", "algebra", new Y.Doc(), cookie, { answers: "1" });
      clients.push(client);
      client.provider.messageHandlers[MESSAGE_ANSWERS] = () => {};
      client.provider.messageHandlers[MESSAGE_ROOM] = () => {};
      client.provider.messageHandlers[MESSAGE_NOTICE] = (_encoder, decoder: decoding.Decoder) => {
        notices.push(readNotice(decoder));
      };
      await until("the client is connected", () => client.provider.wsconnected);
      return { ...client, notices };
    };
    const ann = await told(cookies[0]);
    await until("ann is in step", () => ann.provider.synced);
    store.isBroken = true;
    ann.board.set("R1", "3.3k");
    await until("ann is told", () => ann.notices.length === 1);
    const bob = await told(cookies[1]);
    await until("bob is told", () => bob.notices.length === 1);
    // Bob waits for the state of the room, which holds what isn't stored.
    expect(bob.provider.synced).toBe(false);
    store.isBroken = false;
    await until("bob is in step", () => bob.provider.synced && bob.board.size === 1);
    await until("both are told that it is over", () => ann.notices.length === 2 && bob.notices.length === 2);
    expect(bob.notices).toEqual([{ code: "notStoring", reason: "disk full" }, { code: "storingAgain" }]);
    expect(bob.notices.map(noticeText)).toEqual([
      "Changes can't be saved at the moment (disk full). They stay on this page and reach the others once saving works again.",
      "Changes are saved again.",
    ]);
  });

  it("a sender is held up once too much waits, and goes on afterwards without a loss", async () => {
    const store = new BreakableHistory(new MemoryHistory());
    server = await startTestServer({ store, limits: { backlogBytes: 10_000 } });
    const [ann, bob] = [await join("algebra"), await join("algebra")];
    store.isBroken = true;
    for (let index = 0; index < 400; index++) ann.board.set(`R${index}`, "x".repeat(1000));
    await until("the server notices", () => server?.warnings.length === 1);
    // Behind all that; meanwhile the server has had time to read it, if it still read.
    ann.provider.awareness.setLocalStateField("name", "Ann");
    for (let turn = 0; turn < 50; turn++) {
      bob.provider.awareness.setLocalStateField("turn", turn);
      const seen = () => ann.provider.awareness.getStates().get(bob.doc.clientID)?.turn === turn;
      await until(`ann, who is not read, still hears turn ${turn}`, seen);
    }
    expect(bob.provider.awareness.getStates().has(ann.doc.clientID)).toBe(false);
    store.isBroken = false;
    await until("bob sees everything", () => bob.board.size === 400);
    await until("and that ann is there", () => bob.provider.awareness.getStates().has(ann.doc.clientID));
  });

  it("who joins is told to try again, and is the same participant when they do", async () => {
    const history = new MemoryHistory();
    const store = new BreakableHistory(history);
    server = await startTestServer({ store, limits: { storePatience: 20 } });
    store.isBroken = true;
    const failed = await postJoin(server, "algebra", { name: "Ann" });
    expect(failed).toMatchObject({ status: 503, body: { error: { code: "unavailable" } } });
    store.isBroken = false;
    await until("it is stored", () => history.entries.length > 0);
    const { body } = await postJoin(server, "algebra", { name: "Ann" }, failed);
    expect(body.you.name).toBe("Ann");
  });

  it("a room that everybody has left stays in memory until all of it is stored", async () => {
    const store = new BreakableHistory(new MemoryHistory());
    server = await startTestServer({ store, limits: { idleTime: 5 } });
    const { rooms } = server;
    const ann = await join("algebra");
    store.isBroken = true;
    ann.board.set("R1", "3.3k");
    await until("the server notices", () => server?.warnings.length === 1);
    ann.leave();
    // The recorder's pauses between its tries are longer than the idle time.
    const before = store.refusals;
    await until("idle times have passed", () => store.refusals >= before + 2);
    expect(rooms.size).toBe(1);
    store.isBroken = false;
    expect((await join("algebra")).board.toJSON()).toEqual({ R1: "3.3k" });
  });

  it("a stop gives up after its time and says how many changes are left", async () => {
    const store = new BreakableHistory(new MemoryHistory());
    server = await startTestServer({ store, limits: { stopTime: 50 } });
    const ann = await join("algebra");
    store.isBroken = true;
    ann.board.set("R1", "3.3k");
    await until("the server notices", () => server?.warnings.length === 1);
    // The change, and that ann left.
    expect(await server.stop()).toBe(2);
    server = null;
  });
});
