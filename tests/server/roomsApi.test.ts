import { afterEach, beforeEach, describe, expect, it } from "vitest";
import * as Y from "yjs";
import { ENTRY, type MemoryHistory } from "../../server/history";
import { circuitOf, readBoard } from "../../shared/board";
import { type Circuit, readCircuitFile } from "../../shared/circuit";
import { EXAMPLES, type Example } from "../../shared/examples";
import type { ApiFailure, RoomGlance, RoomVisit } from "../../shared/messages";
import { solveReport } from "../../shared/solve";
import { create, get, join, post } from "./support/http";
import { startTestServer, type TestServer } from "./support/testServer";

let server: TestServer;

beforeEach(async () => {
  server = await startTestServer();
});
afterEach(() => server.stop());

const BLANK = { kind: "blank" } as const;
const glance = (room: string, cookie = "") => get<RoomGlance>(server, `/api/rooms/${room}`, { cookie });

/** A new room of Prof. Hart, with what its maker holds. */
async function newRoom(): Promise<{ room: string; key: string; cookie: string }> {
  const { status, body, cookie } = await create(server, { name: "Prof. Hart", from: BLANK });
  expect(status).toBe(201);
  return { room: body.room, key: body.instructorKey, cookie };
}

describe("making a room", () => {
  it("gives a code of six unmistakable characters, a key of 128 bits, and the maker a place as instructor", async () => {
    const { room, key, cookie } = await newRoom();
    expect(room).toMatch(/^[23456789abcdefghjkmnpqrstuvwxyz]{6}$/);
    expect(Buffer.from(key, "base64url")).toHaveLength(16);
    expect((await glance(room, cookie)).body).toEqual({
      room,
      exists: true,
      title: "",
      isEnded: false,
      isLocked: false,
      you: { id: expect.stringMatching(/^[\w-]{22}$/), name: "Prof. Hart", role: "instructor" },
      tryOf: null,
    });
  });

  it("from an example draws it, as its maker's first change", async () => {
    const [example] = EXAMPLES;
    const { body, cookie } = await create(server, { name: "Ann", from: { kind: "example", id: example?.id ?? "" } });
    const found = (await glance(body.room, cookie)).body;
    expect(found.title).toBe(example?.title);
    const [first] = (server.store as MemoryHistory).entries;
    expect(first).toMatchObject({ kind: ENTRY.update, participant: found.you?.id });
  });

  it("from a circuit file draws it", async () => {
    const { status, body } = await create(server, { name: "Ann", from: { kind: "file", file: EXAMPLES[1]?.json } });
    expect(status).toBe(201);
    expect((await glance(body.room)).body.title).toBe(EXAMPLES[1]?.title);
  });

  it("from a file without positions lays it out", async () => {
    const [example] = EXAMPLES as readonly [Example];
    const {
      drawing: _drawing,
      elements,
      ...rest
    } = example.json as { drawing: unknown; elements: { drawn: unknown }[] };
    const file = { ...rest, elements: elements.map(({ drawn: _drawn, ...element }) => element) };
    const { status, body } = await create(server, { name: "Ann", from: { kind: "file", file } });
    expect(status).toBe(201);
    const { entries } = await server.store.load(body.room);
    const doc = new Y.Doc();
    Y.applyUpdate(doc, entries[0]?.bytes ?? new Uint8Array());
    const laidOut = circuitOf(readBoard(doc));
    expect(laidOut.problems).toEqual([]);
    const given = readCircuitFile(file);
    if (!given.ok) throw new Error("the example can be read");
    const total = (circuit: Circuit) => solveReport(circuit).wanted.map((wanted) => wanted.total?.text);
    expect(total(laidOut.circuit)).toEqual(total(given.value.circuit));
  });

  it("keeps only a hash of the key", async () => {
    const { room, key } = await newRoom();
    const listed = await server.directory.find(room);
    expect(listed?.keyHash).toMatch(/^[\w-]{43}$/);
    expect(listed?.keyHash).not.toContain(key);
  });

  it.each<[string, unknown, number, string, string]>([
    ["no JSON", "{", 400, "badRequest", "The request is no JSON."],
    ["no name", { from: BLANK }, 400, "badRequest", '"name" of the request'],
    ["a name of spaces", { name: " \u200b ", from: BLANK }, 400, "badRequest", "a name has 1 to 40 characters"],
    ["a name of 41", { name: "a".repeat(41), from: BLANK }, 400, "badRequest", "a name has 1 to 40 characters"],
    ["a field too many", { name: "Ann", from: BLANK, role: "instructor" }, 400, "badRequest", "role"],
    ["an unknown start", { name: "Ann", from: { kind: "magic" } }, 400, "badRequest", '"from.kind" of the request'],
    ["no such example", { name: "Ann", from: { kind: "example", id: "x" } }, 400, "unknownExample", "no example"],
    [
      "a file with problems",
      { name: "Ann", from: { kind: "file", file: { elements: [{ id: "R1" }] } } },
      400,
      "badFile",
      "elements[0]",
    ],
    ["an array", [], 400, "badRequest", "The request is not as it should be"],
  ])("is refused with a sentence: %s", async (_, body, status, code, text) => {
    const answer = await post<ApiFailure>(server, "/api/rooms", body);
    expect(answer.status).toBe(status);
    expect(answer.body.error.code).toBe(code);
    expect(answer.body.error.text).toContain(text);
    expect(answer.cookie).toBe("");
  });
});

