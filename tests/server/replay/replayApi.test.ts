import { afterAll, afterEach, describe, expect, it } from "vitest";
import * as Y from "yjs";
import { demoBoard } from "../../../server/demoRoom";
import { SolverPool } from "../../../server/solver";
import { applyCommand, BoardReplay, LOCAL, readBoard } from "../../../shared/board";
import {
  afterEvent,
  type ReplayAnswers,
  type ReplayEntry,
  type ReplayWorkings,
  readEvent,
} from "../../../shared/replay";
import { INSTRUCTOR, joinPage, type PageClient } from "../support/pageClient";
import { IdleSolver, lasting, startTestServer, type TestServer, type TestServerOptions } from "../support/testServer";
import { until } from "../support/until";
import { allEntries, ask, checkpoint, manifest, solved, timeline, updatesOf } from "./support";

const ROOM = "algebra";
const solver = new SolverPool({ rules: { slice: 250, budget: 10_000 }, log: console, lanes: 1 });
let server: TestServer;
const pages: PageClient[] = [];

afterAll(() => solver.close());
afterEach(async () => {
  for (const page of pages.splice(0)) page.leave();
  await server.stop();
});

async function start(options: TestServerOptions = {}): Promise<void> {
  server = await startTestServer({ solver: lasting(solver), ...options });
}

async function join(asked: Parameters<typeof joinPage>[2]): Promise<PageClient> {
  const page = await joinPage(server.url, ROOM, asked);
  pages.push(page);
  return page;
}

const bodies = (entries: readonly ReplayEntry[]) =>
  entries.map(({ kind, bytes }) => (kind === "update" ? "" : new TextDecoder().decode(bytes))).join("\n");

/** Sequence of the last entry that the store has. */
const stored = async () => (await server.store.heads(ROOM, 0, 1e6)).length;
const text = (page: PageClient) => JSON.stringify(readBoard(page.doc));

describe("the replay of a room", () => {
  it("has every entry, from the first second on, and makes every moment of the board again", async () => {
    await start({ limits: { chunkEntries: 3 } });
    const hart = await join(INSTRUCTOR);
    const ann = await join({ name: "Ann" });
    const live = new Map<number, string>();
    Y.applyUpdate(hart.doc, demoBoard());
    await until("ann has the board", () => text(ann) === text(hart));
    live.set(await stored(), text(ann));
    for (const value of ["1k", "2k", "3k"]) {
      const [part] = readBoard(ann.doc).parts.filter(({ kind }) => kind === "resistor");
      if (part) applyCommand(ann.doc, { do: "setValue", id: part.id, value }, LOCAL);
      await until("hart has it", () => text(ann) === text(hart));
      live.set(await stored(), text(ann));
    }
    const { length, participants, from, to } = await manifest(server, ROOM, hart);
    const entries = await allEntries(server, ROOM, hart);
    expect(entries.map(({ sequence }) => sequence)).toEqual(Array.from({ length }, (_, index) => index + 1));
    expect([entries[0]?.time, entries.at(-1)?.time]).toEqual([from, to]);
    expect(participants.map(({ number, name, role }) => [number, name, role])).toEqual([
      [1, "Prof. Hart", "instructor"],
      [2, "Ann", "learner"],
    ]);
    const line = await timeline(server, ROOM, hart);
    expect([...(line?.participants ?? [])]).toEqual(entries.map(({ participant }) => participant));
    const replay = new BoardReplay();
    replay.addUpdates({ from: 1, to: length }, updatesOf(entries));
    expect(live.size).toBe(4);
    for (const [sequence, board] of live) expect(JSON.stringify(readBoard(replay.goTo(sequence)))).toBe(board);
  });

  it("goes on from a stored board to the same moment as from the beginning", async () => {
    await start();
    const hart = await join(INSTRUCTOR);
    const ann = await join({ name: "Ann" });
    // Snapshots are taken after a thousand entries at the latest.
    for (let index = 0; index < 1100; index++) hart.board.set(`k${index % 7}`, index);
    await until("ann has it", () => ann.board.get("k0") === 1099 || ann.board.get(`k${1099 % 7}`) === 1099);
    const { snapshots, length } = await manifest(server, ROOM, ann);
    expect(snapshots.length).toBe(1);
    const thin = await checkpoint(server, ROOM, length, ann);
    const whole = await checkpoint(server, ROOM, length, ann, snapshots[0]);
    expect([thin.isThin, whole.isThin, whole.moment]).toEqual([true, false, thin.moment]);
    // Of a thousand values seven are left.
    expect(thin.board.length).toBeLessThan(whole.board.length / 10);
    const { moment } = thin;
    expect(moment.sequence).toBe(snapshots[0]);
    expect(moment.here).toEqual([1, 2]);
    const rest = await allEntries(server, ROOM, ann);
    for (const { board, isThin } of [thin, whole]) {
      const replay = new BoardReplay();
      replay.addBoard(moment.sequence, board, isThin);
      replay.addUpdates({ from: moment.sequence + 1, to: length }, updatesOf(rest.slice(moment.sequence)));
      expect(replay.goTo(length).getMap("board").toJSON()).toEqual(ann.board.toJSON());
    }
    expect(moment).toEqual(
      rest
        .slice(0, moment.sequence)
        .map(readEvent)
        .reduce(afterEvent, (await checkpoint(server, ROOM, 0, ann)).moment),
    );
  });

  it("names nobody in its entries, tells no ids and no answer's key", async () => {
    await start();
    const hart = await join(INSTRUCTOR);
    const ann = await join({ name: "Ann Unmistakable" });
    Y.applyUpdate(hart.doc, demoBoard());
    await until("there are answers", () => ann.answers.at(-1)?.report != null);
    const wanted = ann.answers.at(-1)?.report?.wanted[0]?.name ?? "";
    expect((await ann.tryValue(wanted, "total", "123 A")).outcome).toBe("wrong");
    hart.ask({ do: "renameParticipant", participant: ann.you.id, name: "Anna Unmistakable" });
    hart.ask({ do: "setMayDraw", participant: ann.you.id, may: true });
    await until("it is told", () => hart.state?.participants.some(({ name }) => name === "Anna Unmistakable") === true);
    const entries = await allEntries(server, ROOM, hart);
    const all = bodies(entries);
    expect(entries.map(({ kind }) => kind)).toEqual(
      expect.arrayContaining(["try", "settings", "join", "update", "solved"]),
    );
    for (const secret of ["Unmistakable", ann.you.id, hart.you.id, '"answer"', '"key"'])
      expect(all).not.toContain(secret);
    const events = entries.map(readEvent);
    expect(events.filter(({ kind }) => kind === "other")).toEqual([]);
    const admitted = events.flatMap((event) =>
      event.kind === "setting" ? [[event.change.do, event.change.participant]] : [],
    );
    expect(admitted.slice(0, 2)).toEqual([
      ["admit", 1],
      ["admit", 2],
    ]);
  });

  it("calls a participant who asks not to be kept by name 'learner 2' in all of it, also what was before", async () => {
    await start();
    await join(INSTRUCTOR);
    const ann = await join({ name: "Ann" });
    const bob = await join({ name: "Bob Unmistakable" });
    const names = async () => (await manifest(server, ROOM, ann)).participants.map(({ name }) => name);
    expect(await names()).toEqual(["Prof. Hart", "Ann", "Bob Unmistakable"]);
    bob.ask({ do: "keepName", keep: false });
    await until("it is told", () => bob.state?.you.isNameKept === false);
    expect(await names()).toEqual(["Prof. Hart", "Ann", "learner 2"]);
    expect(bodies(await allEntries(server, ROOM, ann))).not.toContain("Unmistakable");
    bob.ask({ do: "keepName", keep: true });
    await until("it is told", () => bob.state?.you.isNameKept === true);
    expect(await names()).toEqual(["Prof. Hart", "Ann", "Bob Unmistakable"]);
  });
});

