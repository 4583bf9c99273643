import { afterAll, afterEach, beforeEach, expect, it, vi } from "vitest";
import { RoomReplay } from "../../../server/replay/roomReplay";
import { SolverPool } from "../../../server/solver";
import { applyCommand, LOCAL, readBoard } from "../../../shared/board";
import { isMeantStep, isMeantTry, type MeantTry, type TryAction, type TryHelp } from "../../../shared/messages";
import {
  afterEvent,
  BEGINNING,
  type LinkMade,
  type Moment,
  type Outdated,
  type ReplayAnswers,
  type ReplayHelp,
  readEvent,
} from "../../../shared/replay";
import { hasAnswers, TryRoom } from "../ownTries/tryRoom";
import type { PageClient } from "../support/pageClient";
import { lasting, startTestServer, type TestServer } from "../support/testServer";
import { until } from "../support/until";
import { type Asker, allEntries, checkpoint, manifest, send, solved } from "./support";

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const solver = new SolverPool({ rules: { slice: 250, budget: 10_000 }, log: console, lanes: 1 });
let server: TestServer;
let room: TryRoom;
let hart: PageClient;
let ann: PageClient;

beforeEach(async () => {
  const limits = { tryRate: { burst: 50, perSecond: 0 }, helpRate: { burst: 50, perSecond: 0 } };
  server = await startTestServer({ solver: lasting(solver), limits });
  ({ room, hart, ann } = await TryRoom.open(server, "room"));
  await until("there are answers", () => hasAnswers(ann) && hasAnswers(hart));
});
afterEach(async () => {
  room.close();
  await server.stop();
});
afterAll(() => solver.close());

const WRONG = { I1: "open", V2: "open" } as const;
const ofZeroing = (count: number) => ({ step: "zeroing", card: "V1", count }) as const;
const ofLine = { step: "line", card: "V1", count: 1 } as const;
const ofValue = { wanted: "Iy", card: "V1", count: 1 } as const;
const zeroed = (decisions: Record<string, "short" | "open">): TryAction => {
  return { do: "tryZeroing", card: "V1", decisions };
};

/** What a page has been told of tries and steps, as far as a replay has it too. */
function toldTo({ tries, steps }: PageClient) {
  return {
    tries: tries.map(({ wanted, card, text, count, judgement, isOutdated, help }) => {
      return { wanted, card, text, count, judgement, isOutdated, ...helpOf(help) };
    }),
    zeroings: steps.zeroings.map(({ card, count, decisions, outcome, isOutdated, help }) => {
      return { card, count, decisions, outcome, isOutdated, ...helpOf(help) };
    }),
    lines: steps.lines.map(({ card, count, text, told, isOutdated, help }) => {
      return { card, count, text, told, isOutdated, ...helpOf(help) };
    }),
  };
}

const helpOf = (help: TryHelp | null) => ({
  rungs: help?.rungs ?? [],
  question: help?.question ?? null,
  why: help?.reason.state === "given" ? help.reason.text : null,
});

/** The same of a moment of a replay. */
function toldThen({ tries, steps }: Moment, outdated: Outdated): ReturnType<typeof toldTo> {
  const thenHelp = (help: ReplayHelp | null, isOutdated: boolean) => {
    const last = help?.questions.at(-1);
    const question = last?.answer === null && !isOutdated ? { text: last.text, deeds: last.deeds } : null;
    return { rungs: help?.rungs ?? [], question, why: help?.reason?.text ?? null };
  };
  const ofSteps = steps.map((made) => ({ made, isOutdated: outdated.steps.some((each) => isMeantStep(each, made)) }));
  return {
    tries: tries.map((made) => {
      const { wanted, card, text, count, help } = made;
      const isMade = (each: MeantTry) => isMeantTry(each, made);
      const isOutdated = outdated.tries.some(isMade);
      const judgement = outdated.retold.find(isMade)?.judgement ?? made.judgement;
      return { wanted, card, text, count, judgement, isOutdated, ...thenHelp(help, isOutdated) };
    }),
    zeroings: ofSteps.flatMap(({ made, isOutdated }) => {
      if (made.step !== "zeroing") return [];
      const { card, count, decisions, outcome, help } = made;
      return { card, count, decisions, outcome, isOutdated, ...thenHelp(help, isOutdated) };
    }),
    lines: ofSteps.flatMap(({ made, isOutdated }) => {
      if (made.step !== "line") return [];
      const { card, count, text, told, help } = made;
      return { card, count, text, told, isOutdated, ...thenHelp(help, isOutdated) };
    }),
  };
}

function setValue(name: string, value: string): void {
  const id = readBoard(hart.doc).parts.find((each) => each.name === name)?.id;
  if (!id) throw new Error(`there is no ${name}`);
  applyCommand(hart.doc, { do: "setValue", id, value }, LOCAL);
}

/** What pages had been told at moments of the room. */
class Noted {
  readonly moments: { readonly at: number; readonly told: Map<PageClient, ReturnType<typeof toldTo>> }[] = [];

