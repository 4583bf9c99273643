import { Worker } from "node:worker_threads";
import type { TryRefusal } from "../../shared/messages";
import type { Log } from "../log";
import type { Checked, Checker, CheckJob } from "./checker";
import type { CheckedStep, StepJob } from "./steps/stepJob";
import type { CheckReply } from "./worker";

/** Heap of the thread in MB; what needs more ends the thread and not the process. */
const HEAP_MB = 256;
/** How many entries may wait; more are told to come again. */
const QUEUE = 200;
/** Boards that are remembered as too slow to explain. */
const SLOW_BOARDS = 100;

export type CheckThreadOptions = {
  readonly log: Log;
  /** How long one entry may take, in ms. */
  readonly budget: number;
  /** Module whose `checkEntry` does the work. */
  readonly job?: URL;
};

type Waiting = {
  readonly job: CheckJob | StepJob;
  readonly resolve: (checked: Checked | CheckedStep) => void;
  /** What is certain of it while its explanation is still looked for: all that is said where that fails. */
  certain: Checked | CheckedStep | null;
};

/**
 * Judges entries in a thread of its own, one at a time in the order in which they come, so that neither a circuit that is
 * slow to solve nor the parser's loading holds up a room. The thread is started with the first entry, and anew after one
 * that ended it.
 */
export class CheckThread implements Checker {
  readonly #options: CheckThreadOptions;
  readonly #queue: Waiting[] = [];
  /** Keys of boards on which looking for mistakes took too long: their next tries are only judged. */
  readonly #slow = new Set<string>();
  #worker: Worker | null = null;
  #isReady = false;
  #running: Waiting | null = null;
  #timer: NodeJS.Timeout | null = null;
  #isClosed = false;

  constructor(options: CheckThreadOptions) {
    this.#options = options;
  }

  // The thread answers each kind of job in its own way, so the casts hold.

  check(job: CheckJob): Promise<Checked> {
    return this.#ask(job) as Promise<Checked>;
  }

  checkStep(job: StepJob): Promise<CheckedStep> {
    return this.#ask(job) as Promise<CheckedStep>;
  }

  #ask(job: CheckJob | StepJob): Promise<Checked | CheckedStep> {
    if (this.#isClosed || this.#queue.length >= QUEUE) return Promise.resolve({ outcome: "refused", why: "busy" });
    return new Promise((resolve) => {
      this.#queue.push({ job, resolve, certain: null });
      this.#goOn();
    });
  }

  /** Starts the thread before anybody waits for it. */
  warmUp(): void {
    if (!this.#isClosed) this.#worker ??= this.#start();
  }

  async close(): Promise<void> {
    this.#isClosed = true;
    for (const { resolve } of this.#queue.splice(0)) resolve({ outcome: "refused", why: "busy" });
    this.#finish({ outcome: "refused", why: "busy" });
    await this.#worker?.terminate();
  }

  #goOn(): void {
    if (this.#running || this.#queue.length === 0) return;
    this.warmUp();
    if (!this.#isReady) return;
    this.#running = this.#queue.shift() ?? null;
    if (this.#running) this.#post(this.#running.job);
  }

  #post(job: CheckJob | StepJob): void {
    this.#worker?.postMessage("step" in job ? job : { ...job, isToExplain: !this.#slow.has(job.key) });
    this.#timer = setTimeout(() => {
      if (this.#running?.certain) this.#noteSlow(job.key);
      this.#endThread("an entry took too long to judge", "tooSlow");
    }, this.#options.budget);
  }

  #noteSlow(board: string): void {
    this.#slow.add(board);
    const [oldest] = this.#slow;
    if (this.#slow.size > SLOW_BOARDS && oldest !== undefined) this.#slow.delete(oldest);
  }

  #finish(checked: Checked | CheckedStep): void {
    if (this.#timer) clearTimeout(this.#timer);
    this.#running?.resolve(checked);
    this.#running = null;
  }

  #start(): Worker {
    const worker = new Worker(new URL("./workerEntry.mjs", import.meta.url), {
      workerData: (this.#options.job ?? new URL("./checkJob.ts", import.meta.url)).href,
      // What was given to the process (a test runner's hooks) is not for the thread.
      execArgv: [],
      resourceLimits: { maxOldGenerationSizeMb: HEAP_MB },
    });
    worker.on("message", (reply: CheckReply) => {
      if (worker === this.#worker) this.#replied(reply);
    });
    worker.on("error", (error) => {
      if (worker === this.#worker) this.#endThread(error.message);
    });
    worker.on("exit", () => {
      if (worker === this.#worker) this.#endThread("the thread ended");
    });
    worker.unref();
    return worker;
  }

  #replied(reply: CheckReply): void {
    switch (reply.type) {
      case "ready":
        this.#isReady = true;
        break;
      case "certain":
        if (this.#running) this.#running.certain = reply.checked;
        return;
      case "checked":
        this.#finish(reply.checked);
        break;
      case "failed":
        this.#options.log.warn(`judging an entry failed: ${reply.message}`);
        this.#giveUp("failed");
        break;
    }
    this.#goOn();
  }

  /** What was being judged is given up; what waits goes on in a new thread. */
  #endThread(why: string, refusal: TryRefusal = "failed"): void {
    const worker = this.#worker;
    this.#worker = null;
    this.#isReady = false;
    void worker?.terminate();
    if (this.#isClosed) return;
    this.#options.log.warn(`the thread that judges entries was ended: ${why}`);
    // A thread that can't even start is not tried again until somebody asks.
    if (!this.#running) for (const { resolve } of this.#queue.splice(0)) resolve({ outcome: "refused", why: "failed" });
    this.#giveUp(refusal);
    this.#goOn();
  }

  /** Ends what runs with what is certain of it. */
  #giveUp(why: TryRefusal): void {
    this.#finish(this.#running?.certain ?? { outcome: "refused", why });
  }
}
