import { beforeEach, describe, expect, it, vi } from "vitest";
import { stepsFrom } from "../../../server/check/steps/keptStep";
import { ENTRY } from "../../../server/history";
import { CLOSE } from "../../../server/sync/closeCode";
import { mistakeWords } from "../../../shared/check/mistakes";
import type { PartId } from "../../../shared/circuit";
import {
  type Decisions,
  type LineTry,
  type RoomRequest,
  type StepKind,
  type TryReply,
  USUAL_TRYING,
  writeRequest,
  type ZeroingTry,
} from "../../../shared/messages";
import type { PageClient } from "../support/pageClient";
import { joinRaw } from "../support/rawClient";
import { INSTRUCTOR_KEY } from "../support/testServer";
import { TryRooms } from "../support/tryRooms";
import { until } from "../support/until";

vi.setConfig({ testTimeout: 60_000, hookTimeout: 120_000 });

// The demo board: V1 and V2 are voltage sources, I1 is a current source. With V1 alone 60 mA flow through R3, of which
// R4 (30 Ω) takes 40 mA and R5 (60 Ω) 20 mA, and node b is at 20 Ω · 60 mA = 1.2 V.

const rooms = new TryRooms({ tryRate: { burst: 30, perSecond: 0 }, helpRate: { burst: 12, perSecond: 0 } });
let hart: PageClient;
let ann: PageClient;
beforeEach(() => {
  ({ hart, ann } = rooms);
});

const DONE = { outcome: "done" };
const refused = (why: string) => ({ outcome: "refused", why });
const V1_ALONE: Decisions = { I1: "open", V2: "short" };

async function askForZeroing(): Promise<void> {
  hart.ask({ do: "setTrying", trying: { ...USUAL_TRYING, zeroing: "asked" } });
  await until("zeroing is asked", () => ann.state?.trying.zeroing === "asked");
}

const zero = (page: PageClient, card: string, decisions: Decisions): Promise<TryReply> =>
  page.replyTo({ do: "tryZeroing", card, decisions });

const write = (page: PageClient, card: string, text: string): Promise<TryReply> =>
  page.replyTo({ do: "tryLine", card, text });

const askHelp = (page: PageClient, step: StepKind, card: string, given: number, count = 1): Promise<TryReply> =>
  page.replyTo({ do: "askStepHelp", step, card, count, given });

async function zeroingOf(page: PageClient, card: string, count = 1): Promise<ZeroingTry> {
  const find = () => page.steps.zeroings.find((each) => each.card === card && each.count === count);
  await until(`zeroing ${count} of ${card}`, () => find() !== undefined);
  return find() as ZeroingTry;
}

async function lineOf(page: PageClient, count: number, card = "V1"): Promise<LineTry> {
  const find = () => page.steps.lines.find((each) => each.card === card && each.count === count);
  await until(`line ${count} of ${card}`, () => find() !== undefined);
  return find() as LineTry;
}

