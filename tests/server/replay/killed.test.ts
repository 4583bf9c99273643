import fc from "fast-check";
import { afterEach, expect, it, vi } from "vitest";
import { applyCommand, BoardReplay, entryId, LOCAL } from "../../../shared/board";
import { afterEvent, BEGINNING, readEvent, timeOf } from "../../../shared/replay";
import { removeFolders, temporaryFolder } from "../support/database";
import { INSTRUCTOR, joinPage, PageClient } from "../support/pageClient";
import { type ServerProcess, startWaitingServer, type WaitingServer } from "../support/serverProcess";
import { until } from "../support/until";
import { allEntries, manifest, timeline, updatesOf } from "./support";

vi.setConfig({ testTimeout: 900_000, hookTimeout: 60_000 });

const ROOM = "algebra";
/** How many times the server is killed. */
const KILLS = 50;
/** Servers that are loaded while others are at work. */
const AHEAD = 2;
/** Longest time from the first edit of a life to its end, in ms. */
const LONGEST = 150;
/** Chooses when each server is killed. The test's title says it; with KILL_SEED=<seed> the same moments come again. */
const SEED = Number(process.env.KILL_SEED ?? Math.floor(Math.random() * 2 ** 31));
/** For each life how long after its first edit it ends, in µs. */
const MOMENTS = fc.sample(fc.noBias(fc.nat(LONGEST * 1000)), { seed: SEED, numRuns: KILLS });

const waiting: WaitingServer[] = [];
let server: ServerProcess | null = null;
let pages: PageClient[] = [];

afterEach(async () => {
  for (const page of pages) page.leave();
  for (const each of waiting) each.end();
  await server?.end("SIGKILL");
  removeFolders();
});

async function nextServer(folder: string): Promise<ServerProcess> {
  while (waiting.length <= AHEAD) waiting.push(startWaitingServer());
  return (waiting.shift() as WaitingServer).serve(folder);
}

const keysOf = (page: PageClient) => Object.keys(page.doc.getMap("ink").toJSON());

it(`a server that is killed at ${KILLS} random moments (seed ${SEED}) of a session has a history without a gap, with all that was ever passed on, and plays to its end`, async () => {
  const folder = temporaryFolder();
  server = await nextServer(folder);
  const hart = await joinPage(server.url, ROOM, INSTRUCTOR);
  const ann = await joinPage(server.url, ROOM, { name: "Ann" });
  pages = [hart, ann];
  const passedOn = new Set<string>();
  let drawn = 0;
  for (const [index, moment] of MOMENTS.entries()) {
    const life = index + 1;
    const [writer, reader] = pages as [PageClient, PageClient];
    const before = keysOf(reader).length;
    const draw = () => {
      // A few ahead of what the other has seen, with looks and pointers in between.
      while (keysOf(writer).length < keysOf(reader).length + 10) {
        const spots = [{ x: drawn % 50, y: life }];
        const stroke = { id: entryId(`i${++drawn}`), kind: "pen", colour: "ink", card: [], spots } as const;
        applyCommand(writer.doc, { do: "placeStroke", ...stroke }, LOCAL);
        writer.provider.awareness.setLocalState({ pointer: [drawn % 9, life], card: `V${drawn % 3}`, wanted: null });
      }
      timer = setTimeout(draw, 1);
    };
    let timer = setTimeout(draw, 0);
    await until("the reader has seen something new", () => keysOf(reader).length > before);
    const end = performance.now() + moment / 1000;
    await until("the moment has come", () => performance.now() >= end);
    await server.end("SIGKILL");
    clearTimeout(timer);
    // What the dead server had sent may still be on its way to the reader; it counts as passed on.
    await until("the reader knows that the server is gone", () => !reader.provider.wsconnected);
    for (const key of keysOf(reader)) passedOn.add(key);
    // No page holds anything any more that the server could be given back.
    for (const page of pages) page.leave();

    server = await nextServer(folder);
    const { url } = server;
    pages = await Promise.all([hart, ann].map((page) => new PageClient(url, ROOM, page).joined()));
    const asker = { cookie: hart.cookie };
    const { length } = await manifest(server, ROOM, asker);
    const entries = (await allEntries(server, ROOM, asker)).slice(0, length);
    expect(entries.map(({ sequence }) => sequence)).toEqual(Array.from({ length }, (_, index) => index + 1));
    const line = await timeline(server, ROOM, asker);
    expect(line && timeOf(line, length)).toBeGreaterThanOrEqual(entries.at(-1)?.time ?? 0);
    const replay = new BoardReplay();
    replay.addUpdates({ from: 1, to: length }, updatesOf(entries));
    const played = replay.goTo(length).getMap("ink").toJSON();
    expect(Object.keys(played)).toEqual(expect.arrayContaining([...passedOn]));
    expect(played).toEqual(pages[0]?.doc.getMap("ink").toJSON());
    expect(entries.map(readEvent).reduce(afterEvent, BEGINNING).sequence).toBe(length);
    replay.destroy();
  }
  expect(passedOn.size).toBeGreaterThanOrEqual(KILLS);
});
