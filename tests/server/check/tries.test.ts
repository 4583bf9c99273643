import { beforeEach, describe, expect, it, vi } from "vitest";
import { triesFrom } from "../../../server/check/keptTry";
import { CLOSE } from "../../../server/sync/closeCode";
import { type RoomRequest, writeRequest, writeTries } from "../../../shared/messages";
import type { PageClient } from "../support/pageClient";
import { joinRaw } from "../support/rawClient";
import { TryRooms } from "../support/tryRooms";
import { until } from "../support/until";

vi.setConfig({ testTimeout: 60_000, hookTimeout: 120_000 });

// The demo board: Iy is 60 mA of V1, −20 mA of I1 and −15 mA of V2, 25 mA in all.

const rooms = new TryRooms({ tryRate: { burst: 5, perSecond: 0 } }, "shown");
let hart: PageClient;
let ann: PageClient;
beforeEach(() => {
  ({ hart, ann } = rooms);
});

describe("a try in a room", () => {
  it("is judged by the answer, and told to everybody with who made it", async () => {
    // −80 mA is four times the right value, and no mistake that is known leads there.
    const fourTimes = { code: "size", factor: 4, sign: "right" };
    expect(await ann.tryValue("Iy", "I1", "-80 mA")).toEqual({ outcome: "wrong", diagnosis: fourTimes });
    await until("the instructor sees it", () => hart.tries.length === 1);
    expect(hart.tries).toEqual([
      {
        wanted: "Iy",
        card: "I1",
        text: "-80 mA",
        participant: ann.you.id,
        name: "Ann",
        time: expect.any(Number),
        judgement: { outcome: "wrong", diagnosis: fourTimes },
        help: null,
        count: 1,
        isOutdated: false,
      },
    ]);
    expect(await ann.tryValue("Iy", "I1", "-I1*20/200")).toEqual({ outcome: "right" });
    await until("the instructor sees the next", () => hart.tries[0]?.count === 2);
    expect(hart.tries).toMatchObject([{ text: "-I1*20/200", judgement: { outcome: "right" }, count: 2 }]);
  });

  it("may be made by several people at one card, at the total, and by the instructor", async () => {
    const ben = await rooms.join({ name: "Ben" });
    await Promise.all([
      ann.tryValue("Iy", "V1", "60 mA"),
      ben.tryValue("Iy", "V1", "-60 mA"),
      hart.tryValue("Iy", "total", "V1/R1 - I1"),
    ]);
    await until("all is told", () => ben.tries.length === 2 && ben.tries.some(({ count }) => count === 2));
    expect(ben.tries.find(({ card }) => card === "total")).toMatchObject({
      name: "Prof. Hart",
      judgement: { outcome: "wrong", diagnosis: { code: "size", sign: "right", factor: 4 } },
    });
  });

  it("counts the same card whatever the order of its sources", async () => {
    await rooms.group("V1", "V2");
    expect(await ann.tryValue("Iy", "V2+V1", "45 mA")).toEqual({ outcome: "right" });
    await ann.tryValue("Iy", "V1+V2", "44 mA");
    await until("both are told", () => ann.tries[0]?.count === 2);
    expect(ann.tries.map(({ card }) => card)).toEqual(["V1+V2"]);
  });

  it("that can't be read is no try: only whoever made it hears why", async () => {
    expect(await ann.tryValue("Iy", "I1", "5 mA + 3 V")).toMatchObject({
      outcome: "unread",
      problem: { code: "unitsDiffer" },
    });
    expect(await ann.tryValue("Iy", "V1", "60 mA")).toEqual({ outcome: "right" });
    await until("the readable one is told", () => hart.tries.length === 1);
    expect(hart.tries[0]).toMatchObject({ card: "V1", count: 1 });
  });

  it("is refused for what is not asked, and for a circuit without an answer", async () => {
    expect(await ann.tryValue("Iy", "V9", "1 A")).toEqual({ outcome: "refused", why: "unknownCard" });
    expect(await ann.tryValue("Iz", "V1", "1 A")).toEqual({ outcome: "refused", why: "unknownCard" });
    await rooms.setValue("V1", "no value");
    expect(await ann.tryValue("Iy", "V1", "60 mA")).toEqual({ outcome: "refused", why: "unknownCard" });
    expect(hart.tries).toEqual([]);
  });

  it("is marked as outdated while the answer is another, and no longer when it is the same again", async () => {
    await ann.tryValue("Iy", "V1", "60 mA");
    await ann.tryValue("Iy", "I1", "-20 mA");
    await rooms.setValue("V1", "30 V");
    const outdated = () => Object.fromEntries(ann.tries.map(({ card, isOutdated }) => [card, isOutdated]));
    await until("V1's try is outdated", () => outdated().V1 === true);
    expect(outdated()).toEqual({ V1: true, I1: false });
    await rooms.setValue("V1", "15 V");
    await until("it stands again", () => outdated().V1 === false);
  });

  it("is kept in the room's next snapshot", async () => {
    await ann.tryValue("Iy", "V1", "61 mA");
    expect(triesFrom({ snapshot: await rooms.snapshot(), entries: [] })).toMatchObject([
      { card: "V1", text: "61 mA", name: "Ann" },
    ]);
  });

  it("is known to whoever comes later", async () => {
    await ann.tryValue("Iy", "V1", "61 mA");
    const late = await rooms.join({ name: "Lea" });
    await until("she is told", () => late.tries.length === 1);
    expect(late.tries).toEqual(hart.tries);
  });

  it("on a hidden card tells a learner whether it is right, and not the answer's key", async () => {
    hart.ask({ do: "setAnswers", shown: false });
    await until("answers are hidden", () => (ann.answers.at(-1)?.report?.hidden.length ?? 0) > 0);
    const framesBefore = ann.frames.length;
    await ann.tryValue("Iy", "I1", "19 mA");
    await ann.tryValue("Iy", "total", "24 mA");
    await rooms.setValue("V2", "12 V");
    const sent = ann.frames.slice(framesBefore).map((frame) => new TextDecoder().decode(frame));
    // What the key holds, as the room's history keeps it: exact amperes.
    expect(sent.filter((text) => /1\/50|1\/40|"answer"/.test(text))).toEqual([]);
  });

  it("is refused for an observer, for whoever was removed meanwhile, and in a room that has ended", async () => {
    const olga = await rooms.join({ name: "Olga", as: "observer" });
    expect(await olga.tryValue("Iy", "V1", "60 mA")).toEqual({ outcome: "refused", why: "isObserver" });
    hart.ask({ do: "lock", locked: true });
    expect(await ann.tryValue("Iy", "V1", "60 mA")).toEqual({ outcome: "right" });
    hart.ask({ do: "end" });
    await until("the room has ended", () => ann.state?.isEnded === true);
    expect(await ann.tryValue("Iy", "V1", "60 mA")).toEqual({ outcome: "refused", why: "ended" });
    expect(await hart.tryValue("Iy", "V1", "60 mA")).toEqual({ outcome: "refused", why: "ended" });
  });
});

