import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";

/** Runs before the first that counts, so that the engine has compiled what it is going to. */
const WARM_UP_MS = 800;

export type Task = { readonly name: string; readonly run: () => unknown };
/** Median and quartiles of one task's times, in ms. */
export type Timing = {
  readonly name: string;
  readonly median: number;
  readonly low: number;
  readonly high: number;
  readonly runs: number;
};

/** A sample is a block of runs at least this long: a single short one would mostly time the caches left by its neighbour. */
const BLOCK_MS = 4;

/**
 * Times tasks in turn, one block of each a round, so that whatever else the machine does falls on all of them alike and
 * their ratios can be trusted more than the times. Goes on for `seconds`, but for at least `leastRounds` rounds.
 */
export function timeTogether(tasks: readonly Task[], seconds: number, leastRounds = 5): readonly Timing[] {
  for (const { run } of tasks) warmUp(run);
  const times = tasks.map((): number[] => []);
  const end = performance.now() + 1000 * seconds;
  for (let round = 0; round < leastRounds || performance.now() < end; round++) {
    for (const [index, { run }] of tasks.entries()) times[index]?.push(elapsed(run));
  }
  return tasks.map(({ name }, index) => timingOf(name, times[index] ?? []));
}

function warmUp(run: () => unknown): void {
  const end = performance.now() + WARM_UP_MS;
  do run();
  while (performance.now() < end);
}

setFlagsFromString("--expose-gc");
const collect = runInNewContext("gc") as (options: { readonly type: "minor" }) => void;

/** Time of one run, as the mean of a block, which pays for the garbage that it makes and not for its neighbour's. */
function elapsed(run: () => unknown): number {
  collect({ type: "minor" });
  const start = performance.now();
  let runs = 0;
  let time = 0;
  do {
    run();
    runs++;
    time = performance.now() - start;
  } while (time < BLOCK_MS);
  return time / runs;
}

function timingOf(name: string, times: readonly number[]): Timing {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
  return { name, median: at(0.5), low: at(0.25), high: at(0.75), runs: sorted.length };
}
