import { createHash } from "node:crypto";
import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import { afterAll, afterEach, describe, expect, it } from "vitest";
import { MemoryDirectory, MemoryHistory, UNFINISHED } from "../../../server/history";
import { readArchive } from "../../../server/replay";
import { applyCommand, LOCAL, readBoard } from "../../../shared/board";
import type { TryListed } from "../../../shared/messages";
import { TryRoom } from "../ownTries/tryRoom";
import { openStores, removeFolders, temporaryFolder } from "../support/database";
import { get } from "../support/http";
import { PageClient } from "../support/pageClient";
import { seedRooms, startTestServer, type TestServer, type TestServerOptions } from "../support/testServer";
import { until } from "../support/until";
import { allEntries, archiveOf, contents, imported, manifest } from "./support";

const LIMIT = { entries: 1e5, entryBytes: 1e6, tries: 100 };
const PROGRESS = { right: 1, cards: 4, changedAt: 1_700_000_000_000 };
const servers: TestServer[] = [];
const closing: (() => void)[] = [];

afterEach(async () => {
  for (const close of closing.splice(0)) close();
  for (const server of servers.splice(0)) await server.stop();
});
afterAll(removeFolders);

async function start(options: TestServerOptions = {}): Promise<TestServer> {
  const server = await startTestServer(options);
  servers.push(server);
  return server;
}

/** A room in which Ann and Bob have tries of their own; Ann has given R1 another value in hers. */
async function lesson(server: TestServer) {
  const { room, hart, ann } = await TryRoom.open(server, "lesson");
  closing.push(() => room.close());
  const bob = await room.join({ name: "Bob Unmistakable" });
  const [anns, bobs] = [await room.tryOf(ann), await room.tryOf(bob)];
  const id = readBoard(anns.own.doc).parts.find(({ name }) => name === "R1")?.id;
  if (!id) throw new Error("the try has no R1");
  applyCommand(anns.own.doc, { do: "setValue", id, value: "777" }, LOCAL);
  const looking = await room.enter(anns.name, hart);
  // What is told to others is stored.
  await until("hart sees it", () => textOf(looking, "R1") === "777");
  await server.directory.noteProgress(anns.name, PROGRESS);
  return { room, hart, ann, bob, anns, bobs };
}

async function enter(server: TestServer, room: string, cookie: string): Promise<PageClient> {
  const page = new PageClient(server.url, room, { cookie, you: { id: "", name: "", role: "learner" } });
  closing.push(() => page.leave());
  return page.joined();
}

const listOf = async (server: TestServer, room: string, cookie: string) =>
  (await get<readonly TryListed[]>(server, `/api/rooms/${room}/tries`, { cookie })).body;

const textOf = (page: PageClient, name: string) => {
  const part = readBoard(page.doc).parts.find((each) => each.name === name);
  return part && "value" in part ? part.value : null;
};

