import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { Identity } from "../../../server/access";
import { ENTRY, type MemoryHistory } from "../../../server/history";
import type { Limits } from "../../../server/limits";
import { CLOSE } from "../../../server/sync/closeCode";
import type { ApiFailure, RoomAction, RoomGlance, RoomVisit, TryGlance } from "../../../shared/messages";
import { LINK_HEADER, type ReplayManifest } from "../../../shared/replay";
import { get, join, post } from "../support/http";
import { INSTRUCTOR, type PageClient } from "../support/pageClient";
import { refusedUpgrade } from "../support/rawClient";
import { INSTRUCTOR_KEY, SECRET, startTestServer, type TestServer } from "../support/testServer";
import { until } from "../support/until";
import { TryRoom } from "./tryRoom";

let server: TestServer;
let room: TryRoom;
let hart: PageClient;
let ann: PageClient;
const ROOM = "room1";

const start = async (limits: Partial<Limits> = {}) => {
  server = await startTestServer({ limits });
  ({ room, hart, ann } = await TryRoom.open(server, ROOM));
};
beforeEach(() => start());
afterEach(async () => {
  room.close();
  await server.stop();
});

const NOT_YOURS = { status: 403, sentence: "Only the learner whose try this is, and the instructor, see it." };
const cookieBy = (identity: Identity) => identity.cookie(identity.newParticipant()).split(";", 1)[0] as string;
const codeOf = ({ status, body }: { readonly status: number; readonly body: unknown }) => [
  status,
  (body as ApiFailure).error.code,
];
const entriesOf = (name: string, kind: string) =>
  (server.store as MemoryHistory).entries.filter((entry) => entry.room === name && entry.kind === kind);
const updatesOf = (name: string) => entriesOf(name, ENTRY.update).length;
const look = (name: string, cookie: string) => get<TryGlance>(server, `/api/rooms/${ROOM}/tries/${name}`, { cookie });

/** What the address of a room that is not there tells. */
const noRoom = (room: string): RoomGlance => ({
  room,
  exists: false,
  title: "",
  isEnded: false,
  isLocked: false,
  you: null,
  tryOf: null,
});

describe("a learner's own try is closed to", () => {
  it.each<[string, () => Promise<string>, { status: number; sentence?: string }]>([
    ["another learner of the room", async () => (await room.join({ name: "Ben" })).cookie, NOT_YOURS],
    ["an observer of the room", async () => (await room.join({ name: "Olga", as: "observer" })).cookie, NOT_YOURS],
    [
      "the instructor of another room",
      async () => (await join(server, "geometry", { name: "Eve", key: INSTRUCTOR_KEY })).cookie,
      NOT_YOURS,
    ],
    ["somebody who never joined anything", async () => cookieBy(new Identity(SECRET, Date.now)), NOT_YOURS],
    ["somebody without a cookie", async () => "", { status: 401 }],
    [
      "a forged cookie",
      async () => cookieBy(new Identity(new Uint8Array(32), Date.now)),
      { status: 401, sentence: "Join this room by name first." },
    ],
  ])("%s, with its address too: by WebSocket, by HTTP, and by joining it", async (_, who, refusal) => {
    const { name, own } = await room.tryOf(ann);
    const cookie = await who();
    const headers = cookie ? { cookie } : {};
    expect(await refusedUpgrade(`${server.url}/${name}?answers=1`, headers)).toMatchObject(refusal);
    const looked = await look(name, cookie);
    expect([looked.status < 400, JSON.stringify(looked.body).includes("Ann")]).toEqual([false, false]);
    for (const key of [undefined, INSTRUCTOR_KEY, ""]) {
      const asked = { name: "Eve", ...(key === undefined ? {} : { key }) };
      expect(codeOf(await join(server, name, asked, { cookie }))).toEqual([404, "unknownRoom"]);
    }
    const glance = await get<RoomGlance>(server, `/api/rooms/${name}`, { cookie });
    expect(glance.body).toEqual(noRoom(name));
    expect(await refusedUpgrade(`${server.url}/${name}?answers=1`, headers)).toMatchObject(refusal);
    expect(own.state?.participants.map((each) => each.name)).toEqual(["Prof. Hart", "Ann"]);
  });

  it("a learner without a try of their own as much as to one who has one, and each has their own", async () => {
    const ben = await room.join({ name: "Ben" });
    const [anns, bens] = [await room.tryOf(ann), await room.tryOf(ben)];
    expect(anns.name).not.toBe(bens.name);
    expect(await refusedUpgrade(`${server.url}/${anns.name}`, { cookie: ben.cookie })).toEqual(NOT_YOURS);
    expect(await refusedUpgrade(`${server.url}/${bens.name}`, { cookie: ann.cookie })).toEqual(NOT_YOURS);
  });
});

