import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { Identity, OPEN_ACCESS } from "../../server/access";
import { LIMITS } from "../../server/limits";
import { rebuild } from "../../server/replay";
import {
  idleStretches,
  lastPlayed,
  playedTo,
  type ReplayManifest,
  readCheckpoint,
  readChunk,
  readTimeline,
  sequenceAt,
  type Timeline,
  timeOf,
} from "../../shared/replay";
import { SessionLog, type SessionSource } from "../../src/replay/sessionLog";
import { openStores } from "../server/support/database";
import { SECRET } from "../server/support/testServer";
import { participantOf, type SessionEntry, type SessionPlan, sessionOf } from "./replaySession";
import { ms, table } from "./table";

const ROOM = "replayed";
const HOUR = 3_600_000;
const LONG: SessionPlan = { participants: 8, length: 2 * HOUR, updates: 50_000, ink: 0.3, pointing: 0.3 };
/** An hour of one instructor and three learners at a few problems: an edit each four seconds, half of them ink. */
const TYPICAL: SessionPlan = { participants: 4, length: HOUR, updates: 900, ink: 0.5, pointing: 0.3 };
const OPEN_TARGET = 1000;
const SEEK_TARGET = 100;
const SEEKS = 200;
const SPEED = 16;
/** One frame of a page, in ms. */
const FRAME = 1000 / 60;

/**
 * A two-hour session of 50,000 updates and 8 participants, in the real database of a server of its own: how long it takes
 * to open, to go to a moment, and to play at 16 times its speed, as a page does it with nothing kept from before. Drawing
 * is not in it. Then what an hour of a typical session takes on the disk.
 */
