import { afterEach, describe, expect, it, vi } from "vitest";
import * as Y from "yjs";
import { demoBoard } from "../../server/demoRoom";
import type { TryOpened } from "../../shared/messages";
import { removeFolders, temporaryFolder } from "./support/database";
import { post } from "./support/http";
import { INSTRUCTOR, joinPage, PageClient } from "./support/pageClient";
import { refusedUpgrade } from "./support/rawClient";
import { type ServerProcess, startServerProcess } from "./support/serverProcess";
import { connectStock, joinStock, type StockClient } from "./support/stockClient";
import { until } from "./support/until";

vi.setConfig({ testTimeout: 120_000 });

let server: ServerProcess | null = null;
const clients: { readonly leave: () => void }[] = [];

const kept = <T extends { readonly leave: () => void }>(client: T): T => {
  clients.push(client);
  return client;
};

afterEach(async () => {
  for (const client of clients.splice(0)) client.leave();
  await server?.end("SIGKILL");
  removeFolders();
});

/** Writes one key after another, never more than `lead` ahead of what the reader has received. */
function writeOn(writer: StockClient, reader: StockClient, lead: number): { written: () => number; stop: () => void } {
  let count = 0;
  const write = () => {
    while (count < reader.board.size + lead) writer.board.set(`R${count}`, count++);
    timer = setImmediate(write);
  };
  let timer = setImmediate(write);
  return { written: () => count, stop: () => clearImmediate(timer) };
}

describe("a server killed with SIGKILL while people draw", () => {
  // How much the reader had seen when the kill came, and how far the writer was ahead: 1 is one change a commit.
  it.each([
    [1, 1],
    [37, 1],
    [150, 20],
    [411, 200],
  ])("comes back with all that it had passed on (%i changes seen, %i on their way)", async (seen, lead) => {
    const folder = temporaryFolder();
    server = await startServerProcess(folder);
    const ann = kept(await joinStock(server.url, "algebra"));
    const bob = kept(await joinStock(server.url, "algebra"));
    const writing = writeOn(ann, bob, lead);
    await until("the reader has seen enough", () => bob.board.size >= seen);
    await server.end("SIGKILL");
    writing.stop();
    // What the dead server had sent may still be on its way to the reader; it counts as passed on.
    await until("the reader knows that the server is gone", () => !bob.provider.wsconnected);
    ann.provider.disconnect();
    bob.provider.disconnect();
    const passedOn = Object.keys(bob.board.toJSON());

    server = await startServerProcess(folder);
    const late = kept(await joinStock(server.url, "algebra"));
    expect(Object.keys(late.board.toJSON())).toEqual(expect.arrayContaining(passedOn));
    expect(passedOn.length).toBeGreaterThanOrEqual(seen);

    // The writer's page still has what the server had not stored, and brings it back.
    const back = kept(connectStock(server.url, "algebra", ann.doc, ann.cookie));
    await until("all that was ever written is there", () => late.board.size === writing.written());
    expect(late.board.toJSON()).toEqual(back.board.toJSON());
  });
});

describe("which lines are shown, in a server killed with SIGKILL", () => {
  it("is as it was told, and learners are sent the same lines again", async () => {
    const folder = temporaryFolder();
    server = await startServerProcess(folder, { solves: true });
    const hart = kept(await joinPage(server.url, "algebra", INSTRUCTOR));
    const ann = kept(await joinPage(server.url, "algebra", { name: "Ann" }));
    Y.applyUpdate(hart.doc, demoBoard());
    await until("there are answers", () => (hart.answers.at(-1)?.report?.wanted.length ?? 0) > 0);
    await until("there are workings", () => hart.workings.at(-1)?.workings.length === 1);
    const [working] = hart.workings.at(-1)?.workings ?? [];
    const [first, second] = working?.cards ?? [];
    if (!working || !first || !second) throw new Error("the demo board has two addends");
    hart.ask({ do: "showLines", wanted: working.wanted, card: first.card, lines: 2 });
    hart.ask({ do: "showLines", wanted: working.wanted, card: second.card, lines: "all" });
    const shown = () => ann.workings.at(-1)?.workings[0]?.cards.map(({ shownLines }) => shownLines);
    await until("ann has them", () => shown()?.join() === `2,${second.lineCount},0,0`);
    await until("ann is told", () => ann.state?.lines.except.length === 2);
    const before = ann.workings.at(-1)?.workings;
    const lines = ann.state?.lines;
    await server.end("SIGKILL");
    for (const page of [hart, ann]) page.leave();

    server = await startServerProcess(folder, { solves: true });
    const late = kept(await joinPage(server.url, "algebra", { name: "Late" }));
    await until("the late one has answers", () => late.answers.length > 0);
    await until("the late one has workings", () => late.workings.at(-1)?.workings.length === 1);
    expect(late.state?.lines).toEqual(lines);
    expect(late.workings.at(-1)?.workings).toEqual(before);
  });
});

