import fc from "fast-check";
import { afterAll, afterEach, describe, expect, it } from "vitest";
import * as Y from "yjs";
import { OPEN_ACCESS } from "../../../server/access";
import { demoBoard } from "../../../server/demoRoom";
import type { HistoryEntry } from "../../../server/history";
import { LIMITS } from "../../../server/limits";
import { readArchive, rebuild } from "../../../server/replay";
import { applyCommand, LOCAL, readBoard } from "../../../shared/board";
import { openHistory, openStores, removeFolders, temporaryFolder } from "../support/database";
import { post } from "../support/http";
import { INSTRUCTOR, joinPage, PageClient } from "../support/pageClient";
import { startTestServer, type TestServer } from "../support/testServer";
import { until } from "../support/until";
import { allEntries, archiveOf, ask, contents, imported, manifest } from "./support";

const ROOM = "algebra";
const servers: TestServer[] = [];
const pages: PageClient[] = [];

afterEach(async () => {
  for (const page of pages.splice(0)) page.leave();
  for (const server of servers.splice(0)) await server.stop();
});
afterAll(removeFolders);

async function start(...options: Parameters<typeof startTestServer>): Promise<TestServer> {
  const server = await startTestServer(...options);
  servers.push(server);
  return server;
}

async function enter(server: TestServer, room: string, asked: Parameters<typeof joinPage>[2]): Promise<PageClient> {
  const page = await joinPage(server.url, room, asked);
  pages.push(page);
  return page;
}

/** A session with a circuit, edits, a setting, two people, and a try of the one's own. */
async function session(server: TestServer): Promise<readonly [hart: PageClient, ann: PageClient]> {
  const hart = await enter(server, ROOM, INSTRUCTOR);
  const ann = await enter(server, ROOM, { name: "Ann Unmistakable" });
  Y.applyUpdate(hart.doc, demoBoard());
  for (let index = 0; index < 30; index++) {
    const [part] = readBoard(hart.doc).parts;
    if (part) applyCommand(hart.doc, { do: "setValue", id: part.id, value: `${index + 1} V` }, LOCAL);
  }
  hart.ask({ do: "setAnswers", shown: false });
  await until("it is told", () => ann.state?.answers.shown === false);
  expect((await post(server, `/api/rooms/${ROOM}/try`, {}, ann)).status).toBe(201);
  return [hart, ann];
}

