import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import * as Y from "yjs";
import { applyCommand, boardFromFile, LOCAL, readBoard } from "../../shared/board";
import { readCircuitFile } from "../../shared/circuit";
import { layOutFile } from "../../shared/layout";
import {
  MESSAGE_ANSWERS,
  MESSAGE_CALL,
  MESSAGE_NOTICE,
  MESSAGE_ROOM,
  MESSAGE_TRIES,
  MESSAGE_WORKINGS,
  readAnswers,
} from "../../shared/messages";
import { admit } from "../server/support/admit";
import { connectStock, type StockClient } from "../server/support/stockClient";
import { until } from "../server/support/until";
import { boardProblem } from "./circuits";
import { ms, table } from "./table";

const CLIENTS = 30;
const EDITS = 300;
const RELAY_TARGET = 2;
const ANSWERS_TARGET_MS = 25;
const ROOM = "algebra";

/**
 * From one participant's edit to another participant's state with 30 clients in the room, against a bare relay in the
 * same run, edit by edit in turn; then from an edit of a 12-part circuit to its answers. Servers are processes of their
 * own, ours with its real database; all clients live in this one.
 */
export async function relayTimes(): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), "addend-bench-"));
  // Every client listens for the end of the process, which Node takes for a leak beyond ten.
  process.setMaxListeners(4 * CLIENTS);
  const ours = await start("./solvingServer.ts", folder);
  const bare = await start("./bareRelay.ts");
  const leaving: StockClient[] = [];
  try {
    const inRoom = await joinAll(async (i) => {
      const { cookie } = await admit(`${ours.url}/sync`, ROOM, { name: `Kim ${i}` });
      return connectStock(`${ours.url}/sync`, ROOM, new Y.Doc(), cookie);
    });
    leaving.push(...inRoom);
    const atBare = await joinAll(async () => connectStock(bare.url, "bare", new Y.Doc(), ""));
    leaving.push(...atBare);
    const [own, other]: [number[], number[]] = [[], []];
    for (let edit = 0; edit < EDITS; edit++) {
      own.push(await editToState(inRoom, edit));
      other.push(await editToState(atBare, edit));
    }
    const { state, answers } = await editToAnswers(`${ours.url}/sync`, leaving);
    return text(own, other, state, answers);
  } finally {
    for (const client of leaving) client.leave();
    await Promise.all([end(ours.process), end(bare.process)]);
    rmSync(folder, { recursive: true, force: true });
  }
}

function text(own: number[], other: number[], state: number[], answers: number[]): string {
  const ratio = median(own) / median(other);
  const beyond = median(answers) - median(state);
  const row = (what: string, times: number[]) => [
    what,
    ms(median(times)),
    `${ms(at(times, 0.25))} to ${ms(at(times, 0.75))}`,
  ];
  return [
    "## From an edit to the others",
    `${CLIENTS} clients in the room, ${EDITS} edits each.`,
    table(
      ["from an edit", "median, ms", "quartiles, ms"],
      [
        row("to another participant's state, through the server", own),
        row("the same through a bare relay", other),
        row("of a 12-part circuit to another participant's state", state),
        row("of that circuit to its new answers at another participant's", answers),
      ],
    ),
    `Ratio to the bare relay: ${ratio.toFixed(2)}, at most ${RELAY_TARGET} wanted: ${ratio <= RELAY_TARGET ? "met" : "missed"}. Answers ${ms(beyond)} ms beyond the state, at most ${ANSWERS_TARGET_MS} ms wanted: ${beyond <= ANSWERS_TARGET_MS ? "met" : "missed"}.`,
  ].join("\n\n");
}

async function joinAll(connect: (i: number) => Promise<StockClient>): Promise<StockClient[]> {
  const clients: StockClient[] = [];
  for (let i = 0; i < CLIENTS; i++) clients.push(await connect(i));
  await until("all clients are in step", () => clients.every(({ provider }) => provider.synced));
  return clients;
}

