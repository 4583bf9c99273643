import type { TryProgress } from "../../shared/messages";

/** How long a change of a try may go unnoted, in ms: people draw many times a second. */
const DELAY = 1000;

/** Notes how far a try is, for the list that instructors have: soon after each change, and at once when it is left. */
export class ProgressNote {
  readonly #write: (progress: TryProgress) => void;
  #counted: Pick<TryProgress, "right" | "cards"> | null = null;
  #changedAt: number;
  #isDue = false;
  #timer: NodeJS.Timeout | null = null;

  /** `changedAt` is when something was last drawn or entered as far as the history tells. */
  constructor(changedAt: number, write: (progress: TryProgress) => void) {
    this.#changedAt = changedAt;
    this.#write = write;
  }

  /** Something was drawn or entered. */
  changed(at: number): void {
    this.#changedAt = at;
    this.#noteSoon();
  }

  /** How many of its cards are right was counted. */
  counted(counted: Pick<TryProgress, "right" | "cards">): void {
    const before = this.#counted;
    this.#counted = counted;
    if (before?.right !== counted.right || before.cards !== counted.cards) this.#noteSoon();
  }

  /** Writes what is due. Before anything was counted nothing is. */
  flush(): void {
    this.destroy();
    if (this.#isDue && this.#counted) {
      this.#isDue = false;
      this.#write({ ...this.#counted, changedAt: this.#changedAt });
    }
  }

  destroy(): void {
    if (this.#timer) clearTimeout(this.#timer);
    this.#timer = null;
  }

  #noteSoon(): void {
    this.#isDue = true;
    this.#timer ??= setTimeout(() => this.flush(), DELAY).unref();
  }
}
