import { beforeEach, describe, expect, it, vi } from "vitest";
import { triesFrom } from "../../../server/check/keptTry";
import { ENTRY } from "../../../server/history";
import { CLOSE } from "../../../server/sync/closeCode";
import { type RoomRequest, type Trying, writeRequest } from "../../../shared/messages";
import type { PageClient } from "../support/pageClient";
import { joinRaw } from "../support/rawClient";
import { INSTRUCTOR_KEY } from "../support/testServer";
import { TryRooms } from "../support/tryRooms";
import { until } from "../support/until";

vi.setConfig({ testTimeout: 60_000, hookTimeout: 120_000 });

// The demo board: Iy is 60 mA of V1, −20 mA of I1 and −15 mA of V2, 25 mA in all.

const rooms = new TryRooms({ tryRate: { burst: 20, perSecond: 0 }, helpRate: { burst: 10, perSecond: 0 } });
let hart: PageClient;
let ann: PageClient;
beforeEach(() => {
  ({ hart, ann } = rooms);
});

async function setTrying(part: Partial<Trying>): Promise<void> {
  hart.ask({ do: "setTrying", trying: part });
  const isTold = () => Object.entries(part).every(([key, value]) => ann.state?.trying[key as keyof Trying] === value);
  await until("the setting is told", isTold);
}

const handIn = (page: PageClient) => page.replyTo({ do: "handIn", wanted: "Iy" });
const outcomes = (page: PageClient) =>
  Object.fromEntries(page.tries.map(({ card, judgement }) => [card, judgement.outcome]));
const DONE = { outcome: "done" };
const ENTERED = { outcome: "entered" };

