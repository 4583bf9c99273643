import { beforeEach, describe, expect, it, vi } from "vitest";
import { triesFrom } from "../../../server/check/keptTry";
import { ENTRY } from "../../../server/history";
import { CLOSE } from "../../../server/sync/closeCode";
import { type Explanation, explanationWords, MISTAKE_CODES, type MistakeCode } from "../../../shared/check/mistakes";
import type { PartId } from "../../../shared/circuit";
import { type RoomRequest, type TryHelp, writeRequest } from "../../../shared/messages";
import type { PageClient } from "../support/pageClient";
import { joinRaw } from "../support/rawClient";
import { INSTRUCTOR_KEY } from "../support/testServer";
import { TryRooms } from "../support/tryRooms";
import { until } from "../support/until";

vi.setConfig({ testTimeout: 60_000, hookTimeout: 120_000 });

// The demo board: Iy is 60 mA of V1, −20 mA of I1 and −15 mA of V2, 25 mA in all. So 40 mA is what I1 gives with V1 left
// on, −60 mA is V1's value with its sign turned, and 65 mA is the total with I1 turned: its addend's sign, or the source.

const rooms = new TryRooms({ tryRate: { burst: 20, perSecond: 0 }, helpRate: { burst: 10, perSecond: 0 } });
let hart: PageClient;
let ann: PageClient;
beforeEach(() => {
  ({ hart, ann } = rooms);
});

const meant = (card: string, count = 1) => ({ wanted: "Iy", card, count });
const DONE = { outcome: "done" };

/** What a page knows of the help at a card, once it has so many rungs. */
async function helpAt(page: PageClient, card: string, rungs: number): Promise<TryHelp> {
  const find = () => page.tries.find((each) => each.card === card)?.help;
  await until(`${rungs} rungs at ${card}`, () => find()?.rungs.length === rungs);
  return find() as TryHelp;
}

const words = (code: MistakeCode, ...parts: string[]) =>
  explanationWords({ mistakes: [{ code, parts: parts as PartId[], node: null }], addend: null } satisfies Explanation);

