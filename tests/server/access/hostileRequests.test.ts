import * as encoding from "lib0/encoding";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { MESSAGE_ANSWERS, MESSAGE_CALL, MESSAGE_NOTICE, MESSAGE_REQUEST, MESSAGE_ROOM } from "../../../shared/messages";
import { admit } from "../support/admit";
import { INSTRUCTOR, joinPage, type PageClient } from "../support/pageClient";
import { joinRaw } from "../support/rawClient";
import { startTestServer, type TestServer } from "../support/testServer";
import { until } from "../support/until";

let server: TestServer;
let hart: PageClient;

beforeEach(async () => {
  server = await startTestServer({ limits: { requestRate: { burst: 20, perSecond: 0 } } });
  hart = await joinPage(server.url, "algebra", INSTRUCTOR);
});
afterEach(async () => {
  expect(hart.provider.wsconnected).toBe(true);
  hart.leave();
  await server.stop();
});

function message(type: number, text: string): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, type);
  encoding.writeVarString(encoder, text);
  return encoding.toUint8Array(encoder);
}
const request = (value: unknown) => message(MESSAGE_REQUEST, typeof value === "string" ? value : JSON.stringify(value));
/** The instructor's second page: whatever it asks for is allowed, so that only its shape can be at fault. */
const second = () => joinRaw(server.url, "algebra", hart.cookie);

const VIEW = { card: "total", wanted: null, center: [0, 0], scale: 1 };

describe("a request at fault ends its connection with a reason, and changes nothing", () => {
  it.each<[string, unknown, RegExp]>([
    ["no JSON", "{", /^the request is no JSON$/],
    ["nothing", "", /^the request is no JSON$/],
    ["no object", "7", /^The request is not as it should be/],
    ["huge JSON", JSON.stringify({ id: 1, do: "end", x: "x".repeat(5000) }), /^a request has at most 4096 characters/],
    ["deep JSON", "[".repeat(2000) + "]".repeat(2000), /^The request is not as it should be/],
    ["no such action", { id: 1, do: "promote" }, /^"do" of the request/],
    ["no id", { do: "end" }, /^"id" of the request/],
    ["an id that is no number", { id: "1", do: "end" }, /^"id" of the request/],
    ["a field too many", { id: 1, do: "end", force: true }, /^The request is not as it should be/],
    ["another drawer", { id: 1, do: "setDrawing", who: "nobody" }, /^"who" of the request/],
    ["a may that is no yes or no", { id: 1, do: "setMayDraw", participant: "x", may: 1 }, /^"may" of the request/],
    ["a card too long", { id: 1, do: "setShown", card: "x".repeat(501), shown: true }, /^"card" of the request/],
    ["an empty name", { id: 1, do: "renameParticipant", participant: "x", name: " " }, /^"name" of the request/],
    ["a long name", { id: 1, do: "renameParticipant", participant: "x", name: "a".repeat(41) }, /^"name" of the/],
    ["a view from nowhere", { id: 1, do: "comeToMe", view: { ...VIEW, center: [0, null] } }, /^"view\.center\.1"/],
    ["a view too far", { id: 1, do: "comeToMe", view: { ...VIEW, scale: 1e9 } }, /^"view\.scale" of the request/],
    ["a view of three dimensions", { id: 1, do: "comeToMe", view: { ...VIEW, center: [0, 0, 0] } }, /^"view\.center/],
    [
      "an admission, which is not asked for here",
      { id: 1, do: "admit", participant: "x", name: "x", role: "instructor" },
      /^"do"/,
    ],
  ])("%s", async (_, value, reason) => {
    const before = JSON.stringify(hart.state);
    const page = await second();
    const close = await page.closedAfter(request(value));
    expect(close.code).toBe(4400);
    expect(close.reason).toMatch(reason);
    expect(JSON.stringify(hart.state)).toBe(before);
  });

  it.each([MESSAGE_ANSWERS, MESSAGE_NOTICE, MESSAGE_ROOM, MESSAGE_CALL])(
    "message %i, which only the server sends",
    async (type) => {
      const page = await second();
      const reason = `message type ${type} is not known`;
      expect(await page.closedAfter(message(type, "{}"))).toEqual({ code: 4400, reason });
    },
  );
});

describe("a flood of requests", () => {
  it("ends the connection that sends it, and nobody else's", async () => {
    const { cookie } = await admit(server.url, "algebra", { name: "Eve" });
    const eve = await joinRaw(server.url, "algebra?answers=1", cookie);
    for (let id = 1; id <= 20; id++) eve.socket.send(request({ id, do: "end" }));
    const refusals = () => eve.frames.filter(([type]) => type === MESSAGE_NOTICE).length;
    await until("all are refused", () => refusals() === 20);
    expect(await eve.closedAfter(request({ id: 21, do: "end" }))).toEqual({
      code: 4429,
      reason: "more requests than a person can make",
    });
    hart.ask({ do: "lock", locked: true });
    await until("the instructor is heard", () => hart.state?.isLocked === true);
  });
});

it("cards shown one by one are bounded, and hiding or showing all begins anew", async () => {
  await server.stop();
  server = await startTestServer({ limits: { requestRate: { burst: 1000, perSecond: 0 } } });
  hart.leave();
  hart = await joinPage(server.url, "algebra", INSTRUCTOR);
  for (let index = 0; index < 200; index++) hart.ask({ do: "setShown", card: `V${index}`, shown: false });
  expect(await hart.refusalOf({ do: "setShown", card: "I1", shown: false })).toMatchObject({ why: "tooMany" });
  hart.ask({ do: "setShown", card: "V1", shown: true });
  hart.ask({ do: "setShown", card: "I1", shown: false });
  await until("it is hidden", () => hart.state?.answers.except.includes("I1") === true);
  hart.ask({ do: "setAnswers", shown: false });
  await until("all is hidden", () => hart.state?.answers.except.length === 0);
});
