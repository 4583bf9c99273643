import type { Answers, Workings } from "../../shared/messages";
import {
  type Idle,
  idleStretches,
  lastPlayed,
  nextEdit,
  type Outdated,
  playedTo,
  sequenceAt,
  type Timeline,
  timeOf,
} from "../../shared/replay";
import type { Refusal } from "../access";
import { AnswersDesk, type Deliver, tellingBefore } from "./answersDesk";
import { isPassing, RETRYING, type ReplaySource } from "./replayApi";
import { EMPTY_ROOM, SessionLog, type ShownRoom } from "./sessionLog";

/** How many times as fast as it was a session is played. */
export const SPEEDS = [0.5, 1, 2, 4, 8, 16] as const;
export type Speed = (typeof SPEEDS)[number];

/** Times in which nothing happened for at least this long, in ms, can be passed over. */
const IDLE = 15_000;
/** How much of the session, in ms of its own time, is fetched ahead of where it is played. */
const AHEAD = 40_000;

export type ReplayState = {
  /** The time that is shown, in ms since 1970: between two entries it goes on by itself while the session is played. */
  readonly time: number;
  /** Sequence of the last entry that had come by then. */
  readonly at: number;
  /** The room as it was; of another moment while that one is fetched. The same object for as long as nothing is to be seen. */
  readonly shown: ShownRoom;
  /** The answers and lines that the server computed for that moment, or for one before it while they are awaited. */
  readonly answers: Answers | null;
  readonly workings: Workings | null;
  /** What was tried before and is outdated by those answers. */
  readonly outdated: Outdated | null;
  readonly areAnswersAwaited: boolean;
  readonly isPlaying: boolean;
  readonly speed: Speed;
  readonly passesIdle: boolean;
  /** The stretch that was passed over last, since the session began to be played. */
  readonly passed: Idle | null;
  /** Whether the moment that is wanted is still being fetched. */
  readonly isFetching: boolean;
  /** Why the moment that is wanted could not be fetched; null where it could. */
  readonly fault: string | null;
  /** Why its answers could not be had, so far: they are asked for again. Null where they could. */
  readonly answersFault: string | null;
};

/** A session that is played back: a store for `useSyncExternalStore`, and what moves it. Whoever plays it calls `tick`. */
export class ReplayPlayer {
  readonly log: SessionLog;
  readonly timeline: Timeline;
  readonly idle: readonly Idle[];
  /** Sequence of the last entry that is played, and its time; those of the first. */
  readonly last: number;
  readonly end: number;
  readonly beginning: number;
  #state: ReplayState;
  readonly #desk: AnswersDesk;
  readonly #listeners = new Set<() => void>();
  #loading: Promise<void> | null = null;
  #retrying: ReturnType<typeof setTimeout> | null = null;
  /** The moment of `shown`, in which nothing may be seen of the entries since the last that changed something. */
  #shownAt = 0;
  /** What was fetched ahead last. */
  #fetchedFrom = 0;
  #fetchedAhead = 0;
  /** The moment whose answers and lines are shown. */
  #answered = -1;
  #isClosed = false;