describe("a wrong value that a mistake explains", () => {
  it("is told as not right, and nothing of the mistake, its rungs or the answer goes out before it is asked for", async () => {
    const ben = await rooms.join({ name: "Ben" });
    const start = [ann, hart, ben].map((page) => page.frames.length);
    expect(await ann.tryValue("Iy", "I1", "40 mA")).toEqual({ outcome: "wrong", diagnosis: null });
    await until("everybody is told", () => [ann, hart, ben].every((page) => page.tries.length === 1));
    const { where, principle, fix, deed } = words("sourceLeftOn", "V1");
    const told = () => [ann, hart, ben].map((page, i) => page.sentSince(start[i] as number)).join("\n");
    const isSilentOn = (...texts: string[]) => texts.filter((text) => told().includes(text));
    expect(isSilentOn(where, principle, fix, deed)).toEqual([]);

    await rooms.ask(ann, "I1", 0);
    for (const page of [ann, hart, ben]) expect((await helpAt(page, "I1", 1)).rungs[0]?.text).toBe(where);
    expect(isSilentOn(principle, fix, deed)).toEqual([]);
    await rooms.ask(ben, "I1", 1);
    for (const page of [ann, hart, ben]) expect((await helpAt(page, "I1", 2)).rungs[1]?.text).toBe(principle);
    expect(isSilentOn(fix, deed)).toEqual([]);
    await rooms.ask(ann, "I1", 2);
    for (const page of [ann, hart, ben]) {
      expect((await helpAt(page, "I1", 3)).rungs[2]).toEqual({ text: fix, parts: ["V1"], nodes: [] });
    }
    expect(
      isSilentOn(deed, '"answer"', "explanation", "mistakes", ...MISTAKE_CODES.map((code) => `"${code}"`)),
    ).toEqual([]);
    // What the answer is, as the key has it and as people write it.
    expect([ann, ben].map((page, i) => page.sentSince(start[i * 2] as number)).join("\n")).not.toMatch(
      /1\/50|20 mA|−20|-20/,
    );
  });

  it("has no count of rungs in what is sent: only whether there is more", async () => {
    await ann.tryValue("Iy", "I1", "40 mA");
    await rooms.ask(ann, "I1", 0);
    const help = await helpAt(ann, "I1", 1);
    expect(Object.keys(help).sort()).toEqual(["hasMore", "question", "reason", "rungs"]);
    expect(help.hasMore).toBe(true);
  });

  it("asks for a reason at the end, which instructors alone are sent", async () => {
    const ben = await rooms.join({ name: "Ben" });
    await ann.tryValue("Iy", "V1", "-60 mA");
    for (const given of [0, 1, 2]) expect(await rooms.ask(ann, "V1", given)).toEqual(DONE);
    expect((await helpAt(ann, "V1", 3)).reason).toEqual({ state: "asked" });
    const start = [ann, ben].map((page) => page.frames.length);
    const reason = "I took the arrow\n the other way";
    expect(await ann.replyTo({ do: "giveReason", ...meant("V1"), text: reason })).toEqual(DONE);
    const text = "I took the arrow the other way";
    const reasonAt = (page: PageClient) => page.tries[0]?.help?.reason;
    await until("the instructor reads it", () => reasonAt(hart)?.state === "given");
    expect(reasonAt(hart)).toEqual({ state: "given", name: "Ann", text });
    await until("Ben hears of it", () => reasonAt(ben)?.state === "given");
    expect([ann, ben].filter((page, i) => page.sentSince(start[i] as number).includes("arrow"))).toEqual([]);
    expect(await rooms.entriesOf(ENTRY.reason)).toMatchObject([
      { did: "giveReason", wanted: "Iy", card: "V1", count: 1, participant: ann.you.id, name: "Ann", text },
    ]);
    // Whoever becomes an instructor may read it, too.
    const late = await rooms.join({ name: "Dr. Lee", key: INSTRUCTOR_KEY });
    await until("she reads it", () => reasonAt(late)?.state === "given");
    expect(reasonAt(late)).toMatchObject({ text });
  });

  it("puts the question first where two mistakes lead to it", async () => {
    await ann.tryValue("Iy", "total", "65 mA");
    await rooms.ask(ann, "total", 0);
    await until("the question is put", () => ann.tries[0]?.help?.question != null);
    const question = ann.tries[0]?.help?.question;
    expect(question?.deeds).toEqual([
      "take the addend of I1 with the other sign",
      "take I1 with its polarity turned round",
    ]);
    expect(await hart.replyTo({ do: "answerQuestion", ...meant("total"), choice: 1 })).toEqual(DONE);
    expect((await helpAt(ann, "total", 1)).rungs[0]?.text).toBe(words("polarityTurned", "I1").where);
    expect(await rooms.entriesOf(ENTRY.question)).toMatchObject([
      { did: "putQuestion", name: "Ann", text: question?.text },
      { did: "answerQuestion", name: "Prof. Hart", choice: 1, explanation: { mistakes: [{ code: "polarityTurned" }] } },
    ]);
    expect(await rooms.entriesOf(ENTRY.help)).toMatchObject([
      { did: "giveRung", rung: "where", card: "total", explanation: { mistakes: [{ code: "polarityTurned" }] } },
    ]);
  });

  it("begins afresh with another mistake, and keeps its rungs with the same one", async () => {
    await ann.tryValue("Iy", "V1", "-60 mA");
    await rooms.ask(ann, "V1", 0);
    await helpAt(ann, "V1", 1);
    await ann.tryValue("Iy", "V1", "-0.06 A");
    await until("the second try is told", () => ann.tries[0]?.count === 2);
    expect(ann.tries[0]?.help?.rungs).toHaveLength(1);
    await ann.tryValue("Iy", "V1", "60 A");
    await until("the third try is told", () => ann.tries[0]?.count === 3);
    expect(ann.tries[0]?.help).toMatchObject({ rungs: [], hasMore: true });
  });

  it("is kept with its help in the history and in snapshots", async () => {
    await ann.tryValue("Iy", "V1", "-60 mA");
    for (const given of [0, 1, 2]) await rooms.ask(ann, "V1", given);
    await ann.replyTo({ do: "giveReason", ...meant("V1"), text: "the arrow" });
    const stored = await rooms.server.store.load(rooms.name);
    const fromEntries = triesFrom(stored);
    expect(fromEntries).toMatchObject([{ card: "V1", help: { given: 3, reason: { text: "the arrow" } } }]);
    expect(triesFrom({ snapshot: await rooms.snapshot(), entries: [] })).toEqual(fromEntries);
  });
});