describe("joining", () => {
  it("makes a learner, an observer who asks for it, and an instructor of who holds the key", async () => {
    const { room, key } = await newRoom();
    expect((await join(server, room, { name: "Ann" })).body.you.role).toBe("learner");
    expect((await join(server, room, { name: "Bob", as: "observer" })).body.you.role).toBe("observer");
    expect((await join(server, room, { name: "Eve", key })).body.you.role).toBe("instructor");
  });

  it("tidies names and keeps them apart", async () => {
    const { room } = await newRoom();
    const names = [];
    for (const name of ["  Ana\u202e \n Lee ", "ana lee", "ANA LEE", "a".repeat(40), "a".repeat(40)]) {
      names.push((await join(server, room, { name })).body.you.name);
    }
    expect(names).toEqual(["Ana Lee", "ana lee 2", "ANA LEE 3", "a".repeat(40), `${"a".repeat(38)} 2`]);
  });

  it("again, with the same cookie, is the same participant under the new name", async () => {
    const { room } = await newRoom();
    const first = await join(server, room, { name: "Ann" });
    const again = await join(server, room, { name: "Anna" }, first);
    expect(again.body.you).toEqual({ ...first.body.you, name: "Anna" });
    const other = await join(server, room, { name: "Ann" });
    expect(other.body.you.id).not.toBe(first.body.you.id);
  });

  it("again without the key leaves an instructor one, and with it makes a learner one", async () => {
    const { room, key, cookie } = await newRoom();
    expect((await join(server, room, { name: "Hart", as: "observer" }, { cookie })).body.you.role).toBe("instructor");
    const ann = await join(server, room, { name: "Ann" });
    expect((await join(server, room, { name: "Ann", key }, ann)).body.you.role).toBe("instructor");
  });

  it("outlives the server", async () => {
    const { room, cookie } = await newRoom();
    const before = (await glance(room, cookie)).body.you;
    const { store, directory } = server;
    await server.stop();
    server = await startTestServer({ store, directory });
    expect((await glance(room, cookie)).body.you).toEqual(before);
  });

  it("an unknown room, or with another room's key, is refused", async () => {
    const [{ room }, other] = [await newRoom(), await newRoom()];
    expect(await join(server, "zzzzzz", { name: "Ann" })).toMatchObject({
      status: 404,
      body: { error: { code: "unknownRoom", text: "There is no room with this code." } },
    });
    expect(await join(server, room, { name: "Ann", key: other.key })).toMatchObject({
      status: 403,
      body: { error: { code: "wrongKey" } },
      cookie: "",
    });
  });
});

describe("looking", () => {
  it("at a room that isn't there says so, and makes none", async () => {
    expect((await glance("zzzzzz")).body).toMatchObject({ exists: false, you: null });
    expect((await glance("zzzzzz")).body.exists).toBe(false);
    expect(server.rooms.size).toBe(0);
  });

  it("at the rooms I was in gives them with title and role, latest first", async () => {
    const { room, cookie } = await newRoom();
    const { body } = await create(server, { name: "Ann", from: { kind: "example", id: "three-sources" } }, { cookie });
    const mine = async () => (await get<RoomVisit[]>(server, "/api/me/rooms", { cookie })).body;
    const visits = await mine();
    expect(visits.map((visit) => visit.room)).toEqual([body.room, room]);
    expect(visits[0]).toMatchObject({ title: EXAMPLES[0]?.title, role: "instructor" });
    expect((await get(server, "/api/me/rooms")).body).toEqual([]);
  });
});

it("the cookie is out of scripts' reach, stays on this site, and lasts a year", async () => {
  const response = await fetch(`http://127.0.0.1:${server.port}/api/rooms`, {
    method: "POST",
    body: JSON.stringify({ name: "Ann", from: BLANK }),
  });
  expect(response.headers.get("set-cookie")).toMatch(
    /^addend_who=[\w-]{22}\.[0-9a-z]+\.[\w-]{43}; Path=\/; Max-Age=31536000; HttpOnly; SameSite=Lax$/,
  );
});