describe("an archive of a room whose problem learners tried by themselves", () => {
  it("has their tries, which another server makes tries of the new room: every entry, whose they are, how far", async () => {
    const first = await start();
    const { room, hart, ann, bob, anns, bobs } = await lesson(first);
    const archive = await archiveOf(first, room.name, hart);
    const second = await start(await openStores(temporaryFolder()));
    const { status, body, cookie } = await imported(second, archive);
    expect(status).toBe(201);
    const list = await listOf(second, body.room, cookie);
    expect(list.map(({ owner, progress }) => [owner, progress])).toEqual([
      [{ id: ann.you.id, name: "Ann" }, PROGRESS],
      [{ id: bob.you.id, name: "Bob Unmistakable" }, null],
    ]);
    for (const [index, before] of [anns, bobs].entries()) {
      const entries = await second.store.read(list[index]?.room ?? "", 1, 1e6);
      expect(contents(entries)).toEqual(contents(await first.store.read(before.name, 1, 1e6)));
    }
    // The instructor looks at Ann's, plays it back, and finds nothing shown there but what she was shown.
    const name = list[0]?.room ?? "";
    const looking = await enter(second, name, cookie);
    expect([textOf(looking, "R1"), textOf(looking, "R2")]).toEqual(["777", textOf(hart, "R2")]);
    expect(looking.state).toMatchObject({ answers: { shown: false }, tryOf: { room: body.room, ownerName: "Ann" } });
    const { length, participants } = await manifest(second, name, { cookie });
    expect(participants.map((each) => each.name)).toContain("Ann");
    expect((await allEntries(second, name, { cookie })).length).toBe(length);
    // And out again: the same tries.
    const again = readArchive(await archiveOf(second, body.room, { cookie }), LIMIT);
    const before = readArchive(archive, LIMIT);
    if (!again.ok || !before.ok) throw new Error("one of them can't be read");
    const trimmed = again.session.tries.map(({ entries, ...own }, index) => {
      return { ...own, entries: entries.slice(0, before.session.tries[index]?.entries.length) };
    });
    expect(trimmed).toEqual(before.session.tries);
  });

  it("gives each learner of the same server their own try of the new room, and nobody else's", async () => {
    const server = await start(await openStores(temporaryFolder()));
    await seedRooms(server.directory);
    const { room, hart, ann, bob } = await lesson(server);
    const { body } = await imported(server, await archiveOf(server, room.name, hart));
    const copy = new TryRoom(server, body.room);
    const opened = await copy.ask(ann.cookie);
    expect(opened.status).toBe(200);
    expect(textOf(await enter(server, opened.body.room, ann.cookie), "R1")).toBe("777");
    const look = `/api/rooms/${body.room}/tries/${opened.body.room}`;
    expect((await get(server, look, bob)).status).toBe(403);
    expect((await get(server, look, hart)).status).toBe(200);
    expect((await listOf(server, body.room, bob.cookie)) as unknown).toMatchObject({ error: { code: "notAllowed" } });
  });

  it("calls nobody by name in a try who asked not to be, also where somebody else's entry names them", async () => {
    const server = await start();
    const { room, hart, bob, bobs } = await lesson(server);
    const own = server.rooms.loaded(bobs.name);
    const reason = { participant: bob.you.id, name: "Bob Unmistakable", text: "V1 was still on" };
    await own?.note("try", hart.you.id, { help: { reason } });
    expect(Buffer.from(await archiveOf(server, room.name, hart)).includes("Unmistakable")).toBe(true);
    bob.ask({ do: "keepName", keep: false });
    await until("it is told", () => bob.state?.you.isNameKept === false);
    const archive = Buffer.from(await archiveOf(server, room.name, hart));
    expect(archive.includes("Unmistakable")).toBe(false);
    expect(archive.includes('"name":"learner 2","text":"V1 was still on"')).toBe(true);
  });

  it("keeps zeroings and lines over the import, as it does tries", async () => {
    const server = await start();
    const { room, hart, ann, anns } = await lesson(server);
    const line = {
      ...{ step: "line", card: "V1", text: "Iy = I_R4", count: 1, help: null, answer: "key" },
      ...{ participant: ann.you.id, name: "Ann", time: 1, judgement: { outcome: "true" } },
    };
    for (const name of [room.name, anns.name]) await server.rooms.loaded(name)?.note("try", ann.you.id, line);
    const { body, cookie } = await imported(server, await archiveOf(server, room.name, hart));
    const [own] = await listOf(server, body.room, cookie);
    for (const name of [body.room, own?.room ?? ""]) {
      const page = await enter(server, name, cookie);
      await until("the line is told", () => page.steps.lines.length > 0);
      expect(page.steps.lines).toMatchObject([{ card: "V1", text: "Iy = I_R4" }]);
    }
  });
});

/** The header of an archive put in the place of what it was, with the checksum that belongs to it. */
function withHeader(archive: Uint8Array, change: (header: Record<string, unknown>) => object): Uint8Array {
  const MAGIC = 15;
  const decoder = decoding.createDecoder(archive);
  decoder.pos = MAGIC;
  const header = JSON.parse(decoding.readVarString(decoder));
  const encoder = encoding.createEncoder();
  encoding.writeUint8Array(encoder, archive.subarray(0, MAGIC));
  encoding.writeVarString(encoder, JSON.stringify(change(header)));
  encoding.writeUint8Array(encoder, archive.subarray(decoder.pos, -32));
  const body = encoding.toUint8Array(encoder);
  return Uint8Array.of(...body, ...createHash("sha256").update(body).digest());
}

