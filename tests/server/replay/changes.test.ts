import { afterEach, describe, expect, it } from "vitest";
import * as Y from "yjs";
import { demoBoard } from "../../../server/demoRoom";
import { readBoard } from "../../../shared/board";
import type { RoomCreated } from "../../../shared/messages";
import type { Chapter, LinkMade, ReplayLink } from "../../../shared/replay";
import { INSTRUCTOR, joinPage, PageClient } from "../support/pageClient";
import { startTestServer, type TestServer, type TestServerOptions } from "../support/testServer";
import { until } from "../support/until";
import { type Asker, allEntries, ask, manifest, send } from "./support";

const ROOM = "algebra";
let server: TestServer;
const pages: PageClient[] = [];

afterEach(async () => {
  for (const page of pages.splice(0)) page.leave();
  await server.stop();
});

async function start(options: TestServerOptions = {}): Promise<readonly [hart: PageClient, ann: PageClient]> {
  server = await startTestServer(options);
  const hart = await joinPage(server.url, ROOM, INSTRUCTOR);
  const ann = await joinPage(server.url, ROOM, { name: "Ann" });
  pages.push(hart, ann);
  return [hart, ann];
}

const stored = async () => (await server.store.heads(ROOM, 0, 1e6)).length;

describe("going on from a moment", () => {
  it("makes a room whose board is that of then, and whose instructor is who asked", async () => {
    const [hart, ann] = await start();
    Y.applyUpdate(hart.doc, demoBoard());
    await until("ann has it", () => readBoard(ann.doc).parts.length > 0);
    const at = await stored();
    const then = readBoard(ann.doc);
    hart.doc.getMap("parts").clear();
    await until("it is gone", () => readBoard(ann.doc).parts.length === 0);
    const { status, body } = await send(server, "POST", `${ROOM}/replay/go-on`, ann, { at, name: "Ann" });
    expect(status).toBe(201);
    const { room, instructorKey } = body as RoomCreated;
    const member = await joinPage(server.url, room, { name: "Bob", key: instructorKey });
    const own = await new PageClient(server.url, room, ann).joined();
    pages.push(member, own);
    expect(readBoard(member.doc)).toEqual(then);
    expect(own.state?.you).toMatchObject({ name: "Ann", role: "instructor" });
    expect(readBoard(ann.doc).parts).toEqual([]);
  });

  it("begins blank from before anything was drawn", async () => {
    const [hart] = await start();
    const { body } = await send(server, "POST", `${ROOM}/replay/go-on`, hart, { at: 0, name: "Prof. Hart" });
    const page = await joinPage(server.url, (body as RoomCreated).room, { name: "Bob" });
    pages.push(page);
    expect(readBoard(page.doc).parts).toEqual([]);
  });

  it("is not for who only looks, nor for moments that have not been", async () => {
    const [hart] = await start();
    const olga = await joinPage(server.url, ROOM, { name: "Olga", as: "observer" });
    pages.push(olga);
    const goOn = (asker: Asker, body: object) => send(server, "POST", `${ROOM}/replay/go-on`, asker, body);
    expect((await goOn(olga, { at: 0, name: "Olga" })).status).toBe(403);
    expect((await goOn({}, { at: 0, name: "Nobody" })).status).toBe(401);
    expect((await goOn(hart, { at: 9999, name: "Hart" })).status).toBe(404);
    expect((await goOn(hart, { at: -1, name: "Hart" })).text).toContain("at");
    expect((await goOn(hart, { at: 0, name: "" })).text).toContain("name");
  });
});

describe("an instructor's chapters", () => {
  it("are kept in the history, and seen by everybody who looks at the replay", async () => {
    const [hart, ann] = await start();
    const edit = (body: object) => send(server, "POST", `${ROOM}/replay/chapters`, hart, body);
    const added = (await edit({ do: "add", at: 1, title: " The drawing " })).body as readonly Chapter[];
    expect(added).toMatchObject([{ sequence: 1, title: "The drawing", subject: { code: "added" } }]);
    const id = added[0]?.id ?? "";
    const renamed = (await edit({ do: "rename", id, title: "Drawing" })).body;
    expect((await manifest(server, ROOM, ann)).chapters).toEqual(renamed);
    expect(renamed).toMatchObject([{ id, title: "Drawing" }]);
    expect((await edit({ do: "remove", id })).body).toEqual([]);
    expect((await allEntries(server, ROOM, ann)).filter(({ kind }) => kind === "chapter").length).toBe(3);
    // They are no part of what is played.
    const { to, length } = await manifest(server, ROOM, ann);
    const entries = await allEntries(server, ROOM, ann);
    expect(to).toBe(entries[length - 4]?.time);
  });

  it("are refused to others, and where they make no sense", async () => {
    const [hart, ann] = await start({ limits: { chapters: 2 } });
    const path = `${ROOM}/replay/chapters`;
    const add = { do: "add", at: 0, title: "Here" };
    expect((await send(server, "POST", path, ann, add)).status).toBe(403);
    expect((await send(server, "POST", path, {}, add)).status).toBe(401);
    expect((await send(server, "POST", path, hart, { ...add, title: "  " })).text).toContain("title");
    expect((await send(server, "POST", path, hart, { ...add, title: "x".repeat(121) })).text).toContain("title");
    expect((await send(server, "POST", path, hart, { ...add, at: 9999 })).status).toBe(404);
    expect((await send(server, "POST", path, hart, { do: "remove", id: "nothing" })).status).toBe(400);
    const answers = [];
    for (let index = 0; index < 3; index++) answers.push((await send(server, "POST", path, hart, add)).status);
    expect(answers).toEqual([200, 200, 400]);
  });
});

