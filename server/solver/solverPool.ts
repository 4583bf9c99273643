import { noWorkings } from "../access/wholeWorkings";
import type { Log } from "../log";
import type { Derived } from "./deriveJob";
import type { Solved } from "./job";
import { type LaneOutcome, LanePool } from "./lanePool";
import type { Rules } from "./schedule";
import type { DeriveJob, Solver, SolverJob } from "./solver";

export type PoolOptions = {
  /** For answers and for workings alike. */
  readonly rules: Rules;
  readonly log: Log;
  /** How many threads of each kind. */
  readonly lanes?: number;
  /** Module whose `solveBoard` solves. */
  readonly job?: URL;
  /** Module whose `deriveBoard` works out lines. */
  readonly derivation?: URL;
};

/**
 * Solves rooms' boards and works out their lines. Each has threads of its own, so that no answer waits for a working;
 * those for workings start with the first one, and give way where the processor is short.
 */
export class SolverPool implements Solver {
  readonly #options: PoolOptions;
  readonly #solving: LanePool<Solved>;
  #deriving: LanePool<Derived> | null = null;

  constructor(options: PoolOptions) {
    const job = options.job ?? new URL("./job.ts", import.meta.url);
    this.#options = options;
    this.#solving = new LanePool({
      name: "the solver",
      work: { job: job.href, does: "solveBoard", isPatient: false },
      rules: options.rules,
      log: options.log,
      lanes: options.lanes ?? 2,
    });
  }

  request(job: SolverJob): void {
    this.#solving.request({
      ...job,
      deliver: ({ revision, done, failure }) => {
        const { report, boardProblems } = done ?? { report: null, boardProblems: [] };
        job.deliver({ revision, report, boardProblems, failure });
      },
    });
  }

  derive(job: DeriveJob): void {
    this.#deriving ??= this.#startDeriving();
    this.#deriving.request({ ...job, deliver: (outcome) => this.#derived(job, outcome) });
  }

  forget(room: string): void {
    this.#solving.forget(room);
    this.#deriving?.forget(room);
  }

  async close(): Promise<void> {
    await Promise.all([this.#solving.close(), this.#deriving?.close()]);
  }

  #startDeriving(): LanePool<Derived> {
    const { derivation, rules, log, lanes } = this.#options;
    const job = derivation ?? new URL("./deriveJob.ts", import.meta.url);
    const work = { job: job.href, does: "deriveBoard", isPatient: true } as const;
    return new LanePool({ name: "working out lines", work, rules, log, lanes: lanes ?? 2 });
  }

  #derived(job: DeriveJob, { revision, done, failure }: LaneOutcome<Derived>): void {
    if (done === null) {
      job.deliver({ ...noWorkings(revision, failure), digest: "" });
      return;
    }
    const { faults, ...workings } = done;
    const [first, ...others] = faults;
    if (first) {
      const { where, line, got, expected } = first;
      const more = others.length === 0 ? "" : `, and ${others.length} more`;
      this.#options.log.warn(
        `room "${job.room}", change ${revision}: a line of ${where} was withheld (${line} came to ${got}, not ${expected})${more}`,
      );
    }
    job.deliver({ revision, ...workings });
  }
}