describe("what the sources become", () => {
  beforeEach(askForZeroing);

  it("is right where the circuit is, and everybody is told of it", async () => {
    expect(await zero(ann, "V1", V1_ALONE)).toEqual(DONE);
    for (const page of [ann, hart]) {
      expect(await zeroingOf(page, "V1")).toMatchObject({
        decisions: V1_ALONE,
        outcome: "right",
        help: null,
        participant: ann.you.id,
        name: "Ann",
        isOutdated: false,
      });
    }
    const late = await rooms.join({ name: "Late" });
    expect(await zeroingOf(late, "V1")).toMatchObject({ outcome: "right" });
    expect(await rooms.entriesOf(ENTRY.try)).toMatchObject([
      { step: "zeroing", card: "V1", decisions: V1_ALONE, judgement: { outcome: "right" }, name: "Ann" },
    ]);
  });

  it("is judged by what the circuit becomes: a source of 0 V that is kept is a short", async () => {
    await rooms.setValue("V2", "0 V");
    await zero(ann, "V1", { I1: "open" });
    expect(await zeroingOf(ann, "V1")).toMatchObject({ outcome: "right" });
    // It is not one any more once the source gives something.
    await rooms.setValue("V2", "9 V");
    await until("it is outdated", () => ann.steps.zeroings[0]?.isOutdated === true);
  });

  it("is told as not right without a word of where, until rungs are asked for", async () => {
    const words = mistakeWords({ code: "voltageSourceOpened", parts: ["V2" as PartId], node: null });
    const start = [ann.frames.length, hart.frames.length] as const;
    await zero(ann, "V1", { I1: "open", V2: "open" });
    expect(await zeroingOf(ann, "V1")).toMatchObject({ outcome: "wrong", help: { rungs: [], hasMore: true } });
    await zeroingOf(hart, "V1");
    const told = () => ann.sentSince(start[0]) + hart.sentSince(start[1]);
    const isSilentOn = (...texts: string[]) => texts.filter((text) => told().includes(text));
    expect(isSilentOn(words.where, words.principle, words.fix, "voltageSourceOpened", '"answer"')).toEqual([]);
    expect(await askHelp(ann, "zeroing", "V1", 0)).toEqual(DONE);
    expect(isSilentOn(words.principle, words.fix)).toEqual([]);
    for (const given of [1, 2]) expect(await askHelp(hart, "zeroing", "V1", given)).toEqual(DONE);
    await until("all rungs are told", () => ann.steps.zeroings[0]?.help?.rungs.length === 3);
    const help = ann.steps.zeroings[0]?.help;
    expect(help?.rungs.map(({ text }) => text)).toEqual([words.where, words.principle, words.fix]);
    expect(help?.rungs[2]?.parts).toEqual(["V2"]);
    expect(help).toMatchObject({ hasMore: false, reason: { state: "asked" } });
    expect(await askHelp(ann, "zeroing", "V1", 3)).toEqual(refused("noHelp"));
  });

  it("keeps rungs with the same mistake, begins afresh with another, and leaves them to be read when it is right", async () => {
    await zero(ann, "V1", { I1: "open" });
    await askHelp(ann, "zeroing", "V1", 0);
    await zero(ann, "V1", { I1: "open", V1: "kept" });
    expect((await zeroingOf(ann, "V1", 2)).help?.rungs).toHaveLength(1);
    await zero(ann, "V1", { I1: "short", V2: "short" });
    expect((await zeroingOf(ann, "V1", 3)).help?.rungs).toHaveLength(0);
    await askHelp(ann, "zeroing", "V1", 0, 3);
    await zero(ann, "V1", V1_ALONE);
    expect(await zeroingOf(ann, "V1", 4)).toMatchObject({ outcome: "right", help: { hasMore: false } });
    expect((await zeroingOf(ann, "V1", 4)).help?.rungs).toHaveLength(1);
  });

  it("asks for a reason at the end, which instructors alone are sent", async () => {
    await zero(ann, "V1", { I1: "open", V2: "open" });
    for (const given of [0, 1, 2]) await askHelp(ann, "zeroing", "V1", given);
    const start = ann.frames.length;
    const reason = { do: "giveStepReason", step: "zeroing", card: "V1", count: 1 } as const;
    expect(await ann.replyTo({ ...reason, text: "took it\n for a battery" })).toEqual(DONE);
    const reasonAt = (page: PageClient) => page.steps.zeroings[0]?.help?.reason;
    await until("the instructor reads it", () => reasonAt(hart)?.state === "given");
    expect(reasonAt(hart)).toEqual({ state: "given", name: "Ann", text: "took it for a battery" });
    expect(reasonAt(ann)).toEqual({ state: "given", name: "Ann", text: null });
    expect(ann.sentSince(start)).not.toContain("battery");
    const late = await rooms.join({ name: "Dr. Lee", key: INSTRUCTOR_KEY });
    await until("she reads it", () => reasonAt(late)?.state === "given");
    expect(reasonAt(late)).toMatchObject({ text: "took it for a battery" });
  });

  it("is judged for groups of sources, and stands when a source gets another value", async () => {
    await zero(ann, "V2+V1", { I1: "open" });
    await until("it is told", () => ann.steps.zeroings.length > 0);
    expect(ann.steps.zeroings[0]).toMatchObject({ card: "V1+V2", outcome: "right" });
    await zero(ann, "V1", V1_ALONE);
    await rooms.setValue("V2", "12 V");
    await zero(ann, "I1", { V1: "short", V2: "short" });
    await zeroingOf(ann, "I1");
    // Another value leaves what it becomes as it is.
    expect((await zeroingOf(ann, "V1")).isOutdated).toBe(false);
  });

  it("is refused where it is not asked, for the total, for cards and sources that are not there, and for observers", async () => {
    expect(await zero(ann, "total", {})).toEqual(refused("unknownCard"));
    expect(await zero(ann, "V9", {})).toEqual(refused("unknownCard"));
    expect(await zero(ann, "R1", {})).toEqual(refused("unknownCard"));
    expect(await zero(ann, "V1", { R1: "short" })).toEqual(refused("noSource"));
    expect(await zero(ann, "V1", JSON.parse(`{"constructor": "short"}`))).toEqual(refused("noSource"));
    const olga = await rooms.join({ name: "Olga", as: "observer" });
    expect(await zero(olga, "V1", V1_ALONE)).toEqual(refused("isObserver"));
    hart.ask({ do: "setTrying", trying: USUAL_TRYING });
    await until("zeroing is drawn", () => ann.state?.trying.zeroing === "drawn");
    expect(await zero(ann, "V1", V1_ALONE)).toEqual(refused("zeroingNotAsked"));
    expect(ann.steps.zeroings).toEqual([]);
  });

  it("can be asked by an instructor alone", async () => {
    const why = await ann.refusalOf({ do: "setTrying", trying: USUAL_TRYING });
    expect(why).toMatchObject({ code: "requestRefused", why: "notAllowed" });
    expect(ann.state?.trying.zeroing).toBe("asked");
  });
});

