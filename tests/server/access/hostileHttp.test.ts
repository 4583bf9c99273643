import { request as httpRequest } from "node:http";
import { afterEach, describe, expect, it } from "vitest";
import { Identity } from "../../../server/access";
import { LIMITS, type Limits } from "../../../server/limits";
import type { ApiFailure, RoomGlance } from "../../../shared/messages";
import { admit } from "../support/admit";
import { create, get, join, post } from "../support/http";
import { joinRaw, refusedUpgrade } from "../support/rawClient";
import { INSTRUCTOR_KEY, SECRET, startTestServer, type TestServer } from "../support/testServer";
import { until } from "../support/until";

let server: TestServer;
const start = async (limits: Partial<Limits> = {}) => {
  server = await startTestServer({ limits });
};
afterEach(() => server.stop());

const BLANK = { kind: "blank" } as const;
const JOIN_FIRST = { status: 401, sentence: "Join this room by name first." };
const cookieBy = (identity: Identity) => identity.cookie(identity.newParticipant()).split(";", 1)[0] as string;

/** A request with exactly this path and these headers; `fetch` would tidy the one and refuse the others. */
function rawRequest(
  method: string,
  path: string,
  headers: Record<string, string> = {},
  body = "",
): Promise<{ status: number; text: string }> {
  return new Promise((resolve, reject) => {
    const asked = httpRequest({ host: "127.0.0.1", port: server.port, method, path, headers }, (response) => {
      let text = "";
      response.on("data", (bytes: Buffer) => {
        text += bytes.toString();
      });
      response.on("end", () => resolve({ status: response.statusCode ?? 0, text }));
    });
    asked.on("error", reject);
    asked.end(body);
  });
}

describe("a WebSocket", () => {
  it.each<[string, () => Record<string, string>]>([
    ["no cookie", () => ({})],
    ["a forged cookie", () => ({ cookie: `addend_who=${"A".repeat(22)}.zzzzzz.${"A".repeat(43)}` })],
    ["another server's cookie", () => ({ cookie: cookieBy(new Identity(new Uint8Array(32), Date.now)) })],
    [
      "an expired cookie",
      () => ({ cookie: cookieBy(new Identity(SECRET, () => Date.now() - 366 * 24 * 3600 * 1000)) }),
    ],
    ["a good cookie of somebody who never joined", () => ({ cookie: cookieBy(new Identity(SECRET, Date.now)) })],
  ])("with %s is refused before it is opened", async (_, headers) => {
    await start();
    expect(await refusedUpgrade(`${server.url}/algebra`, headers())).toEqual(JOIN_FIRST);
  });

  it("of a member of another room is refused", async () => {
    await start();
    const { cookie } = await admit(server.url, "geometry");
    expect(await refusedUpgrade(`${server.url}/algebra`, { cookie })).toEqual(JOIN_FIRST);
  });

  it("too many of one participant's make way for one another, and for everybody else there is room", async () => {
    await start({ connectionsInRoom: 4, connectionsOfOne: 3 });
    const { cookie } = await admit(server.url, "algebra", { name: "Eve" });
    const own = [];
    for (let count = 0; count < 6; count++) own.push(await joinRaw(server.url, "algebra", cookie));
    const code = 4429;
    const reason = "a participant has 3 connections to a room at most";
    for (const gone of own.slice(0, 3)) expect(await gone.closedAfter("")).toEqual({ code, reason });
    for (const { socket } of own.slice(3)) expect(socket.readyState).toBe(socket.OPEN);
    const ann = await joinRaw(server.url, "algebra");
    await until("Ann is in the room", () => ann.frames.length > 0);
    expect(ann.socket.readyState).toBe(ann.socket.OPEN);
    for (const { socket } of [...own, ann]) socket.terminate();
  });

  it("into a room that isn't there is refused, and makes none", async () => {
    await start();
    const { cookie } = await admit(server.url, "algebra");
    expect(await refusedUpgrade(`${server.url}/zzzzzz`, { cookie })).toEqual({
      status: 404,
      sentence: "There is no room with this code.",
    });
    expect(await server.directory.find("zzzzzz")).toBeNull();
  });

  it("from a page of another site is refused, from our own or from no page it is not", async () => {
    await start();
    const { cookie } = await admit(server.url, "algebra");
    for (const origin of ["https://evil.example", `http://127.0.0.1:${server.port + 1}`, "null", "x"]) {
      expect(await refusedUpgrade(`${server.url}/algebra`, { cookie, origin })).toMatchObject({ status: 403 });
    }
    const own = await joinRaw(server.url, "algebra", cookie);
    expect(own.socket.readyState).toBe(own.socket.OPEN);
    own.socket.terminate();
  });
});

