import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from "vitest";
import { ENTRY, type MemoryHistory } from "../../../server/history";
import { SolverPool } from "../../../server/solver";
import { applyCommand, type Command, readBoard, readInk } from "../../../shared/board";
import type { PageClient } from "../support/pageClient";
import { startTestServer, type TestServer } from "../support/testServer";
import { until } from "../support/until";
import { hasAnswers, shownValues, TryRoom } from "./tryRoom";

vi.setConfig({ testTimeout: 60_000, hookTimeout: 120_000 });

// Threads take long to start, so one server serves all tests, each in a room of its own.

let server: TestServer;
let room: TryRoom;
let rooms = 0;
let hart: PageClient;
let ann: PageClient;

beforeAll(async () => {
  const solver = new SolverPool({ rules: { slice: 250, budget: 10_000 }, log: { warn: () => {} } });
  server = await startTestServer({ solver, limits: { tryRate: { burst: 5, perSecond: 0 } } });
  await openRoom();
  // The thread that judges starts with the first try.
  void ann.tryValue("Iy", "V1", "1 A").catch(() => {});
  await until("the first try is judged", () => ann.replies.size > 0, 60_000);
  room.close();
});
afterAll(() => server.stop());
beforeEach(openRoom);
afterEach(() => room.close());

async function openRoom(): Promise<void> {
  ({ room, hart, ann } = await TryRoom.open(server, `room${++rooms}`));
}

const NOTE = { do: "placeNote", id: "n1", colour: "ink", card: [], at: { x: 0, y: 0 }, text: "here" };
const command = (page: PageClient, done: object) => applyCommand(page.doc, done as Command, { source: "local" });
const board = (page: PageClient) => readBoard(page.doc);
const textOf = (page: PageClient, name: string) => {
  const part = board(page).parts.find((each) => each.name === name);
  return part && "value" in part ? part.value : null;
};
const setValue = (page: PageClient, name: string, value: string) => {
  const id = board(page).parts.find((each) => each.name === name)?.id;
  command(page, { do: "setValue", id, value });
};
const entriesOf = (name: string) => (server.store as MemoryHistory).entries.filter((entry) => entry.room === name);

async function openTry(): Promise<{ name: string; own: PageClient }> {
  const opened = await room.tryOf(ann);
  await until("the try has answers", () => hasAnswers(opened.own), 60_000);
  return opened;
}

const isHere = (page: PageClient, who: PageClient) =>
  page.state?.participants.some((each) => each.id === who.you.id && each.isHere) === true;

const HIDDEN = { V1: null, I1: null, V2: null, total: null };

describe("a learner's own try", () => {
  it("begins with the board that the room has then, without its ink", async () => {
    command(hart, NOTE);
    await until("ann has the note", () => readInk(ann.doc).marks.length === 1);
    const { own } = await openTry();
    expect(board(own)).toEqual(board(ann));
    expect(readInk(own.doc).marks).toEqual([]);
    expect(own.state?.tryOf).toEqual({ room: room.name, owner: ann.you.id, ownerName: "Ann" });
  });

  it("is apart from the room: what is drawn and tried in either is not seen in the other", async () => {
    const { own } = await openTry();
    setValue(own, "R1", "999");
    setValue(hart, "R2", "888");
    await own.tryValue("Iy", "I1", "19 mA");
    await until("ann has hart's change", () => textOf(ann, "R2") === "888");
    expect([textOf(ann, "R1"), textOf(own, "R2")]).not.toContain("888");
    expect(textOf(ann, "R1")).not.toBe("999");
    expect([ann.tries, hart.tries]).toEqual([[], []]);
    expect(own.tries).toHaveLength(1);
  });

  it("is always the same one, also where it is opened many times at once", async () => {
    const answers = await Promise.all(Array.from({ length: 8 }, () => room.ask(ann.cookie)));
    expect(new Set(answers.map(({ body }) => body.room)).size).toBe(1);
    const { own, name } = await room.tryOf(ann);
    setValue(own, "R1", "999");
    expect((await room.ask(ann.cookie)).body.room).toBe(name);
    const again = await room.enter(name, ann);
    await until("what was drawn is there", () => textOf(again, "R1") === "999");
    expect(entriesOf(name).filter(({ kind }) => kind === ENTRY.begin)).toHaveLength(1);
  });

  it("is known to its instructor with its board and tries, who may draw and try in it as well", async () => {
    const { own, name } = await openTry();
    await own.tryValue("Iy", "I1", "20 mA");
    const seen = await room.enter(name, hart);
    await until("hart has the try", () => seen.tries.length === 1);
    expect(board(seen)).toEqual(board(own));
    expect(seen.tries).toMatchObject([{ card: "I1", text: "20 mA", name: "Ann" }]);
    setValue(seen, "R1", "777");
    await until("ann sees it", () => textOf(own, "R1") === "777");
    await until("ann sees hart", () => isHere(own, hart));
    expect(own.state?.participants.map(({ name: who }) => who)).toEqual(["Prof. Hart", "Ann"]);
  });

  it("has the whole of what happened in its history: who came, from which board it began, what was hidden", async () => {
    const { name } = await openTry();
    const entries = entriesOf(name).map(({ kind, participant, bytes }) => ({
      kind,
      participant,
      said: kind === ENTRY.update ? null : JSON.parse(new TextDecoder().decode(bytes)),
    }));
    const [, , , ...others] = entries;
    const { revision } = JSON.parse(new TextDecoder().decode(entriesOf(name)[1]?.bytes));
    expect(revision).toBe(entriesOf(room.name).findLast(({ kind }) => kind === ENTRY.update)?.sequence);
    expect(entries.slice(0, 3)).toEqual([
      { kind: ENTRY.reveal, participant: ann.you.id, said: { do: "setAnswers", shown: false } },
      { kind: ENTRY.begin, participant: ann.you.id, said: { room: room.name, revision } },
      { kind: ENTRY.update, participant: ann.you.id, said: null },
    ]);
    const admitted = { do: "admit", participant: ann.you.id, name: "Ann", role: "learner" };
    expect(others.slice(0, 2)).toEqual([
      { kind: ENTRY.settings, participant: ann.you.id, said: admitted },
      { kind: ENTRY.join, participant: ann.you.id, said: { name: "Ann", role: "learner" } },
    ]);
  });

  it("calls its owner by the name that they have in the room now", async () => {
    const { own } = await openTry();
    ann.ask({ do: "renameParticipant", participant: ann.you.id, name: "Annie" });
    await until("the try says so", () => own.state?.tryOf?.ownerName === "Annie");
    expect(own.state?.you.name).toBe("Annie");
  });
});