describe("a line of one's own", () => {
  it.each([
    ["Iy = I_R4 + I_R5", { outcome: "true" }],
    ["V(b) / 20 Ω = 60 mA", { outcome: "true" }],
    ["Iy - Iy = 0", { outcome: "trueButEmpty", why: "identity" }],
    ["R1 = 50 Ω", { outcome: "trueButEmpty", why: "givens" }],
    ["Iy = 61 mA", { outcome: "false", diagnosis: { code: "unequal", larger: "right", signs: "same" } }],
    ["Iy = I_R4 - I_R5", { outcome: "false", diagnosis: null }],
  ])("%s is judged in its card's circuit and told to everybody", async (text, told) => {
    expect(await write(ann, "V1", text)).toEqual(DONE);
    for (const page of [ann, hart]) expect(await lineOf(page, 1)).toMatchObject({ text, told, name: "Ann" });
  });

  it("is true in one circuit and not in another", async () => {
    await write(ann, "V1", "Iy = 60 mA");
    await write(ann, "total", "Iy = 60 mA");
    expect((await lineOf(ann, 1)).told.outcome).toBe("true");
    expect((await lineOf(ann, 1, "total")).told.outcome).toBe("false");
  });

  it("that can't be read is told to whoever wrote it alone, with the place", async () => {
    expect(await write(ann, "V1", "Iy = ")).toMatchObject({ outcome: "unread", problem: { code: "sideMissing" } });
    expect(await write(ann, "V1", "Iy = 2 * nonsense")).toMatchObject({ outcome: "unread", at: 9 });
    expect(await write(ann, "V1", "60 mA")).toMatchObject({ outcome: "unread", problem: { code: "equalsMissing" } });
    expect(hart.steps.lines).toEqual([]);
    expect(await rooms.entriesOf(ENTRY.try)).toEqual([]);
  });

  it("with one sign at fault has rungs, of which the last alone names the term", async () => {
    const start = hart.frames.length;
    await write(ann, "V1", "Iy = I_R4 - I_R5");
    expect((await lineOf(hart, 1)).help).toEqual({
      rungs: [],
      hasMore: true,
      question: null,
      reason: { state: "notAsked" },
    });
    for (const given of [0, 1]) expect(await askHelp(ann, "line", "V1", given)).toEqual(DONE);
    expect(hart.sentSince(start)).not.toMatch(/termTurned|other sign before/);
    await askHelp(ann, "line", "V1", 2);
    await until("the fix is told", () => hart.steps.lines[0]?.help?.rungs.length === 3);
    const rungs = hart.steps.lines[0]?.help?.rungs;
    expect(rungs?.[2]?.text).toContain("other sign before I_R5");
    expect(rungs?.map(({ parts }) => parts)).toEqual([[], [], ["R5"]]);
    expect(await rooms.entriesOf(ENTRY.help)).toMatchObject([
      { did: "giveStepRung", step: "line", card: "V1", count: 1, rung: "where", name: "Ann" },
      { rung: "principle" },
      { rung: "fix" },
    ]);
  });

  it("stays in the list with the newest twenty of its card", async () => {
    for (let i = 1; i <= 22; i++) await write(ann, "V1", `Iy = ${i} mA`);
    await lineOf(ann, 22);
    expect(ann.steps.lines.map(({ count }) => count)).toEqual(Array.from({ length: 20 }, (_, i) => i + 3));
    expect(await askHelp(ann, "line", "V1", 0, 1)).toEqual(refused("olderTry"));
  });

  it("is outdated once the circuit is another", async () => {
    await write(ann, "V1", "Iy = 60 mA");
    await write(ann, "V1", "Iy = I_R4 - I_R5");
    await lineOf(ann, 2);
    await rooms.setValue("V1", "30 V");
    await until("it is outdated", () => ann.steps.lines[0]?.isOutdated === true);
    expect(await askHelp(ann, "line", "V1", 0, 2)).toEqual(refused("outdated"));
  });

  it("waits with the values where these are judged when they are handed in", async () => {
    hart.ask({ do: "setTrying", trying: { ...USUAL_TRYING, judging: "whenHandedIn" } });
    await until("values wait", () => ann.state?.trying.judging === "whenHandedIn");
    await write(ann, "V1", "Iy = 61 mA");
    expect((await lineOf(ann, 1)).told).toEqual({ outcome: "entered" });
    expect(await ann.replyTo({ do: "handIn", wanted: "Iy" })).toEqual(DONE);
    await until("it is judged", () => ann.steps.lines[0]?.told.outcome === "false");
    expect(await ann.replyTo({ do: "handIn", wanted: "Iy" })).toEqual(refused("nothingEntered"));
  });
});

