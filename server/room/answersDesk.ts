import { type Answers, writeAnswers } from "../../shared/messages";
import type { Report } from "../../shared/solve";
import { type Found, hideAnswers } from "../access";
import type { SolvedAnswers } from "../solver";

/** Which answers those who don't instruct are sent: those of cards that are shown, and values that they have found. */
export type ShownParts = {
  readonly isShown: (card: string) => boolean;
  readonly foundIn: (report: Report) => Found;
};

/** A room's newest answers, and the frames in which they go out: one with all of them, one without the hidden ones. */
export class AnswersDesk {
  #answers: SolvedAnswers | null = null;
  #whole: Uint8Array | null = null;
  #shown: Uint8Array | null = null;

  get answers(): SolvedAnswers | null {
    return this.#answers;
  }

  /** Number of the change that the answers take in, −1 where there are none. */
  get revision(): number {
    return this.#answers?.revision ?? -1;
  }

  /** Takes answers in, unless newer ones are here, and says whether it did. */
  take(answers: SolvedAnswers): boolean {
    if (this.revision > answers.revision) return false;
    this.#answers = answers;
    this.#whole = null;
    this.#shown = null;
    return true;
  }

  /** To be called when other cards are shown than before. */
  showOthers(): void {
    this.#shown = null;
  }

  /** All of the answers as a frame; null where there are none yet. */
  wholeFrame(): Uint8Array | null {
    this.#whole ??= this.#answers && writeAnswers(withHidden(this.#answers, ALL));
    return this.#whole;
  }

  /** The answers that are shown, as a frame. */
  shownFrame(parts: ShownParts): Uint8Array | null {
    this.#shown ??= this.#answers && writeAnswers(withHidden(this.#answers, parts));
    return this.#shown;
  }
}

const ALL: ShownParts = { isShown: () => true, foundIn: () => () => false };

function withHidden(answers: SolvedAnswers, { isShown, foundIn }: ShownParts): Answers {
  const { report } = answers;
  return { ...answers, report: report && hideAnswers(report, isShown, foundIn(report)) };
}