/** Time from a change in the first client's document to its arrival in the last one's. */
async function editToState(clients: readonly StockClient[], edit: number): Promise<number> {
  const [author, reader] = [clients[0] as StockClient, clients[clients.length - 1] as StockClient];
  const key = `edit ${edit % 10}`;
  const arrived = new Promise<void>((resolve) => {
    const look = () => {
      if (reader.board.get(key) !== edit) return;
      reader.board.unobserve(look);
      resolve();
    };
    reader.board.observe(look);
  });
  const start = performance.now();
  author.board.set(key, edit);
  await arrived;
  return performance.now() - start;
}

async function editToAnswers(url: string, leaving: StockClient[]): Promise<{ state: number[]; answers: number[] }> {
  const room = "geometry";
  const connect = async (name: string) => {
    const { cookie } = await admit(url, room, { name });
    const client = connectStock(url, room, new Y.Doc(), cookie, { answers: "1" });
    leaving.push(client);
    return client;
  };
  const [author, reader] = [await connect("Ana"), await connect("Ben")];
  let revision = 0;
  let heard = (): void => {};
  reader.provider.messageHandlers[MESSAGE_ANSWERS] = (_encoder, decoder) => {
    const answers = readAnswers(decoder);
    if (answers.report?.wanted[0]?.total == null) return;
    revision = answers.revision;
    heard();
  };
  for (const { provider } of [author, reader]) {
    const others = [
      MESSAGE_NOTICE,
      MESSAGE_ROOM,
      MESSAGE_CALL,
      MESSAGE_WORKINGS,
      MESSAGE_TRIES,
      ...(provider === author.provider ? [MESSAGE_ANSWERS] : []),
    ];
    for (const type of others) provider.messageHandlers[type] = () => {};
  }
  await until("both are in step", () => author.provider.synced && reader.provider.synced);
  const reading = readCircuitFile(boardProblem());
  const board = reading.ok ? boardFromFile(layOutFile(reading.value)) : null;
  if (board === null) throw new Error("the bench's circuit cannot be drawn");
  applyCommand(author.doc, { do: "fill", board }, LOCAL);
  const resistor = board.parts.find((part) => part.kind === "resistor");
  if (!resistor) throw new Error("the bench's circuit has no resistor");
  const [state, answers]: [number[], number[]] = [[], []];
  await until("the first answers", () => revision > 0);
  for (let edit = 0; edit < EDITS / 3; edit++) {
    const value = `${100 + edit} Ω`;
    const before = revision;
    const start = performance.now();
    const seen = new Promise<number>((resolve) => {
      const look = () => {
        const part = readBoard(reader.doc).parts.find(({ id }) => id === resistor.id);
        if (part?.kind !== "resistor" || part.value !== value) return;
        reader.doc.off("update", look);
        resolve(performance.now() - start);
      };
      reader.doc.on("update", look);
    });
    const told = new Promise<number>((resolve) => {
      heard = () => {
        if (revision > before) resolve(performance.now() - start);
      };
    });
    applyCommand(author.doc, { do: "setValue", id: resistor.id, value }, LOCAL);
    state.push(await seen);
    answers.push(await told);
  }
  return { state, answers };
}

type Served = { readonly url: string; readonly process: ChildProcess };

/** A process beside this file that tells its port in its first line. */
async function start(file: string, ...args: string[]): Promise<Served> {
  const entry = fileURLToPath(new URL(file, import.meta.url));
  const stdio = ["ignore", "pipe", "inherit"] as const;
  const child = spawn(process.execPath, ["--import", "tsx", entry, ...args], { stdio: [...stdio] });
  const port = await new Promise<string>((resolve, reject) => {
    child.stdout?.once("data", (bytes: Buffer) => resolve(bytes.toString().trim()));
    child.once("exit", (code) => reject(new Error(`${file} ended with ${code}`)));
  });
  return { url: `ws://127.0.0.1:${port}`, process: child };
}

function end(child: ChildProcess): Promise<void> {
  return new Promise((resolve) => {
    child.once("exit", () => resolve());
    child.kill("SIGTERM");
  });
}

function median(times: readonly number[]): number {
  return at(times, 0.5);
}

function at(times: readonly number[], share: number): number {
  const sorted = [...times].sort((a, b) => a - b);
  return sorted[Math.floor(share * sorted.length)] ?? Number.NaN;
}