describe("requests about tries are refused", () => {
  const refused = (why: string) => ({ outcome: "refused", why });

  it("for observers, and in a room that has ended", async () => {
    await ann.tryValue("Iy", "V1", "-60 mA");
    const olga = await rooms.join({ name: "Olga", as: "observer" });
    expect(await rooms.ask(olga, "V1", 0)).toEqual(refused("isObserver"));
    hart.ask({ do: "end" });
    await until("the room has ended", () => ann.state?.isEnded === true);
    expect(await rooms.ask(ann, "V1", 0)).toEqual(refused("ended"));
    expect(await ann.replyTo({ do: "giveReason", ...meant("V1"), text: "x" })).toEqual(refused("ended"));
    expect(await rooms.entriesOf(ENTRY.help)).toEqual([]);
  });

  it("for cards without a try, other tries than the newest, and values that nothing explains", async () => {
    expect(await rooms.ask(ann, "V1", 0)).toEqual(refused("olderTry"));
    await ann.tryValue("Iy", "I1", "-80 mA");
    expect(await rooms.ask(ann, "I1", 0)).toEqual(refused("noHelp"));
    await ann.tryValue("Iy", "V1", "-60 mA");
    expect(await rooms.ask(ann, "V1", 0, 2)).toEqual(refused("olderTry"));
    expect(await rooms.ask(ann, "__proto__", 0)).toEqual(refused("olderTry"));
    expect(await ann.replyTo({ do: "giveReason", ...meant("V1"), text: "x" })).toEqual(refused("noHelp"));
  });

  it("for a try whose answer is another by now", async () => {
    await ann.tryValue("Iy", "V1", "-60 mA");
    await rooms.setValue("V1", "30 V");
    await until("it is outdated", () => ann.tries[0]?.isOutdated === true);
    expect(await rooms.ask(ann, "V1", 0)).toEqual(refused("outdated"));
  });

  it("beyond a rate, for each participant, over all of their connections", async () => {
    await ann.tryValue("Iy", "V1", "-60 mA");
    for (let i = 0; i < 10; i++) expect(await rooms.ask(ann, "V1", 0)).toEqual(DONE);
    expect(await rooms.ask(ann, "V1", 1)).toEqual(refused("helpTooFast"));
    ann.provider.disconnect();
    ann.provider.connect();
    await until("she is back", () => ann.provider.synced);
    expect(await rooms.ask(ann, "V1", 1)).toEqual(refused("helpTooFast"));
    expect(await rooms.ask(hart, "V1", 1)).toEqual(DONE);
  });

  it.each([
    ["a rung of one's own choosing", { do: "askHelp", given: 0, rung: "fix" }],
    ["fewer rungs than none", { do: "askHelp", given: -1 }],
    ["no try", { do: "askHelp", given: 0, count: 0 }],
    ["a third way", { do: "answerQuestion", choice: 2 }],
    ["a reason that is too long", { do: "giveReason", text: "x".repeat(201) }],
    ["a reason without a letter", { do: "giveReason", text: " \n " }],
    ["another's reason", { do: "giveReason", text: "x", participant: "ben" }],
  ])("with the connection where they have %s", async (_, fields) => {
    const { closedAfter } = await joinRaw(rooms.server.url, `${rooms.name}?answers=1`, ann.cookie);
    const closed = await closedAfter(writeRequest({ id: 1, ...meant("V1"), ...fields } as unknown as RoomRequest));
    expect(closed.code).toBe(CLOSE.badMessage);
    expect(closed.reason).toMatch(/of the request|^The request/);
  });
});
