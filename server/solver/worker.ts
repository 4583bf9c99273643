import { constants, getPriority, setPriority } from "node:os";
import { parentPort, workerData } from "node:worker_threads";

/** What a lane's thread is given and gives back, one job at a time. */
export type LaneRequest = { readonly board: Uint8Array };
export type LaneReply =
  | { readonly type: "ready" }
  | { readonly type: "done"; readonly done: unknown }
  | { readonly type: "failed"; readonly message: string };

/** What a thread does: the function of that name in the module at that address. */
export type LaneData = {
  readonly job: string;
  readonly does: "solveBoard" | "deriveBoard";
  /** Whether the other threads go before it. */
  readonly isPatient: boolean;
};

type Work = (board: Uint8Array) => unknown;

async function serve(): Promise<void> {
  const { job, does, isPatient } = workerData as LaneData;
  const work = ((await import(job)) as Record<LaneData["does"], Work>)[does];
  if (isPatient) giveWay();
  const reply = (message: LaneReply) => parentPort?.postMessage(message);
  parentPort?.on("message", ({ board }: LaneRequest) => {
    try {
      reply({ type: "done", done: work(board) });
    } catch (error) {
      reply({ type: "failed", message: error instanceof Error ? error.message : String(error) });
    }
  });
  reply({ type: "ready" });
}

/**
 * On Linux each thread has a priority of its own, and 0 is the one that asks; elsewhere it would be the whole process. A
 * server that was started with a lower one keeps it: few may raise theirs.
 */
function giveWay(): void {
  const { PRIORITY_BELOW_NORMAL } = constants.priority;
  if (process.platform === "linux" && getPriority(0) < PRIORITY_BELOW_NORMAL) setPriority(0, PRIORITY_BELOW_NORMAL);
}

void serve();