  async note(): Promise<void> {
    const at = await length(room.name);
    this.moments.push({ at, told: new Map([hart, ann].map((page) => [page, toldTo(page)])) });
  }

  /** Has somebody ask, and waits until both know what came of it. */
  async ask(action: TryAction, by = ann): Promise<void> {
    await by.replyTo(action);
    const said = (page: PageClient) =>
      JSON.stringify(toldTo(page), (key, value) => (key === "why" ? undefined : value));
    await until("both are told", () => said(ann) === said(hart));
    await this.note();
  }

  async outdated(what: string, value: string, isSo: (told: ReturnType<typeof toldTo>) => boolean): Promise<void> {
    setValue("V1", value);
    await until(what, () => [ann, hart].every((page) => isSo(toldTo(page))));
    await this.note();
  }

  /** Holds what a replay has of each moment against that, as it comes and as it begins at a stored board. */
  async compare(): Promise<void> {
    const kept = new RoomReplay(room.name, server.store, false);
    await kept.follow();
    for (const [page, as] of [
      [hart, "instructor"],
      [ann, "member"],
    ] as const) {
      const events = (await allEntries(server, room.name, page)).map(readEvent);
      for (const { at, told } of this.moments) {
        const moment = events.slice(0, at).reduce(afterEvent, BEGINNING);
        const { outdated: then } = await solved<ReplayAnswers>(server, room.name, "answers", at, page);
        expect(toldThen(moment, then)).toEqual(told.get(page));
        expect(kept.momentAt(at, { as, participant: page.you.id })).toEqual(moment);
      }
    }
  }
}

/** How many entries a room has, once all are stored. */
async function length(name: string): Promise<number> {
  await server.rooms.loaded(name)?.stored();
  return (await server.store.heads(name, 0, 1e6)).length;
}

it("a replay has at each moment what everybody had been told of tries and steps: rungs, reasons and what is outdated", async () => {
  const noted = new Noted();
  const ask = (action: TryAction) => noted.ask(action);
  hart.ask({ do: "setTrying", trying: { zeroing: "asked" } });
  await until("zeroing is asked", () => ann.state?.trying.zeroing === "asked");
  await noted.note();
  await ask(zeroed(WRONG));
  for (const given of [0, 1, 2]) await ask({ do: "askStepHelp", ...ofZeroing(1), given });
  await ask({ do: "giveStepReason", ...ofZeroing(1), text: "I took 0 V for nothing" });
  await ask(zeroed({ ...WRONG, I1: "short" }));
  await ask(zeroed({ I1: "open", V2: "short" }));
  await ask({ do: "tryLine", card: "V1", text: "Iy = I_R4 - I_R5" });
  await ask({ do: "askStepHelp", ...ofLine, given: 0 });
  await ask({ do: "tryValue", wanted: "Iy", card: "V1", text: "-60 mA" });
  await ask({ do: "askHelp", ...ofValue, given: 0 });
  for (const [card, text] of [
    ["I1", "-20 mA"],
    ["V2", "-15 mA"],
    ["total", "-95 mA"],
  ] as const) {
    await ask({ do: "tryValue", wanted: "Iy", card, text });
  }
  await noted.outdated("the value is outdated", "30 V", ({ tries }) => tries.some((made) => made.isOutdated));
  await noted.outdated("it is not any more", "15 V", ({ tries }) => !tries.some((made) => made.isOutdated));
  await ask({ do: "tryValue", wanted: "Iy", card: "V1", text: "60 mA" });
  await noted.outdated("the zeroing is outdated too", "0 V", ({ zeroings }) =>
    zeroings.some((made) => made.isOutdated),
  );
  // Rungs were given, the total followed from a value that is not the newest, and something was out of date.
  const [before, last] = noted.moments.slice(-2).map(({ told }) => told.get(ann));
  const [total, v1] = before?.tries.slice(-2) ?? [];
  expect(total).toMatchObject({ card: "total", judgement: { outcome: "follows" }, isOutdated: false });
  expect(JSON.stringify(total)).toContain("Other values have been tried there since");
  expect(v1?.rungs.length).toBe(1);
  expect(last?.tries.at(-1)?.isOutdated).toBe(true);
  expect(last?.lines[0]?.isOutdated).toBe(true);

  await noted.compare();
  for (const page of [hart, ann]) {
    const moment = (await allEntries(server, room.name, page)).map(readEvent).reduce(afterEvent, BEGINNING);
    expect(moment.settings.trying.zeroing).toBe("asked");
  }
});

// With 65 mA for all sources the addend of I1 was taken with the other sign, or I1 with its polarity turned round.
const ofTotal = (count: number) => ({ wanted: "Iy", card: "total", count }) as const;
const DEEDS = ["take the addend of I1 with the other sign", "take I1 with its polarity turned round"];