describe("opening a try of one's own", () => {
  it("is for learners of the room; all others hear why not", async () => {
    const olga = await room.join({ name: "Olga", as: "observer" });
    const stranger = cookieBy(new Identity(SECRET, Date.now));
    expect(codeOf(await room.ask(olga.cookie))).toEqual([403, "notLearner"]);
    expect(codeOf(await room.ask(hart.cookie))).toEqual([403, "notLearner"]);
    expect(codeOf(await room.ask(stranger))).toEqual([401, "notMember"]);
    expect(codeOf(await room.ask(""))).toEqual([401, "notMember"]);
    expect(await server.directory.tries(ROOM)).toEqual([]);
  });

  it("is refused in a room that isn't there, and in a try", async () => {
    const { name } = await room.tryOf(ann);
    for (const each of ["zzzzzz", name]) {
      const asked = await post(server, `/api/rooms/${each}/try`, {}, { cookie: ann.cookie });
      expect(codeOf(asked)).toEqual([404, "unknownRoom"]);
      expect(codeOf(await get(server, `/api/rooms/${each}/tries`, { cookie: hart.cookie }))).toEqual([
        404,
        "unknownRoom",
      ]);
    }
  });

  it.each<[string, unknown, number]>([
    ["somebody else's id", { owner: "x" }, 400],
    ["a list", [], 400],
    ["no JSON", "{", 400],
    ["more than a request may have", JSON.stringify({ x: "a".repeat(9000) }), 413],
  ])("takes no body with %s", async (_, body, status) => {
    const asked = await post(server, `/api/rooms/${ROOM}/try`, body, { cookie: ann.cookie });
    expect(asked.status).toBe(status);
    expect(await server.directory.tries(ROOM)).toEqual([]);
  });

  it("begins one whose making was stored before the server died, and its beginning not", async () => {
    await server.directory.createTry("begun1", ROOM, ann.you.id);
    const { name, own } = await room.tryOf(ann);
    expect(name).toBe("begun1");
    await until("the room's board is there", () => own.doc.getMap("parts").size > 0);
    expect(own.state?.answers).toEqual({ shown: false, except: [] });
    expect(entriesOf(name, ENTRY.begin)).toHaveLength(1);
  });

  it("from a page of another site is refused", async () => {
    const headers = { origin: "https://evil.example" };
    const asked = await post(server, `/api/rooms/${ROOM}/try`, {}, { cookie: ann.cookie, headers });
    expect(codeOf(asked)).toEqual([403, "otherOrigin"]);
  });

  it("is bounded for one network, which takes nothing from whoever has theirs", async () => {
    room.close();
    await server.stop();
    await start({ beginTryRate: { burst: 1, perSecond: 0 } });
    const ben = await room.join({ name: "Ben" });
    expect((await room.ask(ann.cookie)).status).toBe(201);
    expect(codeOf(await room.ask(ben.cookie))).toEqual([429, "tooMany"]);
    expect((await room.ask(ann.cookie)).status).toBe(200);
  });

  it("has no address besides those that there are", async () => {
    const { name } = await room.tryOf(ann);
    const paths = ["try", "try/", `try/${name}`, "tries/", `tries/${name}/x`, "tries/%61", `tries/..%2f${name}`];
    for (const path of paths) {
      expect(codeOf(await get(server, `/api/rooms/${ROOM}/${path}`, { cookie: ann.cookie }))).toEqual([
        404,
        "notFound",
      ]);
    }
  });
});

