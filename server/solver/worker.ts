import { parentPort, workerData } from "node:worker_threads";
import type { Solved } from "./job";

/** What a lane's thread is given and gives back, one job at a time. */
export type LaneRequest = { readonly board: Uint8Array };
export type LaneReply =
  | { readonly type: "ready" }
  | { readonly type: "solved"; readonly solved: Solved }
  | { readonly type: "failed"; readonly message: string };

/** Address of the module whose `solveBoard` does the work. */
export type LaneData = { readonly job: string };

async function serve(): Promise<void> {
  const { job } = workerData as LaneData;
  const { solveBoard } = (await import(job)) as { solveBoard: (board: Uint8Array) => Solved };
  const reply = (message: LaneReply) => parentPort?.postMessage(message);
  parentPort?.on("message", ({ board }: LaneRequest) => {
    try {
      reply({ type: "solved", solved: solveBoard(board) });
    } catch (error) {
      reply({ type: "failed", message: error instanceof Error ? error.message : String(error) });
    }
  });
  reply({ type: "ready" });
}

void serve();