describe("a POST", () => {
  it.each<Record<string, string>>([
    { origin: "https://evil.example" },
    { origin: "null" },
    { origin: "not a url" },
    { "sec-fetch-site": "cross-site" },
  ])("from a page of another site is refused: %j", async (headers) => {
    await start();
    const answers = [
      await rawRequest("POST", "/api/rooms", headers, JSON.stringify({ name: "Eve", from: BLANK })),
      await rawRequest("POST", "/api/rooms/algebra/join", headers, JSON.stringify({ name: "Eve" })),
    ];
    for (const { status, text } of answers) {
      expect([status, (JSON.parse(text) as ApiFailure).error.code]).toEqual([403, "otherOrigin"]);
    }
  });

  it("from our own page is taken", async () => {
    await start();
    const headers = { origin: `http://127.0.0.1:${server.port}`, "sec-fetch-site": "same-origin" };
    expect((await join(server, "algebra", { name: "Ann" }, { headers })).status).toBe(200);
  });

  it.each<[string, string]>([
    ["huge", JSON.stringify({ name: "a".repeat(9000) })],
    ["endless", "[".repeat(9000)],
  ])("of a %s body is refused with the size that it may have", async (_, body) => {
    await start();
    const answer = await post<ApiFailure>(server, "/api/rooms/algebra/join", body);
    expect(answer).toMatchObject({ status: 413, body: { error: { text: "A request has at most 8192 bytes." } } });
  });

  it("of a room's file that is larger than allowed is refused, and the next request is served", async () => {
    await start({ fileBytes: 1000 });
    const file = { elements: [], note: "x".repeat(2000) };
    expect(await create(server, { name: "Ann", from: { kind: "file", file } })).toMatchObject({ status: 413 });
    expect((await create(server, { name: "Ann", from: BLANK })).status).toBe(201);
  });

  it.each<[string, unknown]>([
    ["a number", 7],
    ["null", null],
    ["a name that is an object", { name: { toString: "x" } }],
    ["a name that is a list", { name: ["Ann"] }],
    ["a role that nobody can ask for", { name: "Ann", as: "instructor" }],
    ["a field too many", { name: "Ann", role: "instructor" }],
    ["a key that is an object", { name: "Ann", key: {} }],
    ["a key that is null", { name: "Ann", key: null }],
    ["a prototype", JSON.parse('{"name":"Ann","__proto__":{"role":"instructor"}}')],
  ])("of the wrong shape is refused: %s", async (_, body) => {
    await start();
    const answer = await post<ApiFailure>(server, "/api/rooms/algebra/join", JSON.stringify(body));
    expect(answer).toMatchObject({ status: 400, body: { error: { code: "badRequest" } }, cookie: "" });
    expect(answer.body.error.text).toMatch(/^[A-Z"].*\.$/s);
  });
});

describe("keys", () => {
  it("that are wrong make nobody anything, and are bounded for each address", async () => {
    await start({ wrongKeyRate: { burst: 3, perSecond: 0 } });
    const wrong = ["", "A", `${INSTRUCTOR_KEY}A`, INSTRUCTOR_KEY.toLowerCase()];
    const statuses = [];
    for (const key of wrong) statuses.push((await join(server, "algebra", { name: "Eve", key })).status);
    expect(statuses).toEqual([403, 403, 403, 429]);
    // The right one still works: a class shares an address.
    expect((await join(server, "algebra", { name: "Hart", key: INSTRUCTOR_KEY })).body.you.role).toBe("instructor");
  });

  it("don't open a room whose key is not known", async () => {
    await start();
    await (server.directory as unknown as { create(room: string, hash: null): Promise<boolean> }).create("old", null);
    for (const key of ["", "null", INSTRUCTOR_KEY]) {
      expect((await join(server, "old", { name: "Eve", key })).status).toBe(403);
    }
    expect((await join(server, "old", { name: "Ann" })).body.you.role).toBe("learner");
  });
});

describe("how much one address may ask for", () => {
  it.each<[string, Partial<Limits>, () => Promise<{ status: number }>]>([
    ["rooms", { createRate: { burst: 2, perSecond: 0 } }, () => create(server, { name: "Eve", from: BLANK })],
    ["joins", { joinRate: { burst: 2, perSecond: 0 } }, () => join(server, "algebra", { name: "Eve" })],
    ["looks", { joinRate: { burst: 2, perSecond: 0 } }, () => get(server, "/api/rooms/algebra")],
  ])("of %s is bounded", async (_, limits, ask) => {
    await start(limits);
    const statuses = [await ask(), await ask(), await ask()].map(({ status }) => status);
    expect(statuses.slice(0, 2).every((status) => status < 300)).toBe(true);
    expect(statuses[2]).toBe(429);
  });

  it("is enough for a class of 200 behind one address that comes in at once", () => {
    expect(LIMITS.joinRate.burst).toBeGreaterThanOrEqual(200);
  });
});

describe("addresses", () => {
  it.each([
    "/api/rooms/..%2f..%2fetc%2fpasswd",
    "/api/rooms/../../etc/passwd",
    "/api/rooms/%2e%2e/join",
    "/api/rooms/algebra%00",
    "/api/rooms/a%2Fb",
    "/api/rooms/-algebra",
    "/api/rooms/al%20gebra",
    `/api/rooms/${"a".repeat(65)}`,
    "/api/rooms/algebra/",
    "/api/rooms/algebra/join/x",
    "/api/rooms//join",
    "/api",
    "/api/",
    "/api/me",
    "/api/me/rooms/",
    "/api/rooms/constructor/__proto__",
  ])("%s leads nowhere", async (path) => {
    await start();
    for (const method of ["GET", "POST"]) {
      const { status, text } = await rawRequest(method, path, {}, method === "POST" ? '{"name":"Eve"}' : "");
      expect([method, status, (JSON.parse(text) as ApiFailure).error.code]).toEqual([method, 404, "notFound"]);
    }
    expect(server.rooms.size).toBe(0);
  });

  it.each(["PUT", "DELETE", "PATCH", "OPTIONS"])("take no %s", async (method) => {
    await start();
    expect((await rawRequest(method, "/api/rooms/algebra/join")).status).toBe(404);
  });

  it("named like what every object has are rooms like others: there is none", async () => {
    await start();
    for (const room of ["constructor", "toString", "hasOwnProperty"]) {
      expect((await get<RoomGlance>(server, `/api/rooms/${room}`)).body.exists).toBe(false);
    }
  });
});
