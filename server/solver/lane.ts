import { Worker } from "node:worker_threads";
import type { LaneData, LaneReply, LaneRequest } from "./worker";

export type LaneEvents = {
  readonly onReply: (reply: LaneReply) => void;
  /** The thread ended without being told to: it ran out of memory, or could not start. */
  readonly onLost: (message: string) => void;
};

/** Heap of one thread in MB; what needs more ends its thread and not the process. */
const HEAP_MB = 256;

/** One worker thread. After `end` it gives no more events. */
export class Lane {
  readonly #worker: Worker;
  #isEnded = false;

  constructor(workerData: LaneData, events: LaneEvents) {
    this.#worker = new Worker(new URL("./workerEntry.mjs", import.meta.url), {
      workerData,
      // What was given to the process (a test runner's hooks) is not for the thread.
      execArgv: [],
      resourceLimits: { maxOldGenerationSizeMb: HEAP_MB },
    });
    let fault = "the thread ended";
    this.#worker.on("message", (reply: LaneReply) => this.#isEnded || events.onReply(reply));
    this.#worker.on("error", (error) => {
      fault = error.message;
    });
    this.#worker.on("exit", () => this.#isEnded || events.onLost(fault));
  }

  send(request: LaneRequest): void {
    this.#worker.postMessage(request);
  }

  async end(): Promise<void> {
    this.#isEnded = true;
    await this.#worker.terminate();
  }
}