describe("how tries are judged", () => {
  it("is a setting that everybody is told, three figures with their unit at once to begin with", async () => {
    expect(ann.state?.trying).toEqual({ figures: 3, units: "demanded", judging: "atOnce", zeroing: "drawn" });
    await setTrying({ figures: 2 });
    const late = await rooms.join({ name: "Lea" });
    expect(late.state?.trying.figures).toBe(2);
    expect(await rooms.entriesOf(ENTRY.settings)).toContainEqual({
      do: "setTrying",
      trying: { figures: 2 },
    });
  });

  it("counts as many significant figures as are asked for", async () => {
    // V1 at 15.01 V gives 60.04 mA: the same to three figures, another to four.
    await rooms.setValue("V1", "15.01 V");
    expect(await ann.tryValue("Iy", "V1", "60 mA")).toEqual({ outcome: "right" });
    await setTrying({ figures: 4 });
    const coarse = { code: "tooCoarse", figures: 3, wanted: 4 };
    expect(await ann.tryValue("Iy", "V1", "60 mA")).toEqual({ outcome: "wrong", diagnosis: coarse });
    await setTrying({ figures: "all" });
    expect(await ann.tryValue("Iy", "V1", "60.04 mA")).toEqual({ outcome: "right" });
    expect(await ann.tryValue("Iy", "V1", "60.0400001 mA")).toMatchObject({ outcome: "wrong" });
    await setTrying({ figures: 2 });
    expect(await ann.tryValue("Iy", "V1", "60.4 mA")).toEqual({ outcome: "right" });
  });

  it("demands units or takes a bare number in the unit asked for", async () => {
    expect(await ann.tryValue("Iy", "V1", "0.06")).toMatchObject({ diagnosis: { code: "unitMissing" } });
    await setTrying({ units: "assumed" });
    expect(await ann.tryValue("Iy", "V1", "0.06")).toEqual({ outcome: "right" });
    expect(await ann.tryValue("Iy", "V1", "0.06 V")).toMatchObject({ diagnosis: { code: "otherUnit" } });
  });

  it("changes in one thing and stays in the others, whoever set those meanwhile", async () => {
    const lee = await rooms.join({ name: "Dr. Lee", key: INSTRUCTOR_KEY });
    hart.ask({ do: "setTrying", trying: { figures: 2 } });
    lee.ask({ do: "setTrying", trying: { units: "assumed" } });
    const expected = JSON.stringify({ figures: 2, units: "assumed", judging: "atOnce", zeroing: "drawn" });
    await until("both are told", () => JSON.stringify(ann.state?.trying) === expected);
  });

  it("is set by an instructor alone", async () => {
    const trying: Trying = { figures: 2, units: "assumed", judging: "whenHandedIn", zeroing: "drawn" };
    expect(await ann.refusalOf({ do: "setTrying", trying })).toMatchObject({ why: "notAllowed" });
    expect(hart.state?.trying.figures).toBe(3);
  });

  it.each([
    ["one figure", { figures: 1 }],
    ["half a figure", { figures: 2.5 }],
    ["no choice of units", { units: "maybe" }],
    ["a setting that there is not", { key: 1 }],
  ])("is refused with the connection where it has %s", async (_, fields) => {
    const { closedAfter } = await joinRaw(rooms.server.url, `${rooms.name}?answers=1`, hart.cookie);
    const trying = { figures: 3, units: "demanded", judging: "atOnce", zeroing: "drawn", ...fields };
    const closed = await closedAfter(writeRequest({ id: 1, do: "setTrying", trying } as unknown as RoomRequest));
    expect(closed.code).toBe(CLOSE.badMessage);
    expect(closed.reason).toMatch(/"trying/);
  });
});

describe("values that are judged when they are handed in", () => {
  beforeEach(() => setTrying({ judging: "whenHandedIn" }));

  it("are kept and shown as entered, without a word of whether they are right", async () => {
    const start = [ann.frames.length, hart.frames.length] as const;
    expect(await ann.tryValue("Iy", "V1", "60 mA")).toEqual(ENTERED);
    expect(await ann.tryValue("Iy", "I1", "20 mA")).toEqual(ENTERED);
    await until("both are told", () => hart.tries.length === 2);
    expect(hart.tries).toMatchObject([
      { card: "V1", text: "60 mA", name: "Ann", judgement: ENTERED, help: null, count: 0 },
      { card: "I1", text: "20 mA", judgement: ENTERED, help: null, count: 0 },
    ]);
    const frames = [...ann.frames.slice(start[0]), ...hart.frames.slice(start[1])];
    const told = frames.map((frame) => new TextDecoder().decode(frame)).filter((text) => text.includes('"tries"'));
    expect(told.filter((text) => /"right"|"wrong"|diagnosis/.test(text))).toEqual([]);
    expect(await rooms.ask(ann, "I1", 0, 1)).toEqual({ outcome: "refused", why: "olderTry" });
  });

  it("are all judged at once when anybody of the group hands them in, and can be changed until then", async () => {
    const ben = await rooms.join({ name: "Ben" });
    await ann.tryValue("Iy", "V1", "61 mA");
    await ben.tryValue("Iy", "I1", "20 mA");
    await ann.tryValue("Iy", "V1", "60 mA");
    expect(await handIn(ben)).toEqual(DONE);
    expect(outcomes(ben)).toEqual({ V1: "right", I1: "wrong" });
    expect(ben.tries.find(({ card }) => card === "V1")).toMatchObject({ text: "60 mA", name: "Ann", count: 1 });
    expect(await rooms.ask(ann, "I1", 0)).toEqual(DONE);
    // What is entered afterwards waits again, with the rungs so far to be read.
    expect(await ann.tryValue("Iy", "I1", "-20 mA")).toEqual(ENTERED);
    await until("it is told", () => outcomes(ann).I1 === "entered");
    expect(ann.tries.find(({ card }) => card === "I1")?.help).toMatchObject({ hasMore: false, rungs: [{}] });
    expect(await handIn(ann)).toEqual(DONE);
    expect(outcomes(ann)).toEqual({ V1: "right", I1: "right" });
    expect(ann.tries.find(({ card }) => card === "I1")?.count).toBe(2);
  });

  it("are told at once what can't be read in them, and no more", async () => {
    expect(await ann.tryValue("Iy", "V1", "5 mA + 3 V")).toMatchObject({ outcome: "unread" });
    expect(await ann.tryValue("Iy", "V1", "0.06")).toEqual(ENTERED);
    expect(await handIn(ann)).toEqual(DONE);
    expect(ann.tries).toMatchObject([{ judgement: { diagnosis: { code: "unitMissing" } } }]);
  });

  it("are judged by the circuit as it is when they are handed in", async () => {
    await ann.tryValue("Iy", "V1", "120 mA");
    await rooms.setValue("V1", "30 V");
    await until("it was entered for another circuit", () => ann.tries[0]?.isOutdated === true);
    expect(await handIn(ann)).toEqual(DONE);
    expect(ann.tries).toMatchObject([{ judgement: { outcome: "right" }, isOutdated: false }]);
  });

  it("are judged when the instructor has each judged at once again", async () => {
    await ann.tryValue("Iy", "V1", "60 mA");
    await ann.tryValue("Iy", "total", "26 mA");
    await setTrying({ judging: "atOnce", zeroing: "drawn" });
    await until("both are judged", () => !Object.values(outcomes(ann)).includes("entered"));
    expect(outcomes(ann)).toEqual({ V1: "right", total: "wrong" });
  });

  it("stay entered over a reload of the room, and in its snapshot", async () => {
    await ann.tryValue("Iy", "V1", "60 mA");
    const stored = await rooms.server.store.load(rooms.name);
    expect(triesFrom(stored)).toMatchObject([{ card: "V1", judgement: ENTERED, count: 0 }]);
  });

  it("are handed in by nobody who only looks, nor after the end, nor where there is nothing", async () => {
    const olga = await rooms.join({ name: "Olga", as: "observer" });
    expect(await handIn(olga)).toEqual({ outcome: "refused", why: "isObserver" });
    expect(await handIn(ann)).toEqual({ outcome: "refused", why: "nothingEntered" });
    await ann.tryValue("Iy", "V1", "60 mA");
    expect(await ann.replyTo({ do: "handIn", wanted: "Iz" })).toEqual({ outcome: "refused", why: "nothingEntered" });
    hart.ask({ do: "end" });
    await until("the room has ended", () => ann.state?.isEnded === true);
    expect(await handIn(ann)).toEqual({ outcome: "refused", why: "ended" });
    expect(outcomes(ann)).toEqual({ V1: "entered" });
  });

  it("are judged once, however many hand them in at the same moment", async () => {
    const ben = await rooms.join({ name: "Ben" });
    await ann.tryValue("Iy", "V1", "61 mA");
    await until("Ben sees it", () => ben.tries.length === 1);
    await Promise.all([handIn(ann), handIn(ben), handIn(hart)]);
    expect(ann.tries).toMatchObject([{ judgement: { outcome: "wrong" }, count: 1 }]);
    expect(await rooms.entriesOf(ENTRY.try)).toHaveLength(2);
  });
});