describe("the address of a room with a try's name", () => {
  it("leads those who may see the try to it, and tells nothing else", async () => {
    const { name } = await room.tryOf(ann);
    for (const { cookie } of [ann, hart]) {
      const { body } = await get<RoomGlance>(server, `/api/rooms/${name}`, { cookie });
      expect(body).toEqual({ ...noRoom(name), tryOf: ROOM });
    }
    expect((await get<RoomGlance>(server, `/api/rooms/${ROOM}`, { cookie: ann.cookie })).body.tryOf).toBeNull();
  });
});

describe("whose tries there are", () => {
  it("is told to instructors alone, and what is no try of the room to nobody", async () => {
    const { name } = await room.tryOf(ann);
    expect(codeOf(await room.list(ann.cookie))).toEqual([403, "notAllowed"]);
    expect(codeOf(await room.list(""))).toEqual([401, "notMember"]);
    expect(await look(name, hart.cookie)).toMatchObject({ status: 200, body: { room: name, owner: { name: "Ann" } } });
    expect(await look(name, ann.cookie)).toMatchObject({ status: 200 });
    for (const other of ["zzzzzz", "algebra", ROOM]) {
      expect(codeOf(await look(other, hart.cookie))).toEqual([404, "notFound"]);
      expect(codeOf(await look(other, ann.cookie))).toEqual([403, "notYours"]);
    }
  });

  it("is not in anybody's list of rooms", async () => {
    const { name, own } = await room.tryOf(ann);
    const seen = await room.enter(name, hart);
    own.leave();
    seen.leave();
    await until("nobody is in the room's try", () => server.rooms.size === 2);
    for (const { cookie } of [ann, hart]) {
      const visits = await get<readonly RoomVisit[]>(server, "/api/me/rooms", { cookie });
      expect(visits.body.map((visit) => visit.room)).toEqual([ROOM]);
    }
  });
});

describe("what happens in the room", () => {
  it("counts in the try at once: who is removed is sent away from it, and is refused ever after", async () => {
    const { name, own } = await room.tryOf(ann);
    const seen = await room.enter(name, hart);
    hart.ask({ do: "removeParticipant", participant: ann.you.id });
    await until("ann is sent away from both", () => own.closed === CLOSE.removed && ann.closed === CLOSE.removed);
    expect(own.notices.at(-1)).toEqual({ code: "removed" });
    expect(await refusedUpgrade(`${server.url}/${name}`, { cookie: ann.cookie })).toMatchObject({ status: 403 });
    expect(codeOf(await room.ask(ann.cookie))).toEqual([403, "removed"]);
    expect(codeOf(await look(name, ann.cookie))).toEqual([403, "removed"]);
    expect(codeOf(await room.list(ann.cookie))).toEqual([403, "removed"]);
    // The instructor still reads what was tried, and by whom.
    await until("hart sees that she is gone", () => seen.state?.participants.length === 1);
    expect(seen.state?.tryOf?.ownerName).toBe("Ann");
    expect((await room.list(hart.cookie)).body).toMatchObject([{ room: name, owner: { name: "Ann" } }]);
  });

  it("ends the try with the room: it is read on, nothing in it changes, and no new one is begun", async () => {
    const ben = await room.join({ name: "Ben" });
    const { name, own } = await room.tryOf(ann);
    hart.ask({ do: "end" });
    await until("ann hears of it", () => own.state?.isEnded === true);
    expect(own.notices).toContainEqual({ code: "ended" });
    expect(own.state?.you.mayDraw).toBe(false);
    const before = updatesOf(name);
    own.board.set("late", "1");
    await until("it is refused, and ann is back", () => own.repairs === 1 && own.provider.synced);
    expect(await own.tryValue("Iy", "V1", "60 mA")).toEqual({ outcome: "refused", why: "ended" });
    expect(await own.refusalOf({ do: "beginAgain" })).toMatchObject({ why: "ended" });
    expect(updatesOf(name)).toBe(before);
    expect((await room.ask(ann.cookie)).body).toEqual({ room: name });
    expect(codeOf(await room.ask(ben.cookie))).toEqual([410, "ended"]);
    const late = await room.enter(name, ann);
    expect(late.doc.getMap("parts").size).toBeGreaterThan(0);
  });

  it("keeps nobody from their own try where it is about the room's board: its lock, and who draws there", async () => {
    hart.ask({ do: "setDrawing", who: "instructor" });
    hart.ask({ do: "lock", locked: true });
    await until("ann may not draw in the room", () => ann.state?.isLocked === true);
    const { name, own } = await room.tryOf(ann);
    expect(own.state).toMatchObject({ isLocked: false, drawing: "everyone", you: { mayDraw: true } });
    const before = updatesOf(name);
    own.board.set("mine", "1");
    await until("it is taken in", () => updatesOf(name) === before + 1);
  });

  it("makes an instructor of somebody there, too, and an observer", async () => {
    const ben = await room.join({ name: "Ben" });
    const { name, own } = await room.tryOf(ann);
    expect(await refusedUpgrade(`${server.url}/${name}`, { cookie: ben.cookie })).toEqual(NOT_YOURS);
    await join(server, ROOM, { name: "Ben", key: INSTRUCTOR_KEY }, { cookie: ben.cookie });
    const seen = await room.enter(name, ben);
    expect(seen.state?.you).toMatchObject({ role: "instructor" });
    await join(server, ROOM, { name: "Ann", as: "observer" }, { cookie: ann.cookie });
    await until("ann only looks on", () => own.state?.you.mayDraw === false);
    own.board.set("late", "1");
    await until("it is refused, and ann is back", () => own.repairs === 1 && own.provider.synced);
    expect(await own.refusalOf({ do: "beginAgain" })).toMatchObject({ why: "isObserver" });
    expect((await room.ask(ann.cookie)).body).toEqual({ room: name });
    expect(seen.state?.participants.map(({ role }) => role)).toEqual(["instructor", "observer", "instructor"]);
  });
});

