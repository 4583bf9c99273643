import * as decoding from "lib0/decoding";
import { afterEach, describe, expect, it, vi } from "vitest";
import * as Y from "yjs";
import { demoBoard } from "../../server/demoRoom";
import { type SolvedAnswers, SolverPool } from "../../server/solver";
import { applyCommand, readBoard } from "../../shared/board";
import {
  type Answers,
  MESSAGE_ANSWERS,
  MESSAGE_NOTICE,
  MESSAGE_ROOM,
  MESSAGE_WORKINGS,
  readAnswers,
} from "../../shared/messages";
import { admit } from "./support/admit";
import { joinRaw } from "./support/rawClient";
import { connectStock, joinStock, type StockClient } from "./support/stockClient";
import { IdleSolver, startTestServer, type TestServer } from "./support/testServer";
import { until } from "./support/until";

vi.setConfig({ testTimeout: 30_000 });

let server: TestServer;
const clients: StockClient[] = [];

afterEach(async () => {
  for (const client of clients.splice(0)) client.leave();
  await server.stop();
});

/** A client that asks for answers, and reads them as a page does. */
async function joinWithAnswers(room: string): Promise<StockClient & { readonly answers: Answers[] }> {
  const { cookie } = await admit(server.url, room);
  const client = connectStock(server.url, room, new Y.Doc(), cookie, { answers: "1" });
  clients.push(client);
  const answers: Answers[] = [];
  client.provider.messageHandlers[MESSAGE_ANSWERS] = (_encoder, decoder: decoding.Decoder) => {
    answers.push(readAnswers(decoder));
  };
  client.provider.messageHandlers[MESSAGE_NOTICE] = () => {};
  client.provider.messageHandlers[MESSAGE_ROOM] = () => {};
  client.provider.messageHandlers[MESSAGE_WORKINGS] = () => {};
  await until("the client is in step", () => client.provider.synced);
  return { ...client, answers };
}

/** The numbers of the first messages of all frames that a client is sent until it has seen `count` of them. */
async function messageTypes(
  query: string,
  isEnough: (types: readonly number[]) => boolean,
): Promise<readonly number[]> {
  const { socket, frames } = await joinRaw(server.url, `algebra${query}`);
  const types = () => frames.map((frame) => decoding.readVarUint(decoding.createDecoder(frame)));
  await until("the frames came", () => isEnough(types()));
  socket.terminate();
  return types();
}

describe("with the real solver", () => {
  const startSolving = async () => {
    const solver = new SolverPool({ rules: { slice: 250, budget: 10_000 }, log: { warn: () => {} } });
    server = await startTestServer({ solver });
  };

  it("gives the addends and the total of the board that somebody drew, and new ones for a new value", async () => {
    await startSolving();
    const ann = await joinWithAnswers("algebra");
    const bob = await joinWithAnswers("algebra");
    Y.applyUpdate(ann.doc, demoBoard());
    await until("both have answers", () => [ann, bob].every(({ answers }) => (answers.at(-1)?.revision ?? 0) > 0));
    const [wanted] = bob.answers.at(-1)?.report?.wanted ?? [];
    expect(bob.answers.at(-1)?.boardProblems).toEqual([]);
    expect(wanted?.addends).toHaveLength(3);

    const source = readBoard(ann.doc).parts.find(({ kind }) => kind === "voltage-source");
    if (!source) throw new Error("the demo board has a voltage source");
    const before = bob.answers.at(-1)?.revision ?? 0;
    applyCommand(ann.doc, { do: "setValue", id: source.id, value: "0 V" }, { source: "local" });
    await until("the answers to the new value", () => (bob.answers.at(-1)?.revision ?? 0) > before);
    const addends = bob.answers.at(-1)?.report?.wanted[0]?.addends ?? [];
    expect(addends.find(({ sources }) => sources.includes(source.name))?.value?.exact).toBe("0");
  });

  it("gives no report and no problems for an empty board", async () => {
    await startSolving();
    const ann = await joinWithAnswers("algebra");
    await until("the answers", () => ann.answers.length > 0);
    expect(ann.answers[0]).toEqual({ revision: 0, report: null, boardProblems: [], failure: null });
  });
});

