import { checkEntry as checkValue } from "./checkEntry";
import type { Checked, CheckJob } from "./checker";
import { checkStep } from "./steps/checkStep";
import type { CheckedStep, StepJob } from "./steps/stepJob";

/** What the thread does with a job, by its kind: a value that is tried, or a step on the way to one. */
export function checkEntry(job: CheckJob | StepJob, early: (checked: Checked) => void): Checked | CheckedStep {
  return "step" in job ? checkStep(job) : checkValue(job, early);
}
