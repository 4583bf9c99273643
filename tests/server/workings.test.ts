import { afterAll, afterEach, describe, expect, it, vi } from "vitest";
import type { WebSocket } from "ws";
import * as Y from "yjs";
import { demoBoard } from "../../server/demoRoom";
import { type Solver, SolverPool } from "../../server/solver";
import { applyCommand, readBoard } from "../../shared/board";
import {
  MESSAGE_ANSWERS,
  MESSAGE_WORKINGS,
  type RoomAction,
  TOTAL_CARD,
  type WorkingCard,
  type Workings,
} from "../../shared/messages";
import { INSTRUCTOR, joinPage, type PageClient } from "./support/pageClient";
import { joinStock } from "./support/stockClient";
import { IdleSolver, lasting, startTestServer, type TestServer } from "./support/testServer";
import { until } from "./support/until";

vi.setConfig({ testTimeout: 60_000 });

const ROOM = "algebra";
const RULES = { slice: 250, budget: 10_000 };

let server: TestServer;
const pages: PageClient[] = [];

afterEach(async () => {
  for (const page of pages.splice(0)) page.leave();
  await server.stop();
});

/** The solver of all tests but those that say otherwise: its threads are slow to start. */
const pool = new SolverPool({ rules: RULES, log: { warn: () => {} }, lanes: 1 });
afterAll(() => pool.close());

async function startSolving(solver: Solver = lasting(pool)): Promise<void> {
  server = await startTestServer({ solver });
}

async function join(asked: Parameters<typeof joinPage>[2] = {}): Promise<PageClient> {
  const page = await joinPage(server.url, ROOM, asked);
  pages.push(page);
  return page;
}

/** An instructor in a room with the demo board, who has its workings. */
async function drawnRoom(...before: readonly RoomAction[]): Promise<PageClient> {
  const hart = await join(INSTRUCTOR);
  for (const action of before) hart.ask(action);
  Y.applyUpdate(hart.doc, demoBoard());
  await until("the instructor has answers", () => (hart.answers.at(-1)?.report?.wanted.length ?? 0) > 0);
  await until("the instructor has workings", () => (newest(hart)?.workings.length ?? 0) > 0);
  return hart;
}

const newest = (page: PageClient): Workings | undefined => page.workings.at(-1);
const cardsOf = (page: PageClient): readonly WorkingCard[] => newest(page)?.workings[0]?.cards ?? [];
const linesOf = (page: PageClient, card: string): number =>
  cardsOf(page).find((each) => each.card === card)?.derivation.lines.length ?? -1;
const wantedOf = (page: PageClient): string => newest(page)?.workings[0]?.wanted ?? "";
const typesOf = (page: PageClient): (number | undefined)[] => page.frames.map(([type]) => type);

/** Asks for lines of the first wanted quantity, and waits until the instructor is told that they are shown. */
async function show(hart: PageClient, card: string, lines: number | "all"): Promise<void> {
  const own = () => cardsOf(hart).find((each) => each.card === card);
  const count = own()?.lineCount ?? 0;
  const target = lines === "all" ? count : Math.min(lines, count);
  hart.ask({ do: "showLines", wanted: wantedOf(hart), card, lines });
  await until(`${target} lines of ${card} are shown`, () => own()?.shownLines === target);
}

describe("in a new room", () => {
  it("an instructor is sent every line, and nobody else any", async () => {
    await startSolving();
    const hart = await drawnRoom();
    const [ann, olga] = [await join({ name: "Ann" }), await join({ name: "Olga", as: "observer" })];
    await until("both have workings", () => [ann, olga].every((page) => newest(page)?.workings.length === 1));
    expect(cardsOf(hart).map(({ card }) => card)).toHaveLength(4);
    for (const { derivation, lineCount, shownLines } of cardsOf(hart)) {
      expect([derivation.lines.length, shownLines]).toEqual([lineCount, 0]);
      expect(lineCount).toBeGreaterThan(0);
    }
    expect(newest(hart)?.workings[0]?.secondMethods).toHaveLength(3);
    expect(newest(hart)?.powerTable?.rows.length).toBeGreaterThan(0);
    for (const page of [ann, olga]) {
      expect(newest(page)).toMatchObject({ revision: newest(hart)?.revision, powerTable: null, failure: null });
      expect(newest(page)?.workings[0]?.secondMethods).toBeNull();
      for (const { derivation, shownLines, lineCount } of cardsOf(page)) {
        expect([derivation.lines, derivation.sketches, derivation.result, shownLines, lineCount]).toEqual([
          [],
          [],
          null,
          0,
          null,
        ]);
      }
      expect(page.state?.lines).toEqual({ shown: false, except: [] });
    }
  });
});