describe("an archive of a session", () => {
  it("is imported into another server with nothing lost: every entry, its time, who did it; work goes on", async () => {
    const first = await start();
    const [hart] = await session(first);
    const archive = await archiveOf(first, ROOM, hart);
    const before = contents(await first.store.read(ROOM, 1, 1e6));
    const second = await start({ store: await openHistory(temporaryFolder()) });
    const { status, body, cookie } = await imported(second, archive);
    expect(status).toBe(201);
    const after = contents(await second.store.read(body.room, 1, 1e6));
    const count = (await manifest(first, ROOM, hart)).length;
    expect(after.slice(0, count)).toEqual(before.slice(0, count));
    expect(after.length).toBe(count + 1);
    const imai = await new PageClient(second.url, body.room, {
      cookie,
      you: { id: "", name: "", role: "instructor" },
    }).joined();
    pages.push(imai);
    expect(imai.state?.you).toMatchObject({ name: "Prof. Imai", role: "instructor" });
    expect(imai.state?.answers.shown).toBe(false);
    expect(readBoard(imai.doc)).toEqual(readBoard(hart.doc));
    const { participants, snapshots } = await manifest(second, body.room, { cookie });
    expect(participants.map(({ name }) => name)).toEqual(["Prof. Hart", "Ann Unmistakable", "Prof. Imai"]);
    expect(snapshots).toEqual([count]);
    // And out again: the same entries.
    const again = readArchive(await archiveOf(second, body.room, { cookie }), {
      entries: 1e6,
      entryBytes: 1e8,
      tries: 9,
    });
    const session1 = readArchive(archive, { entries: 1e6, entryBytes: 1e8, tries: 9 });
    if (!again.ok || !session1.ok) throw new Error("one of them can't be read");
    expect(again.session.entries.slice(0, count)).toEqual(session1.session.entries);
  });

  it("has 'learner 1' in the place of the name of who asked not to be kept by name", async () => {
    const server = await start();
    const [hart, ann] = await session(server);
    expect(Buffer.from(await archiveOf(server, ROOM, hart)).includes("Unmistakable")).toBe(true);
    ann.ask({ do: "keepName", keep: false });
    await until("it is told", () => ann.state?.you.isNameKept === false);
    const archive = await archiveOf(server, ROOM, hart);
    expect(Buffer.from(archive).includes("Unmistakable")).toBe(false);
    const { body, cookie } = await imported(server, archive);
    const { participants } = await manifest(server, body.room, { cookie });
    expect(participants.map(({ name }) => name)).toEqual(["Prof. Hart", "learner 1", "Prof. Imai"]);
  });

  it("of a session that had ended is imported too, and stays as it ended", async () => {
    const server = await start();
    const [hart] = await session(server);
    hart.ask({ do: "end" });
    await until("it has ended", () => hart.state?.isEnded === true);
    const { status, body, cookie } = await imported(server, await archiveOf(server, ROOM, hart));
    expect(status).toBe(201);
    expect((await manifest(server, body.room, { cookie })).viewer.as).toBe("instructor");
  });

  it("is an instructor's to export", async () => {
    const server = await start();
    const [hart, ann] = await session(server);
    expect((await ask(server, `${ROOM}/replay/archive`, ann)).status).toBe(403);
    expect((await ask(server, `${ROOM}/replay/archive`)).status).toBe(401);
    expect((await ask(server, `${ROOM}/replay/archive`, hart)).headers.get("content-disposition")).toContain(
      "algebra.addend-session",
    );
  });

  it("keeps kinds of entries that this server does not know", async () => {
    const server = await start();
    const [hart] = await session(server);
    await server.rooms.loaded(ROOM)?.note("wave" as never, "ann", { far: true });
    const next = (await server.store.heads(ROOM, 0, 1e6)).length;
    const { body, cookie } = await imported(server, await archiveOf(server, ROOM, hart));
    const [stored] = await server.store.read(body.room, next, next);
    expect(stored).toMatchObject({ kind: "wave", participant: "ann" });
    const played = await allEntries(server, body.room, { cookie });
    expect(played[next - 1]).toMatchObject({ kind: "wave", bytes: new Uint8Array() });
  });
});