describe("answers and lines of a moment", () => {
  /** The first addend's value, and how many of its lines there are, as an asker is sent them. */
  async function sent(asker: PageClient, at: number): Promise<readonly [value: string | null, lines: number]> {
    const { answers } = await solved<ReplayAnswers>(server, ROOM, "answers", at, asker);
    const { workings } = await solved<ReplayWorkings>(server, ROOM, "workings", at, asker);
    const value = answers.report?.wanted[0]?.addends[0]?.value?.text ?? null;
    return [value, workings.workings[0]?.cards[0]?.derivation.lines.length ?? 0];
  }

  async function done(page: PageClient, isSo: () => boolean): Promise<number> {
    await until("it is told", isSo);
    expect(page.state).not.toBeNull();
    return stored();
  }

  it("are what learners saw then, to learners, and all of them to instructors", async () => {
    await start();
    const hart = await join(INSTRUCTOR);
    const ann = await join({ name: "Ann" });
    Y.applyUpdate(hart.doc, demoBoard());
    await until("there are answers", () => ann.answers.at(-1)?.report?.wanted[0]?.total != null);
    await until("there are lines", () => (hart.workings.at(-1)?.workings.length ?? 0) > 0);
    const shown = await stored();
    hart.ask({ do: "setAnswers", shown: false });
    const hidden = await done(ann, () => ann.state?.answers.shown === false);
    hart.ask({ do: "showAllLines", shown: true });
    const lined = await done(ann, () => ann.state?.lines.shown === true);
    hart.ask({ do: "setAnswers", shown: false });
    hart.ask({ do: "showAllLines", shown: false });
    await done(ann, () => ann.state?.lines.shown === false);
    const [value, lines] = await sent(hart, hidden);
    expect(value).not.toBeNull();
    expect(lines).toBeGreaterThan(1);
    expect(await sent(ann, shown)).toEqual([value, 0]);
    expect(await sent(ann, hidden)).toEqual([null, 0]);
    expect(await sent(ann, lined)).toEqual([value, lines]);
    expect(await sent(ann, 1)).toEqual([null, 0]);
  });

  it("that were shown while instructors were alone are no learner's once they are hidden", async () => {
    await start();
    const hart = await join(INSTRUCTOR);
    Y.applyUpdate(hart.doc, demoBoard());
    await until("there are answers", () => hart.answers.at(-1)?.report?.wanted[0]?.total != null);
    const prepared = await stored();
    hart.ask({ do: "setAnswers", shown: false });
    await until("it is told", () => hart.state?.answers.shown === false);
    const ann = await join({ name: "Ann" });
    expect((await sent(ann, prepared))[0]).toBeNull();
    expect((await sent(hart, prepared))[0]).not.toBeNull();
    hart.ask({ do: "setAnswers", shown: true });
    await until("it is told", () => ann.state?.answers.shown === true);
    expect((await sent(ann, prepared))[0]).not.toBeNull();
  });

  it("come from a board that is solved once for all who look at that moment", async () => {
    let solves = 0;
    await start({
      solver: {
        ...lasting(solver),
        request: (job) => {
          if (job.room !== ROOM) solves++;
          solver.request(job);
        },
      },
    });
    const hart = await join(INSTRUCTOR);
    Y.applyUpdate(hart.doc, demoBoard());
    await until("there are answers", () => hart.answers.at(-1)?.report?.wanted[0]?.total != null);
    const at = await stored();
    await Promise.all([1, 2, 3].map(() => solved(server, ROOM, "answers", at, hart)));
    await solved(server, ROOM, "answers", at, hart);
    expect(solves).toBe(1);
  });

  it("can't be had while the solver doesn't answer, and the refusal says to ask again", async () => {
    await start({
      solver: new IdleSolver(),
      limits: { momentTime: 50, momentQueue: 1 },
    });
    const hart = await join(INSTRUCTOR);
    const responses = await Promise.all([0, 1].map((at) => ask(server, `${ROOM}/replay/workings?at=${at}`, hart)));
    expect(responses.map(({ status }) => status)).toEqual([503, 503]);
    const texts = await Promise.all(responses.map((response) => response.text()));
    expect(texts.join()).toContain("takes too long");
  });
});