describe("lines that an instructor shows", () => {
  it("come to two learners in step, and to a late one the same", async () => {
    await startSolving();
    const hart = await drawnRoom();
    const [ann, ben] = [await join({ name: "Ann" }), await join({ name: "Ben" })];
    const [first, second] = cardsOf(hart).map(({ card }) => card) as [string, string];
    for (const [card, lines] of [
      [first, 1],
      [first, 2],
      [second, "all"],
      [TOTAL_CARD, "all"],
    ] as const) {
      await show(hart, card, lines);
      const count = cardsOf(hart).find((each) => each.card === card)?.shownLines;
      await until(`both have ${count} lines of ${card}`, () =>
        [ann, ben].every((page) => linesOf(page, card) === count),
      );
      expect(newest(ann)).toEqual(newest(ben));
    }
    expect(newest(ann)?.workings[0]?.secondMethods).toEqual(newest(hart)?.workings[0]?.secondMethods);
    expect(newest(ann)?.powerTable).toEqual(newest(hart)?.powerTable);
    expect(ann.state?.lines.except).toEqual([
      { wanted: wantedOf(hart), card: first, lines: 2 },
      { wanted: wantedOf(hart), card: second, lines: "all" },
      { wanted: wantedOf(hart), card: TOTAL_CARD, lines: "all" },
    ]);
    const late = await join({ name: "Late" });
    await until("the late one has workings", () => newest(late) !== undefined);
    expect(newest(late)).toEqual(newest(ann));
    expect(late.workings).toHaveLength(1);
    await show(hart, first, 0);
    await until("they are gone", () => [ann, ben, late].every((page) => linesOf(page, first) === 0));
  });

  it("stay shown as the board changes, with the numbers of the new one", async () => {
    await startSolving();
    const hart = await drawnRoom({ do: "showAllLines", shown: true });
    const ann = await join({ name: "Ann" });
    await until("ann has workings", () => newest(ann)?.workings.length === 1);
    const source = readBoard(ann.doc).parts.find(({ kind }) => kind === "voltage-source");
    if (!source) throw new Error("the demo board has a voltage source");
    const before = newest(ann);
    applyCommand(ann.doc, { do: "setValue", id: source.id, value: "7 V" }, { source: "local" });
    await until("ann has new workings", () => (newest(ann)?.revision ?? 0) > (before?.revision ?? 0));
    expect(JSON.stringify(newest(ann))).toContain("7 V");
    const all = cardsOf(ann).map(({ card }) => [card, linesOf(ann, card)]);
    await until("hart has them", () => newest(hart)?.revision === newest(ann)?.revision);
    expect(all).toEqual(cardsOf(hart).map(({ card, lineCount }) => [card, lineCount]));
  });

  it("can't be asked for by a learner or an observer, by whatever request", async () => {
    await startSolving();
    const hart = await drawnRoom();
    const [ann, olga] = [await join({ name: "Ann" }), await join({ name: "Olga", as: "observer" })];
    const card = cardsOf(hart)[0]?.card ?? "";
    const forged: readonly RoomAction[] = [
      { do: "showLines", wanted: wantedOf(hart), card, lines: 1 },
      { do: "showLines", wanted: wantedOf(hart), card: TOTAL_CARD, lines: "all" },
      { do: "showAllLines", shown: true },
    ];
    for (const page of [ann, olga]) {
      for (const action of forged) expect(await page.refusalOf(action)).toMatchObject({ why: "notAllowed" });
    }
    expect(hart.state?.lines).toEqual({ shown: false, except: [] });
    expect(linesOf(ann, card)).toBeLessThanOrEqual(0);
  });

  it("are counted in whole numbers, of cards with names: anything else ends its sender's connection", async () => {
    await startSolving();
    const bad = [
      { do: "showLines", wanted: "Iy", card: "V1", lines: -1 },
      { do: "showLines", wanted: "Iy", card: "V1", lines: 1.5 },
      { do: "showLines", wanted: "Iy", card: "V1", lines: "every" },
      { do: "showLines", wanted: "Iy", card: "V1", lines: 1, reveals: ["V1"] },
      { do: "showLines", wanted: "", card: "V1", lines: 1 },
      { do: "showLines", wanted: "Iy".repeat(200), card: "V1", lines: 1 },
      { do: "showAllLines" },
    ];
    for (const action of bad) {
      const hart = await join(INSTRUCTOR);
      hart.ask(action as unknown as RoomAction);
      await until("the connection is ended", () => hart.closed !== 0);
      expect(hart.closed).toBe(4400);
    }
  });
});

