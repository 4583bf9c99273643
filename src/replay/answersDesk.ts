import type { Answers, Workings } from "../../shared/messages";
import { numberOfKind, type Outdated, type Timeline } from "../../shared/replay";
import type { Refusal } from "../access";
import { isPassing, RETRYING, type ReplaySource } from "./replayApi";

/** What is computed for a moment; lines are null where they could not be had. */
export type Computed = {
  readonly answers: Answers | null;
  readonly outdated: Outdated | null;
  readonly workings: Workings | null;
};

/**
 * Told of each moment first its answers, and what is outdated by them, without `workings`, and then all; and why what is not
 * there could not be had.
 */
export type Deliver = (sequence: number, computed: Partial<Computed> & { readonly refusal?: Refusal }) => void;

/** How long a moment has to stand before its answers are asked for, and how often they are while it moves, in ms. */
const SETTLING = 120;
const PACE = 400;
/** Moments whose answers are kept. */
const KEPT = 60;

/** Entries after which answers, or what is shown of them, may be others. */
const TELLING = new Set(["update", "settings", "reveal", "lines", "try"].map(numberOfKind));

/** The last entry up to a moment that may have changed its answers; 0 where there is none. */
export function tellingBefore({ kinds, length }: Timeline, at: number): number {
  let sequence = Math.min(at, length);
  while (sequence > 0 && !TELLING.has(kinds[sequence - 1] as number)) sequence--;
  return sequence;
}

/**
 * Gets the answers and worked lines of the moment that is shown from the server: not before it has stood for a little while,
 * now and then while it is played, and one moment at a time.
 */
export class AnswersDesk {
  readonly #source: ReplaySource;
  readonly #deliver: Deliver;
  readonly #kept = new Map<number, Computed>();
  #wanted = -1;
  #timer: ReturnType<typeof setTimeout> | null = null;
  #isAsking = false;
  #isClosed = false;

  constructor(source: ReplaySource, deliver: Deliver) {
    this.#source = source;
    this.#deliver = deliver;
  }

  /** Wants the answers of the moment right after an entry, as {@link tellingBefore} names it. */
  want(sequence: number, isPlaying: boolean): void {
    if (sequence === this.#wanted) return;
    this.#wanted = sequence;
    const known = this.#kept.get(sequence);
    if (known) this.#deliver(sequence, known);
    else this.#askLater(isPlaying ? PACE : SETTLING, !isPlaying);
  }

  close(): void {
    this.#isClosed = true;
    if (this.#timer !== null) clearTimeout(this.#timer);
  }

  #askLater(wait: number, isAnew: boolean): void {
    if (this.#timer !== null && !isAnew) return;
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      this.#timer = null;
      void this.#ask();
    }, wait);
  }

  async #ask(): Promise<void> {
    const sequence = this.#wanted;
    if (this.#isAsking || this.#kept.has(sequence)) return;
    this.#isAsking = true;
    const refusal = await this.#fetch(sequence).finally(() => {
      this.#isAsking = false;
    });
    if (this.#isClosed) return;
    if (this.#wanted !== sequence) this.#askLater(SETTLING, false);
    else if (refusal && isPassing(refusal)) this.#askLater(RETRYING, false);
  }

  /** Delivers what can be had. Gives why all of it could not. */
  async #fetch(sequence: number): Promise<Refusal | null> {
    const asked = await this.#source.answers(sequence);
    if (this.#isClosed) return null;
    if (!asked.ok) return this.#refuse(sequence, {}, asked.refusal);
    const { answers, outdated } = asked.value;
    this.#deliver(sequence, { answers, outdated });
    const lines = await this.#source.workings(sequence);
    if (this.#isClosed) return null;
    if (!lines.ok) return this.#refuse(sequence, { answers, outdated, workings: null }, lines.refusal);
    const computed = { answers, outdated, workings: lines.value.workings };
    this.#keep(sequence, computed);
    this.#deliver(sequence, computed);
    return null;
  }

  #refuse(sequence: number, computed: Partial<Computed>, refusal: Refusal): Refusal {
    this.#deliver(sequence, { ...computed, refusal });
    return refusal;
  }

  #keep(sequence: number, computed: Computed): void {
    this.#kept.set(sequence, computed);
    const [oldest] = this.#kept.keys();
    if (this.#kept.size > KEPT && oldest !== undefined) this.#kept.delete(oldest);
  }
}
