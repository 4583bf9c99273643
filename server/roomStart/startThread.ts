import { Worker } from "node:worker_threads";
import type { RoomStart } from "../../shared/messages";
import { readStart, type StartReading } from "./readStart";

/** Heap of the thread in MB; what needs more ends the thread and not the process. */
const HEAP_MB = 256;
/** How many files may wait; more are told to come again. */
const QUEUE = 10;

/**
 * Reads what rooms begin with. Files, which may have thousands of parts and take a second to lay out, are read in a thread
 * of their own, one at a time, so that no room waits for them.
 */
export class StartThread {
  readonly #budget: number;
  #waiting = 0;
  #last: Promise<unknown> = Promise.resolve();

  /** `budget` is how long one file may take, in ms. */
  constructor(budget: number) {
    this.#budget = budget;
  }

  /** Never rejects for anything that a file can hold. */
  async read(start: RoomStart): Promise<StartReading> {
    if (start.kind !== "file") return readStart(start);
    if (this.#waiting >= QUEUE) {
      return {
        ok: false,
        code: "unavailable",
        text: "Many files are being opened at the moment. Try again in a while.",
      };
    }
    this.#waiting++;
    const reading = this.#last.then(() => this.#readAside(start));
    // Whatever became of it, the next one has its turn.
    this.#last = reading.catch(() => {});
    try {
      return await reading;
    } finally {
      this.#waiting--;
    }
  }

  async #readAside(start: RoomStart): Promise<StartReading> {
    const worker = new Worker(new URL("./workerEntry.mjs", import.meta.url), {
      workerData: start,
      // What was given to the process (a test runner's hooks) is not for the thread.
      execArgv: [],
      resourceLimits: { maxOldGenerationSizeMb: HEAP_MB },
    });
    let timer: NodeJS.Timeout | null = null;
    try {
      return await new Promise<StartReading>((resolve, reject) => {
        timer = setTimeout(() => resolve(overBudget(this.#budget)), this.#budget);
        worker.once("message", resolve);
        worker.once("error", reject);
        worker.once("exit", () => reject(new Error("the thread that reads files ended without a word")));
      });
    } finally {
      if (timer) clearTimeout(timer);
      await worker.terminate();
    }
  }
}

function overBudget(milliseconds: number): StartReading {
  const text = `Opening this file took more than ${milliseconds / 1000} s and was ended. A smaller circuit can be opened.`;
  return { ok: false, code: "badFile", text };
}