describe("answers in a learner's own try", () => {
  it("are hidden from them though the room shows all, until they enter the right one: then that one alone is sent", async () => {
    const { own } = await openTry();
    expect(shownValues(ann)).toEqual({ V1: "60 mA", I1: "−20 mA", V2: "−15 mA", total: "25 mA" });
    expect(shownValues(own)).toEqual(HIDDEN);
    expect(await own.tryValue("Iy", "I1", "20 mA")).toMatchObject({ outcome: "wrong" });
    expect(shownValues(own)).toEqual(HIDDEN);
    expect(await own.tryValue("Iy", "I1", "-20 mA")).toEqual({ outcome: "right" });
    await until("I1's value is there", () => shownValues(own).I1 !== null);
    expect(shownValues(own)).toEqual({ ...HIDDEN, I1: "−20 mA" });
    // What the same source gives to all else is not told with it.
    expect(own.answers.at(-1)?.report).toMatchObject({ partials: [], nodes: [], parts: [], powerBalance: null });
    expect(own.answers.at(-1)?.report?.hidden).toEqual(["V1", "I1", "V2", "total"]);
  });

  it("are not told by the frames of the try before they are found or shown", async () => {
    const { own, name } = await openTry();
    await own.tryValue("Iy", "V1", "61 mA");
    await own.tryValue("Iy", "total", "24 mA");
    // The exact amperes, and the values as they are written.
    const tells = ({ frames }: PageClient) =>
      frames.some((frame) => /3\/50|1\/50|3\/200|1\/40|60 mA|20 mA|15 mA|25 mA/.test(new TextDecoder().decode(frame)));
    const seen = await room.enter(name, hart);
    await until("hart is told", () => tells(seen));
    expect(tells(own)).toBe(false);
    const cards = own.workings.flatMap(({ workings }) => workings.flatMap((working) => working.cards));
    expect(cards.filter(({ shownLines }) => shownLines > 0)).toEqual([]);
  });

  it("of one quantity are not told by the right value of another at the same card", async () => {
    const { own } = await openTry();
    // The voltage across V1 itself is its own value while it acts alone.
    const v1 = board(own).parts.find(({ name }) => name === "V1");
    if (v1?.shape !== "line") throw new Error("V1 is drawn on a line");
    const across = { by: "part", part: v1.id, direction: "forward" };
    command(own, { do: "setWanted", id: "w9", name: "Vs", mark: { kind: "voltage", across } });
    await until("both are asked", () => own.answers.at(-1)?.report?.wanted.length === 2);
    expect(await own.tryValue("Vs", "V1", "15 V")).toEqual({ outcome: "right" });
    const values = () => own.answers.at(-1)?.report?.wanted.map(({ name, addends }) => [name, addends[0]?.value?.text]);
    await until("that one is there", () => values()?.some(([, text]) => text === "15 V") === true);
    expect(values()).toEqual(expect.arrayContaining([["Iy", undefined]]));
  });

  it("are hidden again while the board has another one than the one that was found", async () => {
    const { own } = await openTry();
    await own.tryValue("Iy", "V1", "60 mA");
    await until("it is there", () => shownValues(own).V1 === "60 mA");
    setValue(own, "V1", "30 V");
    await until("it is hidden", () => shownValues(own).V1 === null && own.tries[0]?.isOutdated === true);
    expect(own.answers.at(-1)?.report?.wanted[0]?.addends[0]?.value).toBeNull();
    setValue(own, "V1", "15 V");
    await until("it is there again", () => shownValues(own).V1 === "60 mA");
  });

  it("can be shown by the instructor there, which shows nothing in the room", async () => {
    hart.ask({ do: "setAnswers", shown: false });
    await until("the room hides them", () => shownValues(ann).V1 === null);
    const { own, name } = await openTry();
    const seen = await room.enter(name, hart);
    await until("hart has all", () => shownValues(seen).total === "25 mA");
    seen.ask({ do: "setShown", card: "V2", shown: true });
    await until("ann has it in her try", () => shownValues(own).V2 === "−15 mA");
    expect(shownValues(ann)).toEqual(HIDDEN);
  });

  it("that the room begins to show do not show in the try", async () => {
    hart.ask({ do: "setAnswers", shown: false });
    const { own } = await openTry();
    hart.ask({ do: "showAllLines", shown: true });
    await until("the room shows them", () => shownValues(ann).total === "25 mA");
    setValue(own, "R1", "1k");
    await until("the try is solved anew", () => own.answers.length > 1);
    expect(shownValues(own)).toEqual(HIDDEN);
    expect(own.state?.lines).toEqual({ shown: false, except: [] });
  });
});

