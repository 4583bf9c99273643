import { afterAll, afterEach, beforeEach, expect, it, vi } from "vitest";
import { RoomReplay } from "../../../server/replay/roomReplay";
import { SolverPool } from "../../../server/solver";
import { applyCommand, LOCAL, readBoard } from "../../../shared/board";
import { isMeantStep, isSameCard, type MeantTry, type TryAction, type TryHelp } from "../../../shared/messages";
import {
  afterEvent,
  BEGINNING,
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
import { allEntries, checkpoint, solved } from "./support";

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
  why: help?.reason.state === "given" ? help.reason.text : null,
});

/** The same of a moment of a replay. */
function toldThen({ tries, steps }: Moment, outdated: Outdated): ReturnType<typeof toldTo> {
  const thenHelp = (help: ReplayHelp | null) => ({ rungs: help?.rungs ?? [], why: help?.reason?.text ?? null });
  const ofSteps = steps.map((made) => ({ made, isOutdated: outdated.steps.some((each) => isMeantStep(each, made)) }));
  return {
    tries: tries.map((made) => {
      const { wanted, card, text, count, help } = made;
      const isMade = (each: MeantTry) => isSameCard(each, made) && each.count === count;
      const isOutdated = outdated.tries.some(isMade);
      const judgement = outdated.retold.find(isMade)?.judgement ?? made.judgement;
      return { wanted, card, text, count, judgement, isOutdated, ...thenHelp(help) };
    }),
    zeroings: ofSteps.flatMap(({ made, isOutdated }) => {
      if (made.step !== "zeroing") return [];
      const { card, count, decisions, outcome, help } = made;
      return { card, count, decisions, outcome, isOutdated, ...thenHelp(help) };
    }),
    lines: ofSteps.flatMap(({ made, isOutdated }) => {
      if (made.step !== "line") return [];
      const { card, count, text, told, help } = made;
      return { card, count, text, told, isOutdated, ...thenHelp(help) };
    }),
  };
}

function setValue(name: string, value: string): void {
  const id = readBoard(hart.doc).parts.find((each) => each.name === name)?.id;
  if (!id) throw new Error(`there is no ${name}`);
  applyCommand(hart.doc, { do: "setValue", id, value }, LOCAL);
}

it("a replay has at each moment what everybody had been told of tries and steps: rungs, reasons and what is outdated", async () => {
  const noted: { readonly at: number; readonly told: Map<PageClient, ReturnType<typeof toldTo>> }[] = [];
  const note = async () => {
    await server.rooms.loaded(room.name)?.stored();
    const heads = await server.store.heads(room.name, 0, 1e6);
    noted.push({ at: heads.length, told: new Map([hart, ann].map((page) => [page, toldTo(page)])) });
  };
  /** Has Ann ask, and waits until both know what came of it. */
  const ask = async (action: TryAction) => {
    await ann.replyTo(action);
    const said = (page: PageClient) =>
      JSON.stringify(toldTo(page), (key, value) => (key === "why" ? undefined : value));
    await until("both are told", () => said(ann) === said(hart));
    await note();
  };
  const outdated = async (what: string, value: string, isSo: (told: ReturnType<typeof toldTo>) => boolean) => {
    setValue("V1", value);
    await until(what, () => [ann, hart].every((page) => isSo(toldTo(page))));
    await note();
  };
  hart.ask({ do: "setTrying", trying: { zeroing: "asked" } });
  await until("zeroing is asked", () => ann.state?.trying.zeroing === "asked");
  await note();
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
  await outdated("the value is outdated", "30 V", ({ tries }) => tries.some((made) => made.isOutdated));
  await outdated("it is not any more", "15 V", ({ tries }) => !tries.some((made) => made.isOutdated));
  await ask({ do: "tryValue", wanted: "Iy", card: "V1", text: "60 mA" });
  await outdated("the zeroing is outdated too", "0 V", ({ zeroings }) => zeroings.some((made) => made.isOutdated));
  // Rungs were given, the total followed from a value that is not the newest, and something was out of date.
  const [before, last] = noted.slice(-2).map(({ told }) => told.get(ann));
  const [total, v1] = before?.tries.slice(-2) ?? [];
  expect(total).toMatchObject({ card: "total", judgement: { outcome: "follows" }, isOutdated: false });
  expect(JSON.stringify(total)).toContain("Other values have been tried there since");
  expect(v1?.rungs.length).toBe(1);
  expect(last?.tries.at(-1)?.isOutdated).toBe(true);
  expect(last?.lines[0]?.isOutdated).toBe(true);

  const kept = new RoomReplay(room.name, server.store, false);
  await kept.follow();
  for (const [page, as] of [
    [hart, "instructor"],
    [ann, "member"],
  ] as const) {
    const events = (await allEntries(server, room.name, page)).map(readEvent);
    for (const { at, told } of noted) {
      const moment = events.slice(0, at).reduce(afterEvent, BEGINNING);
      const { outdated: then } = await solved<ReplayAnswers>(server, room.name, "answers", at, page);
      expect(toldThen(moment, then)).toEqual(told.get(page));
      // A replay that begins at a stored board has the same.
      expect(kept.momentAt(at, as)).toEqual(moment);
      expect(moment.settings.trying.zeroing).toBe("asked");
    }
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
  const length = async () => (await server.store.heads(name, 0, 1e6)).length;
  const then = await length();
  const board = (await server.store.heads(name, 0, 1e6)).find(({ kind }) => kind === "update")?.sequence ?? 0;
  expect([await asked(board), await asked(then)]).toEqual(["asked", "asked"]);
  hart.ask({ do: "setTrying", trying: { zeroing: "drawn" } });
  await until("it is drawn", () => own.state?.trying.zeroing === "drawn");
  await server.rooms.loaded(name)?.stored();
  expect([await asked(then), await asked(await length())]).toEqual(["asked", "drawn"]);
  expect((await checkpoint(server, name, 0, ann)).moment.steps).toEqual([]);
});