describe("a replay link", () => {
  const makeLink = async (hart: PageClient, until: number | null = null) => {
    const { status, body } = await send(server, "POST", `${ROOM}/replay/links`, hart, { until });
    expect(status).toBe(201);
    return body as LinkMade;
  };

  it("shows the replay to whoever has it, view only, and what is kept of it tells no secret", async () => {
    const [hart] = await start();
    const { secret, link } = await makeLink(hart);
    const { viewer } = await manifest(server, ROOM, { link: secret });
    expect(viewer).toEqual({ as: "link", number: null, mayGoOn: false, mayManage: false });
    expect((await allEntries(server, ROOM, { link: secret })).length).toBeGreaterThan(0);
    const listed = await (await ask(server, `${ROOM}/replay/links`, hart)).json();
    expect(listed).toEqual([link]);
    expect(JSON.stringify(listed)).not.toContain(secret);
    // An instructor who opens it sees what others see by it.
    expect((await manifest(server, ROOM, { cookie: hart.cookie, link: secret })).viewer.as).toBe("link");
  });

  it.each([
    ["POST", "replay/chapters", { do: "add", at: 0, title: "x" }],
    ["POST", "replay/go-on", { at: 0, name: "x" }],
    ["POST", "replay/links", { until: null }],
    ["PUT", "retention", { keep: "forever" }],
    ["DELETE", "", {}],
  ] as const)("lets nobody do anything: %s %s", async (method, what, body) => {
    const [hart] = await start();
    const { secret } = await makeLink(hart);
    const path = what === "" ? ROOM : `${ROOM}/${what}`;
    const answer = await send(server, method, path, { link: secret }, body);
    expect([answer.status, answer.text]).toEqual([403, expect.stringContaining("notAllowed")]);
    expect((await ask(server, `${ROOM}/replay/links`, { link: secret })).status).toBe(403);
    expect((await ask(server, `${ROOM}/retention`, { link: secret })).status).toBe(403);
  });

  it("ends when it is revoked or its date has passed, and says so; another secret opens nothing", async () => {
    let now = Date.now();
    const [hart] = await start({ now: () => now });
    const revoked = await makeLink(hart);
    const answer = await send(server, "DELETE", `${ROOM}/replay/links/${revoked.link.id}`, hart);
    expect(answer.body).toEqual([{ ...revoked.link, isRevoked: true }]);
    const timed = await makeLink(hart, now + 60_000);
    const isOpen = async () => (await ask(server, `${ROOM}/replay`, { link: timed.secret })).ok;
    now += 59_999;
    expect(await isOpen()).toBe(true);
    now += 1;
    expect(await isOpen()).toBe(false);
    const open = async (link: string, room = ROOM) => {
      const response = await ask(server, `${room}/replay`, { link });
      return [response.status, ((await response.json()) as { error: { code: string } }).error.code];
    };
    expect(await open(revoked.secret)).toEqual([410, "linkRevoked"]);
    expect(await open(timed.secret)).toEqual([410, "linkExpired"]);
    expect(await open("AAAAAAAAAAAAAAAAAAAAAA")).toEqual([403, "wrongLink"]);
    expect(await open((await makeLink(hart)).secret, "geometry")).toEqual([403, "wrongLink"]);
  });

  it("is made and ended by instructors alone, until a time that is still to come, and not without number", async () => {
    const [hart, ann] = await start({ limits: { replayLinks: 1 } });
    const path = `${ROOM}/replay/links`;
    expect((await send(server, "POST", path, ann, { until: null })).status).toBe(403);
    expect((await send(server, "POST", path, hart, { until: 5 })).text).toContain("still to come");
    expect((await send(server, "POST", path, hart, {})).text).toContain("until");
    const { link } = await makeLink(hart);
    expect((await send(server, "DELETE", `${path}/${link.id}`, ann)).status).toBe(403);
    expect((await send(server, "DELETE", `${path}/99`, hart)).status).toBe(404);
    expect((await send(server, "POST", path, hart, { until: null })).text).toContain("1 links at most");
  });

  it("can't be guessed: after some wrong secrets nothing is said any more", async () => {
    await start({ limits: { wrongKeyRate: { burst: 2, perSecond: 0.001 } } });
    const statuses = [];
    for (const link of ["a", "b", "c"]) statuses.push((await ask(server, `${ROOM}/replay`, { link })).status);
    expect(statuses).toEqual([403, 403, 429]);
  });
});

it("requests from pages of other sites change nothing", async () => {
  const [hart] = await start();
  const headers = { cookie: hart.cookie, origin: "https://elsewhere.example" };
  for (const [method, path] of [
    ["DELETE", ROOM],
    ["POST", `${ROOM}/replay/links`],
    ["PUT", `${ROOM}/retention`],
  ] as const) {
    const response = await fetch(`http://127.0.0.1:${server.port}/api/rooms/${path}`, { method, headers });
    expect(response.status).toBe(403);
  }
  expect((await (await ask(server, `${ROOM}/replay/links`, hart)).json()) as readonly ReplayLink[]).toEqual([]);
});