describe("hidden answers", () => {
  /** Whether any frame that a page was sent has the text in it, in UTF-8. */
  const wasSent = (page: PageClient, text: string) => page.frames.some((frame) => Buffer.from(frame).includes(text));

  it("are in no byte of what learners are sent while lines up to them are shown, and come with the line that tells them", async () => {
    await startSolving();
    const hart = await drawnRoom({ do: "setAnswers", shown: false });
    const ann = await join({ name: "Ann" });
    const report = hart.answers.at(-1)?.report;
    const addends = report?.wanted[0]?.addends ?? [];
    const total = report?.wanted[0]?.total;
    expect(addends).toHaveLength(3);
    // Up to the line that first has the answer, if with the other sign.
    const before = addends.map(({ sources, value }) => {
      const card = sources.join("+");
      const lines = cardsOf(hart).find((each) => each.card === card)?.derivation.lines ?? [];
      const isIt = (exact: string | undefined | null) => exact?.replace("-", "") === value?.exact?.replace("-", "");
      return { card, lines: lines.findIndex(({ equations }) => equations.some(({ result }) => isIt(result?.exact))) };
    });
    for (const { card, lines } of before) await show(hart, card, lines);
    await until("ann has them", () => before.every(({ card, lines }) => linesOf(ann, card) === lines));
    expect(
      await hart.refusalOf({ do: "showLines", wanted: wantedOf(hart), card: TOTAL_CARD, lines: "all" }),
    ).toMatchObject({
      why: "addendsHidden",
    });
    const board = JSON.stringify(readBoard(hart.doc));
    const secrets = [...addends.map(({ value }) => value), total].flatMap((value) => [
      value?.text ?? "",
      `"${value?.exact}"`,
    ]);
    for (const secret of secrets) {
      expect(board).not.toContain(secret);
      expect([secret, wasSent(ann, secret), wasSent(hart, secret)]).toEqual([secret, false, true]);
    }
    const [first] = before;
    if (!first) throw new Error("there is an addend");
    await show(hart, first.card, first.lines + 1);
    await until("ann has the line", () => linesOf(ann, first.card) === first.lines + 1);
    expect(ann.state?.answers).toEqual({ shown: false, except: [first.card] });
    expect(ann.answers.at(-1)?.report?.hidden).toEqual([...before.slice(1).map(({ card }) => card), "total"]);
    expect(wasSent(ann, addends[0]?.value?.text ?? "")).toBe(true);
    expect(wasSent(ann, `"${total?.exact}"`)).toBe(false);
  });

  it("are shown once with lines that were asked for while these were still being worked out, unless hidden since", async () => {
    const held: (() => void)[] = [];
    await startSolving({ ...lasting(pool), derive: (job) => held.push(() => pool.derive(job)) });
    const [hart, ann] = [await join(INSTRUCTOR), await join({ name: "Ann" })];
    hart.ask({ do: "setAnswers", shown: false });
    Y.applyUpdate(hart.doc, demoBoard());
    await until("the lines are asked for", () => held.length > 0);
    for (const card of ["V1", "I1", "V2"]) hart.ask({ do: "showLines", wanted: "Iy", card, lines: "all" });
    hart.ask({ do: "showLines", wanted: "Iy", card: "V2", lines: 0 });
    hart.ask({ do: "setShown", card: "I1", shown: false });
    hart.ask({ do: "showLines", wanted: "Iy", card: "V1", lines: "all" });
    await until("all is told", () => ann.state?.lines.except.length === 2);
    for (const derive of held) derive();
    await until("ann has the lines of V1", () => linesOf(ann, "V1") > 0 && newest(hart)?.workings.length === 1);
    const countOf = (card: string) => cardsOf(hart).find((each) => each.card === card)?.lineCount ?? Number.NaN;
    await until("the last one, too", () => linesOf(ann, "V1") === countOf("V1"));
    expect(ann.state?.answers).toEqual({ shown: false, except: ["V1"] });
    expect(linesOf(ann, "I1")).toBeLessThan(countOf("I1"));
    expect(linesOf(ann, "V2")).toBe(0);
  });

  it("take their lines with them when they are hidden again", async () => {
    await startSolving();
    const hart = await drawnRoom({ do: "showAllLines", shown: true });
    const ann = await join({ name: "Ann" });
    await until("ann has all", () => linesOf(ann, TOTAL_CARD) > 0);
    const { card, lineCount } = cardsOf(hart)[0] ?? { card: "", lineCount: 0 };
    hart.ask({ do: "setShown", card, shown: false });
    await until("the line that tells it is gone", () => linesOf(ann, card) === (lineCount ?? 0) - 1);
    expect(linesOf(ann, TOTAL_CARD)).toBe(0);
    expect([newest(ann)?.workings[0]?.secondMethods, newest(ann)?.powerTable]).toEqual([null, null]);
  });
});