describe("what is asked in a try", () => {
  const ABOUT_CLASS: readonly RoomAction[] = [
    { do: "setDrawing", who: "instructor" },
    { do: "setMayDraw", participant: "x", may: false },
    { do: "renameParticipant", participant: "x", name: "Nobody" },
    { do: "removeParticipant", participant: "x" },
    { do: "lock", locked: true },
    { do: "end" },
  ];

  it.each(ABOUT_CLASS)("is refused where it is about the class: $do", async (action) => {
    const { name, own } = await room.tryOf(ann);
    const seen = await room.enter(name, hart);
    for (const page of [own, seen]) {
      expect(
        await page.refusalOf({ ...action, ...("participant" in action ? { participant: ann.you.id } : {}) }),
      ).toMatchObject({
        why: "inTry",
      });
    }
    expect(ann.state).toMatchObject({ isEnded: false, isLocked: false, drawing: "everyone", you: { name: "Ann" } });
  });

  it.each<RoomAction>([
    { do: "setAnswers", shown: true },
    { do: "setShown", card: "V1", shown: true },
    { do: "showAllLines", shown: true },
    { do: "showLines", wanted: "Iy", card: "V1", lines: "all" },
    { do: "comeToMe", view: { card: "V1", wanted: null, center: [0, 0], scale: 1 } },
  ])("to show something is the instructor's alone: $do", async (action) => {
    const { own } = await room.tryOf(ann);
    expect(await own.refusalOf(action)).toMatchObject({ why: "notAllowed" });
    expect(own.state?.answers).toEqual({ shown: false, except: [] });
  });
});