describe("which clients get answers", () => {
  const answered = (revision: number): SolvedAnswers => ({ revision, report: null, boardProblems: [], failure: null });

  it("those that join with answers=1, and no others", async () => {
    const solver = new IdleSolver();
    server = await startTestServer({ solver });
    const ann = await joinStock(server.url, "algebra");
    clients.push(ann);
    ann.board.set("R1", "3.3k");
    const asked = messageTypes("?answers=1", (types) => types.includes(MESSAGE_ANSWERS));
    await until("the room wants answers", () => solver.jobs.length > 0);
    // Both are connected now; only one of them may be sent the answers, which come after the sign of life here.
    const stock = messageTypes("", (types) => types.filter((type) => type === 1).length >= 2);
    solver.jobs[0]?.deliver(answered(1));
    await asked;
    ann.provider.awareness.setLocalStateField("name", "Ann");
    ann.provider.awareness.setLocalStateField("name", "Anna");
    expect(await stock).not.toContain(MESSAGE_ANSWERS);
  });

  it("somebody who joins later gets those that still hold at once, without a new job", async () => {
    const solver = new IdleSolver();
    server = await startTestServer({ solver });
    const ann = await joinWithAnswers("algebra");
    await until("the room wants answers", () => solver.jobs.length === 1);
    solver.jobs[0]?.deliver(answered(0));
    await until("the first has them", () => ann.answers.length === 1);
    const bob = await joinWithAnswers("algebra");
    await until("the second has them", () => bob.answers.length === 1);
    expect(solver.jobs).toHaveLength(1);
  });

  it("nobody is sent older answers after newer ones", async () => {
    const solver = new IdleSolver();
    server = await startTestServer({ solver });
    const ann = await joinWithAnswers("algebra");
    ann.board.set("R1", "1k");
    await until("the change is to be solved", () => solver.jobs.length === 2);
    solver.jobs[1]?.deliver(answered(1));
    solver.jobs[0]?.deliver(answered(0));
    ann.board.set("R1", "2k");
    await until("the next change is to be solved", () => solver.jobs.length === 3);
    solver.jobs[2]?.deliver(answered(2));
    await until("the last answers", () => ann.answers.at(-1)?.revision === 2);
    expect(ann.answers.map(({ revision }) => revision)).toEqual([1, 2]);
  });

  it("a defect where answers are asked for costs its sender the connection, and nobody anything else", async () => {
    class BrokenSolver extends IdleSolver {
      isBroken = false;
      override request(): void {
        if (this.isBroken) throw new Error("a defect of ours");
      }
    }
    const solver = new BrokenSolver();
    server = await startTestServer({ solver });
    const [ann, bob] = [await joinWithAnswers("algebra"), await joinWithAnswers("algebra")];
    let code = 0;
    ann.provider.on("connection-close", (event) => {
      code = event?.code ?? 0;
    });
    solver.isBroken = true;
    ann.board.set("R1", "1k");
    await until("the connection is closed", () => code !== 0);
    solver.isBroken = false;
    expect(code).toBe(1011);
    expect(server.warnings).toEqual([expect.stringMatching(/^a frame of \d+ bytes in room "algebra" failed$/)]);
    await until("the change has reached the other", () => bob.board.get("R1") === "1k");
    await until("the sender is back", () => ann.provider.synced);
  });

  it("a room in which nobody asks for answers costs the solver nothing", async () => {
    const solver = new IdleSolver();
    server = await startTestServer({ solver });
    const [ann, bob] = [await joinStock(server.url, "algebra"), await joinStock(server.url, "algebra")];
    clients.push(ann, bob);
    ann.board.set("R1", "1k");
    await until("the change arrives", () => bob.board.size === 1);
    expect(solver.jobs).toEqual([]);
  });
});