describe("an archive that is not as it should be", () => {
  const LIMIT = { entries: 1000, entryBytes: 1e6, tries: 9 };

  it("cut short at any length is refused with a sentence, and so is one with any bit turned", async () => {
    const server = await start();
    const [hart] = await session(server);
    const archive = await archiveOf(server, ROOM, hart);
    expect(readArchive(archive, LIMIT).ok).toBe(true);
    for (let length = 0; length < archive.length; length++) {
      const reading = readArchive(archive.subarray(0, length), LIMIT);
      expect(reading.ok ? "read" : reading.text).toMatch(/^This archive is cut short/);
    }
    fc.assert(
      fc.property(fc.nat(archive.length - 1), fc.integer({ min: 1, max: 255 }), (at, turned) => {
        const damaged = Uint8Array.from(archive);
        damaged[at] = (damaged[at] as number) ^ turned;
        const reading = readArchive(damaged, LIMIT);
        expect(reading.ok ? "read" : reading.text).toMatch(/^(This (is no )?archive|Entry \d+ of this archive)/);
      }),
      { numRuns: 2000 },
    );
  });

  it("changes nothing on the server, and is told what is wrong", async () => {
    const server = await start({ store: await openHistory(temporaryFolder()) });
    const [hart] = await session(server);
    const archive = await archiveOf(server, ROOM, hart);
    let rooms = 0;
    const create = server.directory.create.bind(server.directory);
    server.directory.create = (...asked) => {
      rooms++;
      return create(...asked);
    };
    const damaged = Uint8Array.from(archive);
    damaged[archive.length - 40] = (damaged[archive.length - 40] as number) ^ 1;
    for (const [bytes, sentence] of [
      [archive.subarray(0, archive.length - 1), "cut short: its checksum is missing"],
      [archive.subarray(0, 700), "is cut short"],
      [damaged, "is damaged"],
      [Uint8Array.of(...archive, 0), "1 bytes follow its end"],
      [new Uint8Array(), "header is not whole"],
      [new TextEncoder().encode('{"format":"addend-session"}'), "begins otherwise"],
    ] as const) {
      const answer = await imported(server, bytes);
      expect([answer.status, answer.text]).toEqual([400, expect.stringContaining(sentence)]);
      expect(answer.text).toContain("badArchive");
    }
    expect((await imported(server, archive, " ")).text).toContain("name");
    expect(rooms).toBe(0);
  });

  it("whose import fails within the database leaves nothing behind", async () => {
    const folder = temporaryFolder();
    const stores = await openStores(folder);
    const server = await start({ store: stores.store });
    const [hart] = await session(server);
    const archive = await archiveOf(server, ROOM, hart);
    const putWhole = server.store.putWhole.bind(server.store);
    let room = "";
    server.store.putWhole = async (entries, snapshots) => {
      room = entries[0]?.room ?? "";
      await putWhole(entries.slice(0, 5), snapshots);
      throw new Error("disk full");
    };
    expect((await imported(server, archive)).status).toBe(503);
    expect([(await server.store.load(room)).entries, await server.directory.find(room)]).toEqual([[], null]);
  });

  it("is refused where it is too long", async () => {
    const server = await start({ limits: { archiveBytes: 1000 } });
    const [hart] = await session(server);
    const answer = await imported(server, await archiveOf(server, ROOM, hart));
    expect([answer.status, answer.text]).toEqual([413, expect.stringContaining("1000 bytes")]);
    const reading = readArchive(await archiveOf(server, ROOM, hart), { entries: 3, entryBytes: 10, tries: 9 });
    expect(reading.ok ? "" : reading.text).toContain("a session of 3 at most");
  });
});

describe("a history that is gone through again", () => {
  const entry = (sequence: number, bytes: Uint8Array, kind = "update"): HistoryEntry => {
    return { room: "", sequence, time: sequence, participant: "ann", kind, bytes };
  };

  it("names the first change that no room would have taken in", async () => {
    const doc = new Y.Doc();
    const updates: Uint8Array[] = [];
    doc.on("update", (update: Uint8Array) => updates.push(update));
    doc.getArray("a").push([1]);
    doc.getArray("a").push([2]);
    const [one, two] = updates as [Uint8Array, Uint8Array];
    expect(await rebuild([entry(1, one), entry(2, Uint8Array.of(7, 7))], LIMITS, OPEN_ACCESS)).toMatchObject({
      ok: false,
      sequence: 2,
    });
    expect(await rebuild([entry(1, two), entry(2, one)], LIMITS, OPEN_ACCESS)).toMatchObject({
      ok: false,
      sequence: 1,
    });
    expect(await rebuild([entry(1, one)], { ...LIMITS, roomBytes: 5 }, OPEN_ACCESS)).toMatchObject({
      ok: false,
      reason: "a room holds at most 5 bytes",
    });
    expect(await rebuild([entry(1, one), entry(2, two)], LIMITS, OPEN_ACCESS)).toMatchObject({ ok: true });
  });

  it("has a snapshot for each thousand entries, and one at its end", async () => {
    const entries = Array.from({ length: 2500 }, (_, index) => entry(index + 1, new Uint8Array(), "leave"));
    const rebuilt = await rebuild(entries, LIMITS, OPEN_ACCESS);
    expect(rebuilt.ok && rebuilt.snapshots.map(({ sequence }) => sequence)).toEqual([1000, 2000, 2500]);
  });
});