describe("the replay of a try", () => {
  const replayOf = (name: string, cookie: string) =>
    get<ReplayManifest>(server, `/api/rooms/${name}/replay`, { cookie });

  it("is its owner's and the instructors', by what the room says now, also where neither is in memory", async () => {
    room.close();
    await server.stop();
    await start({ idleTime: 20 });
    const ben = await room.join({ name: "Ben" });
    const { name } = await room.tryOf(ann);
    expect((await replayOf(name, ann.cookie)).status).toBe(200);
    expect(codeOf(await replayOf(name, ben.cookie))).toEqual([401, "notMember"]);
    hart.ask({ do: "removeParticipant", participant: ann.you.id });
    await until("ann is sent away", () => ann.closed === CLOSE.removed);
    room.close();
    await until("all have left memory", () => server.rooms.size === 0);
    expect(codeOf(await replayOf(name, ann.cookie))).toEqual([401, "notMember"]);
    await until("all have left memory", () => server.rooms.size === 0);
    expect(codeOf(await replayOf(name, ben.cookie))).toEqual([401, "notMember"]);
    await until("all have left memory", () => server.rooms.size === 0);
    expect((await replayOf(name, hart.cookie)).status).toBe(200);
  });

  it("is led to by no link", async () => {
    const { name } = await room.tryOf(ann);
    for (const { cookie } of [hart, ann]) {
      const asked = await post(server, `/api/rooms/${name}/replay/links`, { until: null }, { cookie });
      expect(codeOf(asked)).toEqual([403, "notAllowed"]);
    }
    const made = await post<{ readonly secret: string }>(
      server,
      `/api/rooms/${ROOM}/replay/links`,
      { until: null },
      { cookie: hart.cookie },
    );
    const headers = { [LINK_HEADER]: made.body.secret };
    expect((await get(server, `/api/rooms/${ROOM}/replay`, { headers })).status).toBe(200);
    expect(codeOf(await get(server, `/api/rooms/${name}/replay`, { headers }))).toEqual([403, "wrongLink"]);
  });

  it("calls nobody by a name that they asked in the room not to be kept", async () => {
    const { name, own } = await room.tryOf(ann);
    const names = async () => (await replayOf(name, hart.cookie)).body.participants.map((each) => each.name);
    expect(await names()).toEqual(["Ann"]);
    ann.ask({ do: "keepName", keep: false });
    await until("it is told", () => own.state?.you.isNameKept === false);
    expect(await names()).toEqual(["learner 1"]);
  });
});

describe("deleting", () => {
  const remove = (name: string, { cookie }: PageClient) =>
    fetch(`http://127.0.0.1:${server.port}/api/rooms/${name}`, { method: "DELETE", headers: { cookie } });
  const kept = (name: string) => (server.store as MemoryHistory).entries.some((entry) => entry.room === name);

  it("the room deletes its tries with all that happened in them, in memory or not, and sends away who is there", async () => {
    room.close();
    await server.stop();
    await start({ idleTime: 20 });
    const ben = await room.join({ name: "Ben" });
    const bens = await room.ask(ben.cookie);
    await until("ben's is out of memory", () => server.rooms.size === 1);
    const { name, own } = await room.tryOf(ann);
    own.board.set("mine", "1");
    expect((await remove(ROOM, hart)).status).toBe(200);
    await until("ann is sent away from both", () => own.closed === CLOSE.deleted && ann.closed === CLOSE.deleted);
    expect([ROOM, name, bens.body.room].map(kept)).toEqual([false, false, false]);
    expect([await server.directory.find(name), await server.directory.find(bens.body.room)]).toEqual([null, null]);
    expect(await refusedUpgrade(`${server.url}/${name}`, { cookie: ann.cookie })).toMatchObject({ status: 404 });
    expect(codeOf(await room.ask(ann.cookie))).toEqual([404, "unknownRoom"]);
    expect(server.warnings).toEqual([]);
  });

  it("a try is the instructor's, and its owner can begin a new one", async () => {
    const { name } = await room.tryOf(ann);
    expect((await remove(name, ann)).status).toBe(403);
    expect((await remove(name, hart)).status).toBe(200);
    expect([kept(name), kept(ROOM)]).toEqual([false, true]);
    const again = await room.tryOf(ann);
    expect(again.name).not.toBe(name);
  });
});

describe("rooms in memory", () => {
  it("are those of tries and, as long as those, the room that they are tries of", async () => {
    room.close();
    await server.stop();
    await start({ idleTime: 20 });
    const { own } = await room.tryOf(ann);
    ann.leave();
    hart.leave();
    await until("the server knows that they left", () => entriesOf(ROOM, ENTRY.leave).length === 2);
    await get(server, "/api/rooms/geometry");
    // It came in after they had left, so that their room's time is up when this one's is.
    await until("another room has left memory", () => server.rooms.size === 2);
    const back = await room.join(INSTRUCTOR);
    back.ask({ do: "removeParticipant", participant: ann.you.id });
    await until("the try has heard of it", () => own.closed === CLOSE.removed);
    room.close();
    await until("all have left memory", () => server.rooms.size === 0);
    expect(server.warnings).toEqual([]);
  });

  it("have space for a try by the leave of others, or it is said that there is none", async () => {
    room.close();
    await server.stop();
    await start({ rooms: 1 });
    expect(codeOf(await room.ask(ann.cookie))).toEqual([503, "unavailable"]);
  });
});