/** What a replay's end says of the questions at the total, to somebody and in what was sent of them. */
async function questionsTo(asker: Asker) {
  const entries = await allEntries(server, room.name, asker);
  const { tries } = entries.map(readEvent).reduce(afterEvent, BEGINNING);
  const sent = entries.filter(({ kind }) => kind === "question").map(({ bytes }) => new TextDecoder().decode(bytes));
  return { questions: tries.find(({ card }) => card === "total")?.help?.questions, sent: sent.join("\n") };
}

it("a replay has the question that stood at a card, until it was answered, as everybody had been told", async () => {
  const noted = new Noted();
  const stands = ({ tries }: ReturnType<typeof toldTo>) => tries.some(({ question }) => question !== null);
  await noted.ask({ do: "tryValue", wanted: "Iy", card: "total", text: "65 mA" });
  await noted.ask({ do: "askHelp", ...ofTotal(1), given: 0 });
  expect(noted.moments.at(-1)?.told.get(ann)?.tries[0]?.question?.deeds).toEqual(DEEDS);
  await noted.outdated("the question is gone with the circuit", "30 V", (told) => !stands(told));
  await noted.outdated("it stands again", "15 V", stands);
  await noted.ask({ do: "answerQuestion", ...ofTotal(1), choice: 1 }, hart);
  expect(noted.moments.at(-1)?.told.get(ann)?.tries[0]).toMatchObject({ question: null, rungs: [{}] });
  await noted.ask({ do: "tryValue", wanted: "Iy", card: "total", text: "25 mA" });
  await noted.compare();
});

it("a replay has what is known by comparing where it was neither, as everybody had been told", async () => {
  const noted = new Noted();
  await noted.ask({ do: "tryValue", wanted: "Iy", card: "total", text: "65 mA" });
  await noted.ask({ do: "askHelp", ...ofTotal(1), given: 0 });
  await noted.ask({ do: "answerQuestion", ...ofTotal(1), choice: "neither" });
  const before = noted.moments.map(({ told }) => told.get(ann)?.tries[0]?.judgement);
  expect(before[1]).toEqual({ outcome: "wrong", diagnosis: null });
  expect(before[2]).toMatchObject({ outcome: "wrong", diagnosis: {} });
  await noted.compare();
});

it("what was answered is for instructors and whoever answered; others know that it was, and nobody gets a mistake or a key", async () => {
  const ben = await room.join({ name: "Ben" });
  await ann.replyTo({ do: "tryValue", wanted: "Iy", card: "total", text: "65 mA" });
  await ann.replyTo({ do: "askHelp", ...ofTotal(1), given: 0 });
  await ann.replyTo({ do: "answerQuestion", ...ofTotal(1), choice: 1 });
  await server.rooms.loaded(room.name)?.stored();
  const made = await send(server, "POST", `${room.name}/replay/links`, hart, { until: null });
  const guest = { link: (made.body as LinkMade).secret, you: null };
  const { participants } = await manifest(server, room.name, hart);
  const participant = participants.find(({ name }) => name === "Ann")?.number;
  const kept = new RoomReplay(room.name, server.store, false);
  await kept.follow();
  for (const [page, as, said] of [
    [hart, "instructor", { deed: DEEDS[1] }],
    [ann, "member", { deed: DEEDS[1] }],
    [ben, "member", null],
    [guest, "link", null],
  ] as const) {
    const { questions, sent } = await questionsTo(page);
    expect(questions).toEqual([expect.objectContaining({ deeds: DEEDS, answer: { participant, said } })]);
    expect(sent).not.toMatch(/explanation|between|mistakes|polarityTurned|addendSignTurned|answer"|choice/);
    const { tries } = kept.momentAt(kept.length, { as, participant: page.you?.id ?? null });
    expect(tries[0]?.help?.questions).toEqual(questions);
  }
});

it("the replay of somebody's own try knows from its beginning whether zeroing was asked, and when that changed", async () => {
  hart.ask({ do: "setTrying", trying: { zeroing: "asked" } });
  await until("zeroing is asked", () => ann.state?.trying.zeroing === "asked");
  const { name, own } = await room.tryOf(ann);
  await until("there are answers", () => hasAnswers(own));
  await own.replyTo(zeroed(WRONG));
  const asked = async (at: number) => {
    const events = (await allEntries(server, name, ann)).map(readEvent);
    return events.slice(0, at).reduce(afterEvent, BEGINNING).settings.trying.zeroing;
  };
  const then = await length(name);
  const board = (await server.store.heads(name, 0, 1e6)).find(({ kind }) => kind === "update")?.sequence ?? 0;
  expect([await asked(board), await asked(then)]).toEqual(["asked", "asked"]);
  hart.ask({ do: "setTrying", trying: { zeroing: "drawn" } });
  await until("it is drawn", () => own.state?.trying.zeroing === "drawn");
  expect([await asked(then), await asked(await length(name))]).toEqual(["asked", "drawn"]);
  expect((await checkpoint(server, name, 0, ann)).moment.steps).toEqual([]);
});
