import type { DerivedWorkings, SolvedAnswers, Solver } from "../solver";
import { within } from "../within";

/** A board that somebody wants answers or lines to: the room's name and the number of the board's last change tell which. */
export type MomentBoard = {
  readonly room: string;
  readonly revision: number;
  readonly board: () => Promise<Uint8Array>;
};

/** The desk has too much to do, or the solver took too long: to be asked again. */
export class DeskBusy extends Error {}

export type DeskRules = {
  /** How long one may take, in ms. */
  readonly patience: number;
  /** How many may wait. */
  readonly queue: number;
};

/** Answers and lines that are kept for those who look at the same moment again, none on any disk. */
const MOST_KEPT = 60;

type Done = { readonly answers: SolvedAnswers } | { readonly workings: DerivedWorkings };

/**
 * Answers and worked lines for moments of replays, worked out by the rooms' own solver. One at a time, so that whoever
 * scrubs through a replay never takes more than one of the solver's threads from the rooms.
 */
export class MomentDesk {
  readonly #solver: Solver;
  readonly #rules: DeskRules;
  readonly #kept = new Map<string, Done>();
  readonly #underWay = new Map<string, Promise<Done>>();
  #last: Promise<unknown> = Promise.resolve();
  #waiting = 0;
  #jobs = 0;

  constructor(solver: Solver, rules: DeskRules) {
    this.#solver = solver;
    this.#rules = rules;
  }

  /** Rejects with {@link DeskBusy} where they can't be had now. */
  async answers(moment: MomentBoard): Promise<SolvedAnswers> {
    const done = await this.#have("answers", moment, (job) =>
      this.#solver.request({ ...job, deliver: (answers) => job.done({ answers }) }),
    );
    if ("answers" in done) return done.answers;
    throw new Error("lines were kept as answers");
  }

  /** Rejects with {@link DeskBusy} where they can't be had now. */
  async workings(moment: MomentBoard): Promise<DerivedWorkings> {
    const done = await this.#have("lines", moment, (job) =>
      this.#solver.derive({ ...job, deliver: (workings) => job.done({ workings }) }),
    );
    if ("workings" in done) return done.workings;
    throw new Error("answers were kept as lines");
  }

  /** Drops what is kept of a room. */
  forget(room: string): void {
    for (const key of this.#kept.keys()) if (key.split(" ")[1] === room) this.#kept.delete(key);
  }

  async #have(what: string, moment: MomentBoard, start: (job: Job) => void): Promise<Done> {
    const key = `${what} ${moment.room} ${moment.revision}`;
    const kept = this.#kept.get(key);
    if (kept) return kept;
    const underWay = this.#underWay.get(key);
    if (underWay) return underWay;
    if (this.#waiting >= this.#rules.queue) throw new DeskBusy("many moments of replays are being solved");
    this.#waiting++;
    const work = this.#last.then(() => this.#work(moment, start));
    this.#last = work.catch(() => {});
    this.#underWay.set(key, work);
    try {
      const done = await work;
      this.#keep(key, done);
      return done;
    } finally {
      this.#waiting--;
      this.#underWay.delete(key);
    }
  }

  async #work({ revision, board: read }: MomentBoard, start: (job: Job) => void): Promise<Done> {
    const board = await read();
    // No room has a space in its name, so that this is none of theirs.
    const room = `moment ${++this.#jobs}`;
    const solved = new Promise<Done>((done) => start({ room, take: () => ({ revision, board }), done }));
    try {
      const done = await within(solved, this.#rules.patience);
      if (done === "late") throw new DeskBusy("solving this moment takes too long");
      return done;
    } finally {
      this.#solver.forget(room);
    }
  }

  #keep(key: string, done: Done): void {
    this.#kept.set(key, done);
    const [oldest] = this.#kept.keys();
    if (this.#kept.size > MOST_KEPT && oldest !== undefined) this.#kept.delete(oldest);
  }
}

type Job = {
  readonly room: string;
  readonly take: () => { readonly revision: number; readonly board: Uint8Array };
  readonly done: (done: Done) => void;
};
