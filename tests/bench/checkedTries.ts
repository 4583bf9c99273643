import { CheckThread } from "../../server/check";
import { readStart } from "../../server/roomStart";
import { USUAL_RULES } from "../../shared/check";
import { boardProblem } from "./circuits";
import { ms, table } from "./table";

/** Tries of each kind whose times count. */
const RUNS = 100;

type Kind = { readonly name: string; readonly key: (run: number) => string; readonly text: (run: number) => string };

/** What a room waits for a try: over to the thread that judges, and back with what explains it. */
export async function checkedTries(): Promise<string> {
  const start = readStart({ kind: "file", file: { format: "addend-circuit", version: 1, ...boardProblem() } });
  if (!start.ok || start.update === null) throw new Error("the board's problem can't be drawn");
  const board = start.update;
  const thread = new CheckThread({ log: { warn: (text) => console.error(text) }, budget: 10_000 });
  // The thread alone does not keep the process.
  const awake = setInterval(() => {}, 1000);
  const time = async (key: string, text: string): Promise<number> => {
    const job = { key, board, wanted: "Ix", card: "total", text, rules: USUAL_RULES, earlier: [], zeroing: null };
    const from = performance.now();
    const checked = await thread.check(job);
    if (checked.outcome !== "judged") throw new Error(`${text} was not judged`);
    return performance.now() - from;
  };
  const rows: (readonly [string, string, string])[] = [];
  for (const { name, key, text } of KINDS) {
    const times: number[] = [];
    for (let run = -20; run < RUNS; run++) {
      const taken = await time(key(run), text(run));
      if (run >= 0) times.push(taken);
    }
    times.sort((a, b) => a - b);
    rows.push([name, ms(times[RUNS / 2] ?? 0), ms(times[RUNS * 0.95] ?? 0)]);
  }
  clearInterval(awake);
  await thread.close();
  return [
    "## The same, over to the thread that judges and back",
    table(["try", "median, ms", "95th percentile, ms"], rows),
  ].join("\n\n");
}

const KINDS: readonly Kind[] = [
  { name: "wrong in no known way; the board is known", key: () => "known", text: (run) => `0.${123456 + run} A` },
  { name: "wrong in no known way; a new board", key: (run) => `new ${run}`, text: (run) => `0.${123456 + run} A` },
];
