import { unreachable } from "../../shared/circuit";
import type { SolverFailure } from "../../shared/messages";
import type { Log } from "../log";
import { Lane } from "./lane";
import { advance, type Rules, type ScheduleAction, type ScheduleEvent, startSchedule } from "./schedule";
import type { BoardAtTurn } from "./solver";
import type { LaneData, LaneReply } from "./worker";

export type LaneOptions = {
  /** What the log calls it. */
  readonly name: string;
  readonly work: LaneData;
  readonly rules: Rules;
  readonly log: Log;
  /** How many threads; two let quick rooms pass a slow one. */
  readonly lanes: number;
};

export type LaneJob<Done> = {
  readonly room: string;
  readonly take: () => BoardAtTurn;
  readonly deliver: (outcome: LaneOutcome<Done>) => void;
};

/** What came of the board at a revision: one of `done` and `failure` is null. */
export type LaneOutcome<Done> = {
  readonly revision: number;
  readonly done: Done | null;
  readonly failure: SolverFailure | null;
};

/** Longest pause, in ms, before a thread that could not start is tried again. */
const LONGEST_PAUSE = 10_000;

type Running<Done> = { readonly job: LaneJob<Done>; readonly revision: number };

/** Does one kind of work on rooms' boards in worker threads, as `schedule` says. */
export class LanePool<Done> {
  readonly #options: LaneOptions;
  readonly #lanes: Lane[];
  readonly #running: (Running<Done> | null)[];
  readonly #jobs = new Map<string, LaneJob<Done>>();
  #schedule;
  #alarm: NodeJS.Timeout | null = null;
  #lostInARow = 0;
  #isClosed = false;

  constructor(options: LaneOptions) {
    const count = options.lanes;
    this.#options = options;
    this.#schedule = startSchedule(count);
    this.#running = Array.from({ length: count }, () => null);
    this.#lanes = Array.from({ length: count }, (_, index) => this.#startLane(index));
  }

  /** A job of the same room that still waits is replaced, and keeps its turn. */
  request(job: LaneJob<Done>): void {
    this.#jobs.set(job.room, job);
    this.#happened({ type: "requested", room: job.room });
  }

  /** Drops the room's waiting job; what is under way is not delivered. */
  forget(room: string): void {
    this.#jobs.delete(room);
    this.#happened({ type: "forgotten", room });
  }

  async close(): Promise<void> {
    this.#isClosed = true;
    if (this.#alarm) clearTimeout(this.#alarm);
    await Promise.all(this.#lanes.map((lane) => lane.end()));
  }

  #happened(event: ScheduleEvent): void {
    if (this.#isClosed) return;
    const now = performance.now();
    const { schedule, actions, wakeAt } = advance(this.#schedule, event, now, this.#options.rules);
    this.#schedule = schedule;
    if (this.#alarm) clearTimeout(this.#alarm);
    // Timers may fire a fraction of a millisecond early; one more makes sure that the time has come.
    const look = () => this.#happened({ type: "looked" });
    this.#alarm = wakeAt === null ? null : setTimeout(look, Math.max(0, wakeAt - now) + 1).unref();
    for (const action of actions) this.#act(action);
  }

  #act(action: ScheduleAction): void {
    const { lane } = action;
    switch (action.type) {
      case "start": {
        const job = this.#jobs.get(action.room);
        if (job) this.#start(lane, job);
        else this.#happened({ type: "finished", lane });
        break;
      }
      case "end":
        void this.#lanes[lane]?.end();
        if (action.why === "overBudget") {
          this.#deliver(lane, null, { code: "overBudget", milliseconds: this.#options.rules.budget });
        }
        this.#running[lane] = null;
        this.#lanes[lane] = this.#startLane(lane);
        break;
      default:
        unreachable(action);
    }
  }

  #start(lane: number, job: LaneJob<Done>): void {
    const { revision, board } = job.take();
    this.#running[lane] = { job, revision };
    this.#lanes[lane]?.send({ board });
  }

  #startLane(index: number): Lane {
    return new Lane(this.#options.work, {
      onReply: (reply) => this.#replied(index, reply),
      onLost: (message) => this.#lost(index, message),
    });
  }

  #replied(lane: number, reply: LaneReply): void {
    const { log, name } = this.#options;
    switch (reply.type) {
      case "ready":
        this.#happened({ type: "ready", lane });
        break;
      case "done":
        this.#lostInARow = 0;
        this.#deliver(lane, reply.done as Done, null);
        this.#happened({ type: "finished", lane });
        break;
      case "failed":
        log.warn(`${name} failed: ${reply.message}`);
        this.#deliver(lane, null, { code: "failed", message: reply.message });
        this.#happened({ type: "finished", lane });
        break;
      default:
        unreachable(reply);
    }
  }

  #lost(lane: number, message: string): void {
    const { log, name } = this.#options;
    log.warn(`${name}'s thread was lost: ${message}`);
    this.#deliver(lane, null, { code: "failed", message });
    this.#happened({ type: "lost", lane });
    const pause = Math.min(100 * 2 ** this.#lostInARow++, LONGEST_PAUSE);
    setTimeout(() => {
      if (!this.#isClosed) this.#lanes[lane] = this.#startLane(lane);
    }, pause).unref();
  }

  #deliver(lane: number, done: Done | null, failure: SolverFailure | null): void {
    const running = this.#running[lane];
    this.#running[lane] = null;
    // A room that was forgotten meanwhile has no use for it.
    if (!running || !this.#jobs.has(running.job.room)) return;
    running.job.deliver({ revision: running.revision, done, failure });
  }
}
