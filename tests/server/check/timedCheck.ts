import type { Checked, CheckJob } from "../../../server/check";

const right = (answer: string): Checked => ({
  outcome: "judged",
  judgement: { outcome: "right" },
  answer,
  explanations: [],
  follows: [],
});

/** A check whose text says what to do: take milliseconds, `forever`, `throw` or `exit`; `certain` before it comes early. */
export function checkEntry(job: CheckJob, early: (checked: Checked) => void): Checked {
  if (job.isToExplain === false && job.text.includes("unless told")) return right("told");
  const text = job.text.replace("certain ", "");
  if (text !== job.text) early(right("certain"));
  if (text === "throw") throw new Error("this entry breaks the check");
  if (text === "exit") process.exit(3);
  const end = text === "forever" ? Number.POSITIVE_INFINITY : performance.now() + Number(text);
  while (performance.now() < end);
  return right(text);
}