  constructor(source: ReplaySource, timeline: Timeline, at: number) {
    this.timeline = timeline;
    this.log = new SessionLog(source);
    this.idle = idleStretches(timeline, IDLE);
    this.last = lastPlayed(timeline);
    this.end = timeOf(timeline, this.last);
    this.beginning = timeOf(timeline, 0);
    this.#desk = new AnswersDesk(source, (sequence, computed) => this.#hear(sequence, computed));
    this.#state = {
      time: this.beginning,
      at: 0,
      shown: EMPTY_ROOM,
      answers: null,
      workings: null,
      outdated: null,
      areAnswersAwaited: true,
      isPlaying: false,
      speed: 1,
      passesIdle: true,
      passed: null,
      isFetching: false,
      fault: null,
      answersFault: null,
    };
    this.goTo(at);
  }

  readonly getState = (): ReplayState => this.#state;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  /** Shows the moment right after an entry. */
  goTo(sequence: number): void {
    const at = Math.min(Math.max(sequence, 0), this.last);
    this.#move({ time: timeOf(this.timeline, at), at, passed: null });
  }

  /** Shows what the room was at a time. */
  goToTime(time: number): void {
    const within = Math.min(Math.max(time, this.beginning), this.end);
    this.#move({ time: within, at: Math.min(sequenceAt(this.timeline, within), this.last), passed: null });
  }

  /** Goes to the next edit of the board, or to the one before; the beginning and the end count as edits. */
  stepEdit(step: 1 | -1): void {
    this.pause();
    const edit = nextEdit(this.timeline, this.#state.at, step);
    this.goTo(edit ?? (step === 1 ? this.last : 0));
  }

  /** When an entry came. */
  timeOf(sequence: number): number {
    return timeOf(this.timeline, sequence);
  }

  readonly play = (): void => {
    if (this.last === 0) return;
    if (this.#state.time >= this.end) this.goTo(0);
    this.#change({ isPlaying: true, passed: null });
  };

  readonly pause = (): void => {
    this.#change({ isPlaying: false });
  };

  setSpeed(speed: Speed): void {
    this.#change({ speed });
  }

  setPassesIdle(passesIdle: boolean): void {
    this.#change({ passesIdle });
  }

  /** Tries again to fetch what could not be fetched. */
  tryAgain(): void {
    this.#show();
  }

  /** Goes on by some ms of the clock on the wall. Stands still while what comes next is being fetched. */
  tick(elapsed: number): void {
    const { isPlaying, time, speed, passesIdle, fault } = this.#state;
    if (!isPlaying || fault !== null || this.#loading) return;
    const stretches = passesIdle ? this.idle : [];
    const next = playedTo(this.timeline, time, elapsed, speed, stretches);
    const passed = stretches.find(({ from, to }) => from < next && to > time && to <= next);
    const at = Math.min(sequenceAt(this.timeline, next), this.last);
    this.#move({ time: next, at, ...(passed ? { passed } : {}) });
    if (next >= this.end) this.pause();
  }

  close(): void {
    this.#isClosed = true;
    this.#retryNoMore();
    this.#desk.close();
    this.log.close();
    this.#listeners.clear();
  }

  #move(to: Pick<ReplayState, "time" | "at"> & Partial<ReplayState>): void {
    this.#change(to);
    this.#show();
  }

  /** Shows the room at the moment that is wanted, at once where it is loaded. */
  #show(): void {
    const { at, shown, isPlaying } = this.#state;
    if (this.#isClosed) return;
    if (this.#shownAt !== at) {
      if (!this.log.isLoaded(at)) {
        this.#load();
        return;
      }
      const now = this.log.goTo(at);
      this.#shownAt = at;
      if (!isAlike(shown, now)) this.#change({ shown: now });
    }
    this.#retryNoMore();
    this.#change({ isFetching: false, fault: null });
    const telling = tellingBefore(this.timeline, at);
    this.#desk.want(telling, isPlaying);
    this.#change({ areAnswersAwaited: telling !== this.#answered });
    this.#fetchAhead();
  }

  #hear(sequence: number, { refusal, ...computed }: Parameters<Deliver>[1]): void {
    const isWhole = computed.workings !== undefined;
    if (isWhole) this.#answered = sequence;
    const isOfNow = isWhole && sequence === tellingBefore(this.timeline, this.#state.at);
    this.#change({ ...computed, answersFault: refusal?.text ?? null, areAnswersAwaited: !isOfNow });
  }

  /** One loading at a time; what was wanted meanwhile is loaded next. */
  #load(): void {
    if (this.#loading) return;
    this.#retryNoMore();
    this.#change({ isFetching: true });
    const { at } = this.#state;
    this.#loading = this.log.load(at).then((refusal) => {
      this.#loading = null;
      if (refusal) this.#fail(refusal);
      else this.#show();
    });
  }

  /** What is played goes on by itself once the server is there again. */
  #fail(refusal: Refusal): void {
    this.#change({ isFetching: false, fault: refusal.text });
    if (!isPassing(refusal)) this.pause();
    else if (!this.#isClosed) this.#retrying = setTimeout(() => this.#show(), RETRYING);
  }

  #retryNoMore(): void {
    if (this.#retrying !== null) clearTimeout(this.#retrying);
    this.#retrying = null;
  }

  #fetchAhead(): void {
    const { time, at, speed } = this.#state;
    const until = Math.min(sequenceAt(this.timeline, time + AHEAD * Math.max(1, speed)), this.last);
    const half = Math.min(sequenceAt(this.timeline, time + (AHEAD * Math.max(1, speed)) / 2), this.last);
    const isCovered = this.#fetchedAhead >= half && this.#fetchedFrom <= at;
    if (isCovered || until <= at) return;
    this.#fetchedFrom = at;
    this.#fetchedAhead = until;
    void this.log.loadEntries(at + 1, until);
  }

  #change(part: Partial<ReplayState>): void {
    const keys = Object.keys(part) as (keyof ReplayState)[];
    if (keys.every((key) => this.#state[key] === part[key])) return;
    this.#state = { ...this.#state, ...part };
    for (const listener of this.#listeners) listener();
  }
}

/** Whether two moments of a room look alike, whatever their time. */
function isAlike(a: ShownRoom, b: ShownRoom): boolean {
  const isSame = a.board === b.board && a.ink === b.ink;
  return isSame && SEEN.every((field) => a.moment[field] === b.moment[field]);
}

const SEEN = ["settings", "here", "looks", "tries", "steps", "call"] as const;