describe("deriving", () => {
  const FOREVER = new URL("./solver/timedDerivation.ts", import.meta.url);

  it("that takes forever keeps no answer waiting, and says at its end why there are no lines", async () => {
    const log = { warn: () => {} };
    await startSolving(new SolverPool({ rules: { slice: 250, budget: 3000 }, log, lanes: 1, derivation: FOREVER }));
    const hart = await join(INSTRUCTOR);
    Y.applyUpdate(hart.doc, demoBoard());
    await until("there are answers", () => hart.answers.at(-1)?.report != null);
    const source = readBoard(hart.doc).parts.find(({ kind }) => kind === "voltage-source");
    if (!source) throw new Error("the demo board has a voltage source");
    for (let volts = 1; volts <= 5; volts++) {
      const before = hart.answers.at(-1)?.revision ?? 0;
      applyCommand(hart.doc, { do: "setValue", id: source.id, value: `${volts} V` }, { source: "local" });
      await until(`answers to ${volts} V`, () => (hart.answers.at(-1)?.revision ?? 0) > before);
      const addends = hart.answers.at(-1)?.report?.wanted[0]?.addends;
      expect(addends?.find(({ sources }) => sources.includes(source.name))?.coefficient?.sourceValue).toBe(
        `${volts} V`,
      );
    }
    await until("it is told", () => newest(hart)?.failure != null);
    expect(newest(hart)).toMatchObject({
      workings: [],
      powerTable: null,
      failure: { code: "overBudget", milliseconds: 3000 },
    });
  });

  it("comes behind the answers, so that a page has these first", async () => {
    await startSolving();
    const hart = await drawnRoom();
    const types = typesOf(hart);
    expect(types.lastIndexOf(MESSAGE_WORKINGS)).toBeGreaterThan(types.lastIndexOf(MESSAGE_ANSWERS));
  });

  const report = { wanted: [{ total: {}, addends: [] }], partials: [], sources: [] } as never;
  const none = { workings: [], powerTable: null, cards: [], whole: "", failure: null };
  /** Draws something, and gives the number of the change once it is to be solved. */
  const drawn = async (hart: PageClient, solver: IdleSolver, text: string): Promise<number> => {
    const before = solver.jobs.length;
    hart.board.set("note", text);
    await until("the change is to be solved", () => solver.jobs.length > before);
    return solver.jobs.at(-1)?.take().revision ?? 0;
  };

  it("is asked for once a board, whoever comes, and sends nothing where nothing in it is new", async () => {
    const solver = new IdleSolver();
    await startSolving(solver);
    const hart = await join(INSTRUCTOR);
    const answer = async (revision: number) => {
      const before = solver.derivations.length;
      solver.jobs.at(-1)?.deliver({ revision, report, boardProblems: [], failure: null });
      await until("lines are asked for", () => solver.derivations.length === before + 1);
    };
    const derive = (revision: number, digest: string) => {
      solver.derivations.at(-1)?.deliver({ ...none, revision, digest });
    };
    await answer(0);
    await join({ name: "Ann" });
    await join({ name: "Ben" });
    expect(solver.derivations).toHaveLength(1);
    derive(0, "same");
    await until("hart has them", () => hart.workings.length === 1);
    const second = await drawn(hart, solver, "second");
    await answer(second);
    derive(second, "same");
    const third = await drawn(hart, solver, "third");
    await answer(third);
    derive(third, "other");
    await until("hart has the others", () => newest(hart)?.revision === third);
    expect(hart.workings.map(({ revision }) => revision)).toEqual([0, third]);
  });

  it("is not asked for a board that has been changed since, nor are older lines sent after newer ones", async () => {
    const solver = new IdleSolver();
    await startSolving(solver);
    const hart = await join(INSTRUCTOR);
    const [first] = solver.jobs;
    const revision = await drawn(hart, solver, "second");
    first?.deliver({ revision: 0, report, boardProblems: [], failure: null });
    await until("hart has the old answers", () => hart.answers.length === 1);
    expect(solver.derivations).toEqual([]);
    solver.jobs.at(-1)?.deliver({ revision, report, boardProblems: [], failure: null });
    await until("lines are asked for", () => solver.derivations.length === 1);
    solver.derivations[0]?.deliver({ ...none, revision, digest: "new" });
    solver.derivations[0]?.deliver({ ...none, revision: 0, digest: "old" });
    hart.ask({ do: "showAllLines", shown: true });
    await until("they are sent again", () => hart.workings.length === 2);
    expect(hart.workings.map((each) => each.revision)).toEqual([revision, revision]);
  });

  it("a slow client misses lines that newer ones have replaced, and is sent the newest", async () => {
    const solver = new IdleSolver();
    await startSolving(solver);
    const hart = await join(INSTRUCTOR);
    solver.jobs.at(-1)?.deliver({ revision: 0, report, boardProblems: [], failure: null });
    await until("lines are asked for", () => solver.derivations.length === 1);
    const socket = hart.provider.ws as unknown as WebSocket;
    socket.pause();
    // The system's own buffers take several MB before anything waits in the server.
    const last = 60;
    for (let turn = 1; turn <= last; turn++) {
      const working = { wanted: `I${turn}`, kind: "current", unit: "A".repeat(500_000), cards: [], secondMethods: [] };
      solver.derivations[0]?.deliver({ ...none, revision: 0, digest: `${turn}`, workings: [working] });
    }
    socket.resume();
    await until("hart has the newest", () => wantedOf(hart) === `I${last}`);
    expect(hart.workings.length).toBeLessThan(last);
  });

  it("costs nothing in a room where nobody asks for answers", async () => {
    const solver = new IdleSolver();
    server = await startTestServer({ solver });
    const ann = await joinStock(server.url, ROOM);
    ann.board.set("R1", "1k");
    const ben = await joinStock(server.url, ROOM);
    await until("the change has arrived", () => ben.board.size === 1);
    expect([solver.jobs, solver.derivations]).toEqual([[], []]);
    for (const client of [ann, ben]) client.leave();
  });

  it("gives no lines for a board without anything wanted, and takes those of an earlier one away", async () => {
    await startSolving();
    const hart = await drawnRoom();
    const board = readBoard(hart.doc);
    for (const { id } of board.wanted) applyCommand(hart.doc, { do: "clearWanted", id }, { source: "local" });
    await until("there are none", () => newest(hart)?.workings.length === 0);
    expect(newest(hart)).toMatchObject({ powerTable: null, failure: null });
  });
});