export async function replayTimes(): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), "addend-bench-"));
  const entries = sessionOf(LONG);
  try {
    await store(folder, entries);
    const server = await start(folder);
    try {
      return text(entries.length, await measure(server.url), await bytesAnHour());
    } finally {
      await end(server.process);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Puts a session into the database of a folder, with the snapshots that its room would have made. */
async function store(folder: string, entries: readonly SessionEntry[]): Promise<void> {
  const { store: history, directory } = await openStores(folder);
  await directory.create(ROOM, "");
  const inRoom = entries.map((entry) => ({ ...entry, room: ROOM }));
  const rebuilt = await rebuild(inRoom, LIMITS, OPEN_ACCESS);
  if (!rebuilt.ok) throw new Error(`the bench's session can't be stored: ${rebuilt.reason}`);
  await history.putWhole(inRoom, rebuilt.snapshots);
  await history.close();
}

type Measured = {
  readonly open: number;
  readonly openAgain: number;
  readonly seeks: readonly number[];
  readonly frames: readonly number[];
};

async function measure(url: string): Promise<Measured> {
  const cookie = new Identity(SECRET, Date.now).cookie(participantOf(0)).split(";", 1)[0] ?? "";
  const get = (what: string) => fetch(`${url}/api/rooms/${ROOM}/replay${what}`, { headers: { cookie } }).then(checked);
  const bytes = async (what: string) => new Uint8Array(await (await get(what)).arrayBuffer());
  const source = sourceOf(bytes);
  const goTo = async (log: SessionLog, at: number) => {
    const refusal = await log.load(at);
    if (refusal) throw new Error(refusal.text);
    log.goTo(at);
  };
  const open = async () => {
    const begin = performance.now();
    const [manifest, timeline] = await Promise.all([
      get("").then((response) => response.json() as Promise<ReplayManifest>),
      bytes("/timeline").then(readTimeline),
    ]);
    if (!timeline) throw new Error("the timeline can't be read");
    await goTo(new SessionLog(source), Math.round(manifest.length / 2));
    return { time: performance.now() - begin, timeline };
  };
  const first = await open();
  const again = await open();
  const { timeline } = again;
  const seeks: number[] = [];
  for (let seek = 0; seek < SEEKS; seek++) {
    const at = 1 + Math.floor((((seek * 7919) % SEEKS) / SEEKS) * (timeline.length - 1));
    const begin = performance.now();
    await goTo(new SessionLog(source), at);
    seeks.push(performance.now() - begin);
  }
  const log = new SessionLog(source);
  const refusal = await log.loadEntries(1, timeline.length);
  if (refusal) throw new Error(refusal.text);
  return { open: first.time, openAgain: again.time, seeks, frames: play(log, timeline) };
}

/** The server's answers as a replay's page reads them. */
function sourceOf(bytes: (what: string) => Promise<Uint8Array>): SessionSource {
  const read = <T>(value: T | null) => {
    if (value === null) throw new Error("what the server sent can't be read");
    return { ok: true as const, value };
  };
  return {
    entries: async (from, to) => read(readChunk(await bytes(`/entries?from=${from}&to=${to}`))),
    board: async (at, unfit) =>
      read(readCheckpoint(await bytes(`/board?at=${at}${unfit === null ? "" : `&unfit=${unfit}`}`))),
  };
}

/** How long each frame takes of the whole session, from its first entry to its last. */
function play(log: SessionLog, timeline: Timeline): readonly number[] {
  const idle = idleStretches(timeline, 20_000);
  const frames: number[] = [];
  const end = timeOf(timeline, lastPlayed(timeline));
  let time = timeOf(timeline, 1);
  let shown = log.goTo(sequenceAt(timeline, time));
  const { ink } = shown;
  while (time < end) {
    time = playedTo(timeline, time, FRAME, SPEED, idle);
    const at = sequenceAt(timeline, time);
    const begin = performance.now();
    if (at !== shown.moment.sequence) shown = log.goTo(at);
    frames.push(performance.now() - begin);
  }
  if (shown.ink === ink) throw new Error("no ink came while it was played");
  return frames;
}

/** Bytes of the database's file that an hour of a typical session takes. */
async function bytesAnHour(): Promise<{ readonly session: number; readonly entries: number }> {
  const folder = mkdtempSync(join(tmpdir(), "addend-bench-"));
  try {
    const empty = await sizeOf(folder, []);
    const entries = sessionOf(TYPICAL);
    return { session: (await sizeOf(folder, entries)) - empty, entries: entries.length };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function sizeOf(folder: string, entries: readonly SessionEntry[]): Promise<number> {
  const own = mkdtempSync(join(folder, "size-"));
  await store(own, entries);
  return statSync(join(own, "addend.db")).size;
}

function text(
  length: number,
  { open, openAgain, seeks, frames }: Measured,
  hour: { readonly session: number; readonly entries: number },
): string {
  const seek = at(seeks, 0.95);
  const share = frames.reduce((sum, frame) => sum + frame, 0) / (frames.length * FRAME);
  const keepsUp = at(frames, 0.99) <= FRAME && share < 1;
  return [
    "## Replay",
    `Two hours, ${LONG.updates} updates of ${LONG.participants} participants, ${length} entries with their pointers; the server is a process of its own.`,
    table(
      ["what", "time, ms"],
      [
        ["to open it in the middle, the first time", ms(open)],
        ["to open it again", ms(openAgain)],
        ["to go to a moment with nothing kept, median", ms(at(seeks, 0.5))],
        ["the same, 95th percentile", ms(seek)],
        [`a frame at ${SPEED} times the speed, median`, ms(at(frames, 0.5))],
        ["the same, 99th percentile", ms(at(frames, 0.99))],
      ],
    ),
    `To open: at most ${OPEN_TARGET} ms wanted, ${verdict(open <= OPEN_TARGET)}. To go to a moment: at most ${SEEK_TARGET} ms at the 95th percentile wanted, ${verdict(seek <= SEEK_TARGET)}. Playing all of it at ${SPEED} times its speed, in ${frames.length} frames, takes ${(100 * share).toFixed(1)} % of the time it has: ${verdict(keepsUp)}.`,
    `An hour of one instructor and three learners (${TYPICAL.updates} edits, half of them ink, each pointing ${100 * TYPICAL.pointing} % of the time; ${hour.entries} entries) takes ${Math.round(hour.session / 1024)} kB in the database.`,
  ].join("\n\n");
}

const verdict = (isMet: boolean) => (isMet ? "met" : "missed");

function at(times: readonly number[], share: number): number {
  const sorted = [...times].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0;
}

async function checked(response: Response): Promise<Response> {
  if (!response.ok) throw new Error(`${response.status} ${await response.text()}`);
  return response;
}

/** The server as a process of its own; it solves nothing here. */
async function start(folder: string): Promise<{ readonly url: string; readonly process: ChildProcess }> {
  const entry = fileURLToPath(new URL("./replayServer.ts", import.meta.url));
  const child = spawn(process.execPath, ["--import", "tsx", entry, folder], { stdio: ["ignore", "pipe", "inherit"] });
  const port = await new Promise<string>((resolve, reject) => {
    child.stdout?.once("data", (bytes: Buffer) => resolve(bytes.toString().trim()));
    child.once("exit", (code) => reject(new Error(`the replay's server ended with ${code}`)));
  });
  return { url: `http://127.0.0.1:${port}`, process: child };
}

function end(child: ChildProcess): Promise<void> {
  return new Promise((resolve) => {
    child.once("exit", () => resolve());
    child.kill("SIGTERM");
  });
}