describe("steps", () => {
  it("are counted with the tries of a participant, whatever their connections", async () => {
    for (let i = 0; i < 29; i++) expect(await write(ann, "V1", "R1 = 50 Ω")).toEqual(DONE);
    expect(await ann.tryValue("Iy", "V1", "1 A")).not.toEqual(refused("tooFast"));
    expect(await write(ann, "V1", "R1 = 50 Ω")).toEqual(refused("tooFast"));
    ann.provider.disconnect();
    ann.provider.connect();
    await until("she is back", () => ann.provider.synced);
    expect(await write(ann, "V1", "R1 = 50 Ω")).toEqual(refused("tooFast"));
    expect(await write(hart, "V1", "R1 = 50 Ω")).toEqual(DONE);
  });

  it("are kept with their help in the history and in snapshots", async () => {
    await askForZeroing();
    await zero(ann, "V1", { V2: "short" });
    await write(ann, "V1", "Iy = I_R4 - I_R5");
    for (const given of [0, 1, 2]) await askHelp(ann, "line", "V1", given);
    await ann.replyTo({ do: "giveStepReason", step: "line", card: "V1", count: 1, text: "the arrow" });
    const stored = await rooms.server.store.load(rooms.name);
    const fromEntries = stepsFrom(stored);
    expect(fromEntries).toMatchObject([
      { step: "zeroing", card: "V1", judgement: { outcome: "wrong" }, help: { given: 0 } },
      { step: "line", text: "Iy = I_R4 - I_R5", help: { given: 3, reason: { text: "the arrow" } } },
    ]);
    expect(stepsFrom({ snapshot: await rooms.snapshot(), entries: [] })).toEqual(fromEntries);
  });

  it("are refused in a room that has ended", async () => {
    hart.ask({ do: "end" });
    await until("the room has ended", () => ann.state?.isEnded === true);
    expect(await write(ann, "V1", "R1 = 50 Ω")).toEqual(refused("ended"));
  });

  it.each([
    ["no decisions", { do: "tryZeroing", card: "V1" }],
    ["a decision that there is not", { do: "tryZeroing", card: "V1", decisions: { V1: "gone" } }],
    ["a list of decisions", { do: "tryZeroing", card: "V1", decisions: ["short"] }],
    ["too many decisions", { do: "tryZeroing", card: "V1", decisions: manyDecisions() }],
    ["a line without a text", { do: "tryLine", card: "V1" }],
    ["an endless line", { do: "tryLine", card: "V1", text: "x".repeat(1001) }],
    ["a step of no kind", { do: "askStepHelp", step: "value", card: "V1", count: 1, given: 0 }],
    ["an empty reason", { do: "giveStepReason", step: "line", card: "V1", count: 1, text: " \n " }],
  ])("end the connection where the request has %s", async (_, action) => {
    const { closedAfter } = await joinRaw(rooms.server.url, `${rooms.name}?answers=1`, ann.cookie);
    const closed = await closedAfter(writeRequest({ id: 1, ...action } as unknown as RoomRequest));
    expect(closed.code).toBe(CLOSE.badMessage);
  });
});

function manyDecisions(): Decisions {
  return Object.fromEntries(Array.from({ length: 201 }, (_, i) => [`V${i}`, "short"]));
}
