import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import * as Y from "yjs";
import { MemoryHistory, type StoredRoom } from "../../server/history";
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

beforeEach(async () => {
  server = await startTestServer();
});

afterEach(async () => {
  for (const client of clients.splice(0)) client.leave();
  await server.stop();
});

describe("stock clients", () => {
  it("in one room come to the same board, whoever writes", async () => {
    const [ann, bob] = [await join("algebra"), await join("algebra")];
    ann.board.set("R1", "3.3k");
    bob.board.set("R2", "4.7k");
    await until("both have both", () => ann.board.size === 2 && bob.board.size === 2);
    expect(ann.board.toJSON()).toEqual({ R1: "3.3k", R2: "4.7k" });
    expect(bob.board.toJSON()).toEqual(ann.board.toJSON());
  });

  it("that write at once, thirty of them, all end with the same board", async () => {
    const people = await Promise.all(Array.from({ length: 30 }, () => join("algebra")));
    for (const [index, { board }] of people.entries()) {
      board.set(`R${index}`, index);
      board.set("title", `by ${index}`);
    }
    await until("everybody has everything", () => people.every(({ board }) => board.size === 31));
    const titles = () => new Set(people.map(({ board }) => board.get("title")));
    await until("everybody has the same title", () => titles().size === 1);
  });

  it("in other rooms see nothing of it", async () => {
    const [ann, bob, eve] = [await join("algebra"), await join("algebra"), await join("geometry")];
    ann.board.set("R1", "3.3k");
    await until("the room has it", () => bob.board.size === 1);
    eve.board.set("R9", "9k");
    await join("geometry");
    expect(eve.board.toJSON()).toEqual({ R9: "9k" });
  });

  it("get the whole board when they come late", async () => {
    const ann = await join("algebra");
    const late = await join("algebra");
    for (let index = 0; index < 100; index++) ann.board.set(`R${index}`, index);
    await until("it has arrived", () => late.board.size === 100);
    expect((await join("algebra")).board.size).toBe(100);
  });

  it("bring what they drew while they were away, and get what the others drew", async () => {
    const [ann, bob] = [await join("algebra"), await join("algebra")];
    ann.provider.disconnect();
    ann.board.set("R1", "3.3k");
    bob.board.set("R2", "4.7k");
    ann.provider.connect();
    await until("both have both", () => ann.board.size === 2 && bob.board.size === 2);
  });

  it("can be in step with a board made before they connected", async () => {
    const doc = new Y.Doc();
    doc.getMap("board").set("R1", "3.3k");
    const bob = await join("algebra");
    clients.push(connectStock(server.url, "algebra", doc, bob.cookie));
    await until("bob has it", () => bob.board.get("R1") === "3.3k");
  });
});

describe("presence", () => {
  const names = ({ provider }: StockClient) =>
    [...provider.awareness.getStates().values()].flatMap(({ name }) => (name ? [name] : [])).sort();

  it("shows everybody to everybody, also to those who come late, and takes them away when they go", async () => {
    const [ann, bob] = [await join("algebra"), await join("algebra")];
    ann.provider.awareness.setLocalStateField("name", "Ann");
    bob.provider.awareness.setLocalStateField("name", "Bob");
    await until("both see both", () => [ann, bob].every((each) => names(each).length === 2));
    const late = await join("algebra");
    await until("the late one sees both", () => names(late).length === 2);
    ann.provider.ws?.close();
    ann.provider.shouldConnect = false;
    await until("ann is gone", () => names(bob).join() === "Bob" && names(late).join() === "Bob");
  });

  it("of many is not counted against those who send it back, as stock clients do with all that they are sent", async () => {
    await server.stop();
    server = await startTestServer({ limits: { awarenessClients: 2 } });
    const people = await Promise.all(Array.from({ length: 6 }, () => join("algebra")));
    for (const [index, { provider }] of people.entries()) provider.awareness.setLocalStateField("name", `P${index}`);
    await until("everybody sees everybody", () => people.every((each) => names(each).length === 6));
    people[0]?.board.set("R1", "1k");
    await until("the change arrives everywhere", () => people.every(({ board }) => board.size === 1));
    expect(people.every(({ provider }) => provider.wsconnected)).toBe(true);
  });

  it("can't be taken away by another connection", async () => {
    const [ann, bob, eve] = [await join("algebra"), await join("algebra"), await join("algebra")];
    ann.provider.awareness.setLocalStateField("name", "Ann");
    await until("eve sees ann", () => names(eve).includes("Ann"));
    const { awareness } = eve.provider;
    // As a page does that has not heard of somebody for too long.
    awareness.states.delete(ann.doc.clientID);
    awareness.emit("update", [{ added: [], updated: [], removed: [ann.doc.clientID] }, "timeout"]);
    awareness.setLocalStateField("name", "Eve");
    await until("what eve sent afterwards has arrived", () => names(bob).includes("Eve"));
    expect(names(bob)).toEqual(["Ann", "Eve"]);
  });

  it("stays while one of two connections that show the same client is open", async () => {
    const ann = await join("algebra");
    const bob = await join("algebra");
    ann.provider.awareness.setLocalStateField("name", "Ann");
    await until("bob sees ann", () => names(bob).includes("Ann"));
    // The same page on a second connection, as after a break that the server hasn't noticed yet.
    const again = connectStock(server.url, "algebra", ann.doc, ann.cookie);
    clients.push(again);
    again.provider.awareness.setLocalState({ name: "Ann" });
    again.provider.awareness.setLocalState({ name: "Ann again" });
    await until("bob hears the second connection", () => names(bob).includes("Ann again"));
    ann.provider.ws?.close();
    ann.provider.shouldConnect = false;
    bob.board.set("R1", "1k");
    await until("the rest goes on", () => again.doc.getMap("board").size === 1);
    expect(names(bob)).toEqual(["Ann again"]);
  });
});

it("a room is read from the store once, however many come at the same time", async () => {
  await server.stop();
  class CountingHistory extends MemoryHistory {
    loads = 0;
    override load(room: string): Promise<StoredRoom> {
      this.loads++;
      return super.load(room);
    }
  }
  const store = new CountingHistory();
  server = await startTestServer({ store });
  await Promise.all(Array.from({ length: 20 }, () => join("algebra")));
  expect(store.loads).toBe(1);
  expect(server.rooms.size).toBe(1);
});