describe("a learner's own try, in a server killed with SIGKILL", () => {
  it("is the same one again with its board, its tries and what was found, and still closed to all others", async () => {
    const folder = temporaryFolder();
    server = await startServerProcess(folder, { solves: true });
    const hart = kept(await joinPage(server.url, "algebra", INSTRUCTOR));
    const ann = kept(await joinPage(server.url, "algebra", { name: "Ann" }));
    const ben = kept(await joinPage(server.url, "algebra", { name: "Ben" }));
    Y.applyUpdate(hart.doc, demoBoard());
    await until("ann has the board", () => ann.doc.getMap("parts").size > 0);
    const name = await openTry(server, ann.cookie);
    const own = kept(await new PageClient(server.url, name, ann).joined());
    await until("the try has answers", () => (own.answers.at(-1)?.report?.wanted.length ?? 0) > 0);
    expect(await own.tryValue("Iy", "V1", "60 mA")).toEqual({ outcome: "right" });
    const found = ({ answers }: PageClient) =>
      answers.at(-1)?.report?.wanted[0]?.addends.map(({ value }) => value?.text);
    await until("the value is there", () => found(own)?.includes("60 mA") === true);
    const seen = kept(await new PageClient(server.url, name, hart).joined());
    own.board.set("mine", 1);
    await until("it is passed on", () => seen.board.get("mine") === 1);
    const tries = own.tries;
    await server.end("SIGKILL");
    for (const page of [hart, ann, ben, own, seen]) page.leave();

    server = await startServerProcess(folder, { solves: true });
    expect(await openTry(server, ann.cookie)).toBe(name);
    const back = kept(await new PageClient(server.url, name, ann).joined());
    await until("what was found is there", () => found(back)?.includes("60 mA") === true);
    expect(found(back)?.filter((text) => text !== undefined)).toEqual(["60 mA"]);
    expect(back.board.get("mine")).toBe(1);
    expect(back.tries).toEqual(tries);
    expect(back.state?.tryOf).toMatchObject({ room: "algebra", ownerName: "Ann" });
    expect(await refusedUpgrade(`${server.url}/${name}`, { cookie: ben.cookie })).toMatchObject({ status: 403 });
  });
});

/** Opens somebody's own try of the problem of "algebra", and gives the name of its room. */
async function openTry(server: ServerProcess, cookie: string): Promise<string> {
  const { status, body } = await post<TryOpened>(server, "/api/rooms/algebra/try", {}, { cookie });
  expect([200, 201]).toContain(status);
  return body.room;
}

describe("a server stopped with SIGTERM", () => {
  it("stores what was on its way, exits with 0, and has all of it when it comes back", async () => {
    const folder = temporaryFolder();
    server = await startServerProcess(folder);
    const ann = kept(await joinStock(server.url, "algebra"));
    const bob = kept(await joinStock(server.url, "algebra"));
    for (let index = 0; index < 500; index++) ann.board.set(`R${index}`, index);
    await until("the reader has seen some", () => bob.board.size > 0);
    expect(await server.end("SIGTERM")).toBe(0);
    const seen = Object.keys(bob.board.toJSON());
    ann.provider.disconnect();
    bob.provider.disconnect();
    server = await startServerProcess(folder);
    const late = kept(await joinStock(server.url, "algebra"));
    expect(Object.keys(late.board.toJSON())).toEqual(expect.arrayContaining(seen));
  });
});
