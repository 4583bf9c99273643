import { afterEach, expect, it, vi } from "vitest";
import { type SolvedAnswers, SolverPool } from "../../../server/solver";
import { until } from "../support/until";

vi.setConfig({ testTimeout: 30_000 });

const TIMED_JOB = new URL("./timedJob.ts", import.meta.url);
const SLICE = 50;

let pool: SolverPool;
const delivered: { room: string; answers: SolvedAnswers }[] = [];
const warnings: string[] = [];

function startPool(lanes = 2, budget = 400): void {
  delivered.length = 0;
  warnings.length = 0;
  pool = new SolverPool({
    rules: { slice: SLICE, budget },
    log: { warn: (text) => warnings.push(text) },
    lanes,
    job: TIMED_JOB,
  });
}

/** Asks for a board that takes `work` (see timedJob.ts) at the revision that holds when its turn comes. */
function request(room: string, work: string | (() => string), revision: () => number = () => 1): void {
  pool.request({
    room,
    take: () => ({ revision: revision(), board: new TextEncoder().encode(typeof work === "string" ? work : work()) }),
    deliver: (answers) => delivered.push({ room, answers }),
  });
}

const isDelivered = (room: string) => delivered.some((each) => each.room === room);

afterEach(() => pool.close());

it("answers from a thread of its own, with the revision that the board had", async () => {
  startPool();
  request("algebra", "0", () => 7);
  await until("the answer", () => isDelivered("algebra"));
  expect(delivered).toEqual([
    { room: "algebra", answers: { revision: 7, report: null, boardProblems: [], failure: null } },
  ]);
});

it("ends a job that is over its budget, says so, and answers the room's next one", async () => {
  startPool();
  request("endless", "forever");
  await until("the job's end", () => isDelivered("endless"));
  expect(delivered[0]?.answers.failure).toEqual({ code: "overBudget", milliseconds: 400 });
  request("endless", "0", () => 2);
  await until("the next answer", () => delivered.length === 2);
  expect(delivered[1]?.answers).toMatchObject({ revision: 2, failure: null });
});

it("answers a quick room while two endless ones want both threads", async () => {
  startPool(2, 60_000);
  request("warm-up", "0");
  await until("both threads run", () => isDelivered("warm-up"));
  request("slow-1", "forever");
  request("slow-2", "forever");
  request("quick", "0");
  await until("the quick room's answer", () => isDelivered("quick"));
  expect(delivered.map(({ room }) => room)).toEqual(["warm-up", "quick"]);
});

it("solves the latest revision where several were asked for while it worked", async () => {
  startPool(1);
  let revision = 1;
  const board = () => (revision === 1 ? "60" : "0");
  request("busy", "0");
  await until("the thread runs", () => isDelivered("busy"));
  request("algebra", board, () => revision);
  for (revision = 2; revision <= 5; revision++) request("algebra", board, () => revision);
  revision = 5;
  await until("the last answer", () => delivered.some(({ answers }) => answers.revision === 5));
  expect(delivered.filter(({ room }) => room === "algebra").map(({ answers }) => answers.revision)).toEqual([1, 5]);
});

it("reports a board that breaks the solver, and goes on", async () => {
  startPool(1);
  request("broken", "throw");
  request("algebra", "0");
  await until("both answers", () => isDelivered("broken") && isDelivered("algebra"));
  expect(delivered[0]?.answers.failure).toEqual({ code: "failed", message: "this board breaks the solver" });
  expect(delivered[1]?.answers.failure).toBeNull();
});

it("outlives a job that uses up its thread's memory", async () => {
  startPool(1);
  pool.request({
    room: "greedy",
    take: () => ({ revision: 1, board: new TextEncoder().encode("exhaust") }),
    deliver: (answers) => delivered.push({ room: "greedy", answers }),
  });
  await until("the job's end", () => isDelivered("greedy"));
  expect(delivered[0]?.answers.failure).not.toBeNull();
  request("algebra", "0");
  await until("the answer from a new thread", () => isDelivered("algebra"));
});

it("delivers nothing to a room that was forgotten meanwhile", async () => {
  startPool(1);
  let isTaken = false;
  request("left", () => {
    isTaken = true;
    return "30";
  });
  await until("its job is under way", () => isTaken);
  pool.forget("left");
  request("algebra", "0");
  await until("the other answer", () => isDelivered("algebra"));
  expect(isDelivered("left")).toBe(false);
});
