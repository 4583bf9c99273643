import { parentPort, workerData } from "node:worker_threads";
import type { Checked, CheckJob } from "./checker";
import type { CheckedStep, StepJob } from "./steps/stepJob";

/** What the thread gives back: to each job "checked" or "failed", and before that maybe what is certain already. */
export type CheckReply =
  | { readonly type: "ready" }
  | { readonly type: "certain"; readonly checked: Checked }
  | { readonly type: "checked"; readonly checked: Checked | CheckedStep }
  | { readonly type: "failed"; readonly message: string };

type CheckModule = {
  readonly checkEntry: (job: CheckJob | StepJob, early: (checked: Checked) => void) => Checked | CheckedStep;
};

/** Serves entries by the module whose address it was given. */
async function serve(): Promise<void> {
  const { checkEntry } = (await import(workerData as string)) as CheckModule;
  const reply = (message: CheckReply) => parentPort?.postMessage(message);
  const early = (checked: Checked) => reply({ type: "certain", checked });
  parentPort?.on("message", (job: CheckJob | StepJob) => {
    try {
      reply({ type: "checked", checked: checkEntry(job, early) });
    } catch (error) {
      reply({ type: "failed", message: error instanceof Error ? error.message : String(error) });
    }
  });
  reply({ type: "ready" });
}

void serve();