describe("how tries are judged", () => {
  it("is as the room has it set: what waits to be handed in shows no answer, and is judged when the room says so", async () => {
    const { own } = await openTry();
    const trying = { figures: 3, units: "assumed", judging: "whenHandedIn", zeroing: "drawn" } as const;
    hart.ask({ do: "setTrying", trying });
    await until("the try is told", () => own.state?.trying.judging === "whenHandedIn");
    expect(await own.tryValue("Iy", "V1", "60 mA")).toEqual({ outcome: "entered" });
    expect(await own.refusalOf({ do: "setTrying", trying })).toMatchObject({ why: "inTry" });
    expect(shownValues(own)).toEqual(HIDDEN);
    hart.ask({ do: "setTrying", trying: { ...trying, judging: "atOnce" } });
    await until("it is judged", () => shownValues(own).V1 === "60 mA");
    expect(own.tries).toMatchObject([{ card: "V1", judgement: { outcome: "right" }, count: 1 }]);
  });
});

describe("a participant's tries in the room and in their own try", () => {
  it("are bounded together", async () => {
    const { own } = await openTry();
    for (const [page, text] of [
      [ann, "1 mA"],
      [own, "2 mA"],
      [ann, "3 mA"],
      [own, "4 mA"],
      [own, "5 mA"],
    ] as const) {
      expect(await page.tryValue("Iy", "V1", text)).toMatchObject({ outcome: "wrong" });
    }
    for (const page of [ann, own]) {
      expect(await page.tryValue("Iy", "V1", "60 mA")).toEqual({ outcome: "refused", why: "tooFast" });
    }
  });
});

describe("beginning again", () => {
  it("puts the room's board of now in the place of all that the try had, as a change of its history", async () => {
    const { own, name } = await openTry();
    setValue(own, "R1", "999");
    command(own, {
      do: "placeWire",
      id: "w1",
      points: [
        { x: 40, y: 40 },
        { x: 44, y: 40 },
      ],
    });
    command(own, NOTE);
    setValue(hart, "R2", "888");
    await until("ann has hart's change", () => textOf(ann, "R2") === "888");
    own.ask({ do: "beginAgain" });
    await until("the room's board is there", () => textOf(own, "R2") === "888");
    expect(board(own)).toEqual(board(ann));
    expect(readInk(own.doc).marks).toEqual([]);
    expect(entriesOf(name).filter(({ kind }) => kind === ENTRY.begin)).toHaveLength(2);
    const late = await room.enter(name, ann);
    expect(board(late)).toEqual(board(ann));
  });

  it("is for its owner alone, and for no room that is not a try", async () => {
    const { name } = await openTry();
    const seen = await room.enter(name, hart);
    for (const page of [seen, hart, ann]) {
      expect(await page.refusalOf({ do: "beginAgain" })).toMatchObject({ why: "notOwner" });
    }
  });
});

describe("the list of a room's tries", () => {
  it("tells the instructor whose there are, how many cards are right, and when they were last changed", async () => {
    expect((await room.list(hart.cookie)).body).toEqual([]);
    const ben = await room.join({ name: "Ben" });
    const { own, name } = await openTry();
    const bens = await room.tryOf(ben);
    await own.tryValue("Iy", "V1", "60 mA");
    const before = Date.now();
    await own.tryValue("Iy", "I1", "-20 mA");
    const right = async () => (await room.list(hart.cookie)).body[0]?.progress?.right;
    await expect.poll(right, { timeout: 10_000 }).toBe(2);
    const listed = (await room.list(hart.cookie)).body;
    expect(listed.map(({ room: each, owner }) => [each, owner])).toEqual([
      [name, { id: ann.you.id, name: "Ann" }],
      [bens.name, { id: ben.you.id, name: "Ben" }],
    ]);
    expect(listed[0]?.progress).toMatchObject({ right: 2, cards: 4 });
    expect(listed[0]?.progress?.changedAt).toBeGreaterThanOrEqual(before);
  });
});