describe("an archive's header", () => {
  it("of version 1, which has no tries, is read as before", async () => {
    const server = await start();
    const { room, hart } = await TryRoom.open(server, "older");
    closing.push(() => room.close());
    const archive = withHeader(await archiveOf(server, room.name, hart), ({ tries: _, ...header }) => {
      return { ...header, version: 1 };
    });
    const { status, body, cookie } = await imported(server, archive);
    expect(status).toBe(201);
    expect(await listOf(server, body.room, cookie)).toEqual([]);
    const count = (await manifest(server, room.name, hart)).length;
    const after = contents(await server.store.read(body.room, 1, count));
    expect(after).toEqual(contents(await server.store.read(room.name, 1, count)));
  });

  it("that says what can't be of tries is refused, and it is told what", async () => {
    const server = await start();
    const { room, hart } = await lesson(server);
    const archive = await archiveOf(server, room.name, hart);
    const own = { owner: 1, entries: 0, progress: null };
    for (const [change, sentence] of [
      [{ version: 3, other: 1 }, "is of version 3 of its format; this server reads versions up to 2"],
      [{ version: 1 }, "is damaged"],
      [{ tries: [own, own] }, "try 2 of its header is of somebody who has one before"],
      [{ tries: [{ ...own, owner: 99 }] }, "try 1 of its header is nobody's"],
      [{ tries: [{ ...own, progress: { right: 1 } }] }, '"tries.0.progress'],
      [{ tries: [{ ...own, entries: 1e6 }] }, "a session of 250000 at most can be imported"],
      [{ tries: [{ ...own, entries: 2000 }] }, "of 2000 of try 1)"],
    ] as const) {
      const answer = await imported(
        server,
        withHeader(archive, (header) => ({ ...header, ...change })),
      );
      expect([answer.status, answer.text.replaceAll('\\"', '"')]).toEqual([400, expect.stringContaining(sentence)]);
    }
    const few = readArchive(archive, { ...LIMIT, tries: 1 });
    expect(few.ok ? "" : few.text).toBe("This archive has 2 tries of its problem; 1 at most can be imported.");
  });

  it("of a try with a change that no board can take in is refused with the place of that", async () => {
    const server = await start();
    const { room, hart, anns } = await lesson(server);
    const store = server.store as MemoryHistory;
    const index = store.entries.findLastIndex((each) => each.room === anns.name && each.kind === "update");
    const entry = store.entries[index];
    if (!entry) throw new Error("there is no such entry");
    store.entries[index] = { ...entry, bytes: Uint8Array.of(7, 7) };
    const answer = await imported(server, await archiveOf(server, room.name, hart));
    expect(answer.status).toBe(400);
    expect(answer.text).toContain(`Entry ${entry.sequence} of try 1 of this archive is no change`);
  });
});

describe("an import with tries that is cut off", () => {
  it("at any call of the store leaves nothing behind", async () => {
    const first = await start();
    const { room, hart } = await lesson(first);
    const archive = await archiveOf(first, room.name, hart);
    let status = 0;
    let failed = 0;
    for (; ; failed++) {
      const [store, directory] = [new MemoryHistory(), new MemoryDirectory()];
      const names: string[] = [];
      let calls = 0;
      const failing = <Asked extends unknown[], T>(verb: (...asked: Asked) => Promise<T>) => {
        return (...asked: Asked): Promise<T> => {
          if (calls++ === failed) return Promise.reject(new Error("disk full"));
          // The first of every verb but the one that stores histories is a room's name.
          if (typeof asked[0] === "string") names.push(asked[0]);
          return verb(...asked);
        };
      };
      store.putWhole = failing(store.putWhole.bind(store));
      for (const verb of ["create", "createTry", "findTry", "noteProgress", "setKey"] as const) {
        Object.assign(directory, { [verb]: failing((directory[verb] as () => Promise<unknown>).bind(directory)) });
      }
      const server = await start({ store, directory });
      ({ status } = await imported(server, archive));
      if (status === 201) break;
      expect(status).toBe(503);
      expect([store.entries, store.snapshots]).toEqual([[], []]);
      for (const name of names) expect(await directory.find(name)).toBeNull();
    }
    // The room, two tries, and the key: more than one call each.
    expect(failed).toBeGreaterThan(8);
  });

  it("by the server's death is taken away at its next start, tries and all", async () => {
    const stores = await openStores(temporaryFolder());
    const entry = { sequence: 1, time: 1, participant: "ann", kind: "leave", bytes: new Uint8Array() };
    await stores.directory.create("half", UNFINISHED);
    await stores.directory.createTry("half-try", "half", "ann");
    await stores.store.append(["half", "half-try"].map((room) => ({ ...entry, room })));
    const server = await start(stores);
    let found = await server.directory.find("half");
    const patience = Date.now() + 15_000;
    while (found && Date.now() < patience) found = await server.directory.find("half");
    expect(found).toBeNull();
    expect(await server.directory.find("half-try")).toBeNull();
    expect((await server.store.load("half-try")).entries).toEqual([]);
  });
});
