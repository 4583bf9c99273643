import { readdirSync, readFileSync } from "node:fs";
import { constants, getPriority } from "node:os";
import { afterEach, describe, expect, it, vi } from "vitest";
import { type DerivedWorkings, type SolvedAnswers, SolverPool } from "../../../server/solver";
import { until } from "../support/until";

vi.setConfig({ testTimeout: 30_000 });

const SLICE = 50;
/** Where the tests themselves run at a low priority there is nothing lower. */
const CAN_GIVE_WAY = process.platform === "linux" && getPriority() < constants.priority.PRIORITY_BELOW_NORMAL;

let pool: SolverPool;
const derived: { room: string; workings: DerivedWorkings }[] = [];
const solved: { room: string; answers: SolvedAnswers }[] = [];
const warnings: string[] = [];

function startPool(budget = 400): void {
  for (const list of [derived, solved, warnings]) list.length = 0;
  pool = new SolverPool({
    rules: { slice: SLICE, budget },
    log: { warn: (text) => warnings.push(text) },
    lanes: 2,
    job: new URL("./timedJob.ts", import.meta.url),
    derivation: new URL("./timedDerivation.ts", import.meta.url),
  });
}

/** A board that takes `work` (see timedJob.ts and timedDerivation.ts) at the revision that holds when its turn comes. */
const taking = (work: string | (() => string), revision: () => number) => () => {
  return { revision: revision(), board: new TextEncoder().encode(typeof work === "string" ? work : work()) };
};

function derive(room: string, work: string | (() => string), revision: () => number = () => 1): void {
  pool.derive({ room, take: taking(work, revision), deliver: (workings) => derived.push({ room, workings }) });
}

function solve(room: string, work: string): void {
  pool.request({ room, take: taking(work, () => 1), deliver: (answers) => solved.push({ room, answers }) });
}

const isDerived = (room: string) => derived.some((each) => each.room === room);

afterEach(() => pool.close());

describe("workings", () => {
  it("come with the revision that the board had", async () => {
    startPool();
    derive("algebra", "0", () => 7);
    await until("the workings", () => isDerived("algebra"));
    expect(derived[0]?.workings).toMatchObject({ revision: 7, workings: [], failure: null, digest: "0" });
  });

  it("keep no answer waiting, however long they take, in their own room or another", async () => {
    startPool(60_000);
    derive("slow-1", "forever");
    derive("slow-2", "forever");
    derive("slow-3", "forever");
    for (const room of ["slow-1", "slow-2", "quick"]) solve(room, "0");
    await until("all answers", () => solved.length === 3);
    expect(derived).toEqual([]);
  });

  it("of a quick room come while two endless ones want both threads", async () => {
    startPool(60_000);
    derive("warm-up", "0");
    await until("the threads run", () => isDerived("warm-up"));
    derive("slow-1", "forever");
    derive("slow-2", "forever");
    derive("quick", "0");
    await until("the quick room's workings", () => isDerived("quick"));
    expect(derived.map(({ room }) => room)).toEqual(["warm-up", "quick"]);
  });

  it("over their budget are ended and say so, and the room's next ones are made", async () => {
    startPool();
    derive("endless", "forever");
    await until("the end", () => isDerived("endless"));
    expect(derived[0]?.workings).toMatchObject({
      revision: 1,
      workings: [],
      powerTable: null,
      failure: { code: "overBudget", milliseconds: 400 },
    });
    derive("endless", "0", () => 2);
    await until("the next workings", () => derived.length === 2);
    expect(derived[1]?.workings).toMatchObject({ revision: 2, failure: null });
  });

  it("are made of the latest revision where several were asked for while one was worked out", async () => {
    startPool(5000);
    let revision = 1;
    const board = () => (revision === 1 ? "60" : "0");
    derive("algebra", board, () => revision);
    await until("the threads run", () => isDerived("algebra"));
    revision = 1;
    derived.length = 0;
    derive("algebra", board, () => revision);
    for (revision = 2; revision <= 5; revision++) derive("algebra", board, () => revision);
    revision = 5;
    await until("the last workings", () => derived.some(({ workings }) => workings.revision === 5));
    expect(derived.map(({ workings }) => workings.revision)).toEqual([1, 5]);
  });

  it("that break are a failure of their own, told in the log", async () => {
    startPool();
    derive("broken", "throw");
    await until("the failure", () => isDerived("broken"));
    const message = "this board breaks the derivation";
    expect(derived[0]?.workings.failure).toEqual({ code: "failed", message });
    expect(warnings).toEqual([`working out lines failed: ${message}`]);
  });

  it("with lines that differ from the solver are told in the log, once, with room, change and line", async () => {
    startPool();
    derive("faulty", "fault", () => 12);
    await until("the workings", () => isDerived("faulty"));
    expect(warnings).toEqual([
      'room "faulty", change 12: a line of Iy′ was withheld (I(R3) came to 2 mA, not 3 mA), and 1 more',
    ]);
  });

  it("are not delivered to a room that was forgotten meanwhile", async () => {
    startPool();
    let isTaken = false;
    derive("left", () => {
      isTaken = true;
      return "30";
    });
    await until("it is under way", () => isTaken);
    pool.forget("left");
    derive("algebra", "40");
    await until("the other workings", () => isDerived("algebra"));
    expect(isDerived("left")).toBe(false);
  });

  it.runIf(CAN_GIVE_WAY)("are made by threads that give way to all others", async () => {
    const before = niceThreads();
    startPool();
    solve("algebra", "0");
    await until("an answer", () => solved.length === 1);
    expect(niceThreads()).toBe(before);
    derive("algebra", "0");
    derive("geometry", "0");
    await until("both workings", () => derived.length === 2);
    expect(niceThreads()).toBeGreaterThan(before);
  });
});

/** How many threads of this process have a lower priority than it has itself (proc(5): the 19th field of `stat`). */
function niceThreads(): number {
  const stats = readdirSync("/proc/self/task").map((task) => readFileSync(`/proc/self/task/${task}/stat`, "utf8"));
  // The second field is a name in parentheses, with anything in it.
  return stats.filter((stat) => Number(stat.slice(stat.lastIndexOf(")") + 2).split(" ")[16]) > getPriority()).length;
}
