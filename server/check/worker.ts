import { parentPort, workerData } from "node:worker_threads";
import type { Checked, CheckJob } from "./checker";

/** What the thread gives back, one reply to each job. */
export type CheckReply =
  | { readonly type: "ready" }
  | { readonly type: "checked"; readonly checked: Checked }
  | { readonly type: "failed"; readonly message: string };

/** Serves entries by the module whose address it was given. */
async function serve(): Promise<void> {
  const { checkEntry } = (await import(workerData as string)) as { checkEntry: (job: CheckJob) => Checked };
  const reply = (message: CheckReply) => parentPort?.postMessage(message);
  parentPort?.on("message", (job: CheckJob) => {
    try {
      reply({ type: "checked", checked: checkEntry(job) });
    } catch (error) {
      reply({ type: "failed", message: error instanceof Error ? error.message : String(error) });
    }
  });
  reply({ type: "ready" });
}

void serve();