describe("who sees a replay", () => {
  it("is a member, and nobody who was removed a moment ago or never joined", async () => {
    await start();
    const hart = await join(INSTRUCTOR);
    const ann = await join({ name: "Ann" });
    const olga = await join({ name: "Olga", as: "observer" });
    const viewers = await Promise.all([hart, ann, olga].map((page) => manifest(server, ROOM, page)));
    expect(viewers.map(({ viewer }) => [viewer.as, viewer.mayGoOn, viewer.mayManage])).toEqual([
      ["instructor", true, true],
      ["member", true, false],
      ["member", false, false],
    ]);
    hart.ask({ do: "removeParticipant", participant: ann.you.id });
    await until("ann is sent away", () => ann.closed === 4403);
    for (const what of ["", "/timeline", "/entries?from=1", "/board?at=1", "/answers?at=1", "/workings?at=1"]) {
      expect((await ask(server, `${ROOM}/replay${what}`, ann)).status).toBe(401);
      expect((await ask(server, `${ROOM}/replay${what}`)).status).toBe(401);
      expect((await ask(server, `${ROOM}/replay${what}`, { cookie: `${hart.cookie}x` })).status).toBe(401);
      expect((await ask(server, `geometry/replay${what}`, hart)).status).toBe(401);
      expect((await ask(server, `nowhere/replay${what}`, hart)).status).toBe(404);
    }
  });

  it.each([
    ["/board", 400, '"at" of the address'],
    ["/board?at=-1", 400, '"at" of the address'],
    ["/answers?at=1e3", 400, '"at" of the address'],
    ["/board?at=999", 404, "entries so far"],
    ["/entries?from=0", 400, '"from" of the address'],
    ["/entries?from=1&to=x", 400, '"to" of the address'],
    ["/elsewhere", 404, "nothing at this address"],
    ["/board/1?at=1", 404, "nothing at this address"],
  ])("a request for %s is refused with %i", async (path, status, sentence) => {
    await start();
    const hart = await join(INSTRUCTOR);
    const response = await ask(server, `${ROOM}/replay${path}`, hart);
    expect([response.status, await response.text()]).toEqual([
      status,
      expect.stringContaining(JSON.stringify(sentence).slice(1, -1)),
    ]);
  });

  it("asks no more often than it takes to play", async () => {
    await start({ limits: { replayRate: { burst: 3, perSecond: 0.001 } } });
    const hart = await join(INSTRUCTOR);
    const statuses = [];
    for (let index = 0; index < 4; index++) statuses.push((await ask(server, `${ROOM}/replay`, hart)).status);
    expect(statuses).toEqual([200, 200, 200, 429]);
  });
});