describe("tries are bounded", () => {
  it("for each participant, over all of their connections", async () => {
    for (const text of ["1 mA", "2 mA", "3 mA", "4 mA", "5 mA"]) {
      expect(await ann.tryValue("Iy", "V1", text)).toMatchObject({ outcome: "wrong" });
    }
    expect(await ann.tryValue("Iy", "V1", "60 mA")).toEqual({ outcome: "refused", why: "tooFast" });
    ann.provider.disconnect();
    ann.provider.connect();
    await until("she is back", () => ann.provider.synced);
    expect(await ann.tryValue("Iy", "V1", "60 mA")).toEqual({ outcome: "refused", why: "tooFast" });
    const ben = await rooms.join({ name: "Ben" });
    expect(await ben.tryValue("Iy", "V1", "60 mA")).toEqual({ outcome: "right" });
  });

  it("in length, with a sentence", async () => {
    expect(await ann.tryValue("Iy", "V1", "1+".repeat(400))).toMatchObject({
      problem: { code: "tooLong", limit: 200 },
    });
  });

  it.each([
    ["text that is too long", { text: "1".repeat(1001) }, /^"text" of the request/],
    ["text that is none", { text: 5 }, /^"text" of the request/],
    ["no card", { card: "" }, /^"card" of the request/],
    ["a name of its own making", { name: "Prof. Hart" }, /^The request is not as it should be/],
    ["a judgement of its own making", { judgement: { outcome: "right" } }, /^The request is not as it should be/],
    ["another's id", { participant: "x" }, /^The request is not as it should be/],
  ])("in shape: %s ends the connection of its sender alone", async (_, fields, reason) => {
    const { socket, closedAfter } = await joinRaw(rooms.server.url, `${rooms.name}?answers=1`, ann.cookie);
    const request = { id: 1, do: "tryValue", wanted: "Iy", card: "V1", text: "60 mA", ...fields };
    const closed = await closedAfter(writeRequest(request as unknown as RoomRequest));
    expect(closed.code).toBe(CLOSE.badMessage);
    expect(closed.reason).toMatch(reason);
    socket.terminate();
    expect(await ann.tryValue("Iy", "V1", "60 mA")).toEqual({ outcome: "right" });
  });

  it("in rate of requests: a flood ends its connection, and the others' tries go on", async () => {
    const { closedAfter, socket } = await joinRaw(rooms.server.url, `${rooms.name}?answers=1`);
    const request = { id: 1, do: "tryValue", wanted: "Iy", card: "V1", text: "((((((((((1))))))))))" } as const;
    for (let i = 0; i < 200; i++) socket.send(writeRequest(request));
    expect((await closedAfter(writeRequest(request))).code).toBe(CLOSE.tooMany);
    expect(await ann.tryValue("Iy", "V1", "60 mA")).toEqual({ outcome: "right" });
  });

  it("a page cannot speak as the server: message 106 from a page ends its connection", async () => {
    const { closedAfter } = await joinRaw(rooms.server.url, `${rooms.name}?answers=1`);
    const closed = await closedAfter(writeTries({ about: "room", tries: [] }));
    expect(closed).toEqual({ code: CLOSE.badMessage, reason: "message type 106 is not known" });
  });
});
