import { type Answers, writeAnswers } from "../../shared/messages";
import { hideAnswers } from "../access";
import type { SolvedAnswers } from "../solver";

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
    this.#whole ??= this.#answers && writeAnswers(withHidden(this.#answers, () => true));
    return this.#whole;
  }

  /** The answers to the cards that are shown, as a frame. */
  shownFrame(isShown: (card: string) => boolean): Uint8Array | null {
    this.#shown ??= this.#answers && writeAnswers(withHidden(this.#answers, isShown));
    return this.#shown;
  }
}

function withHidden(answers: SolvedAnswers, isShown: (card: string) => boolean): Answers {
  return { ...answers, report: answers.report && hideAnswers(answers.report, isShown) };
}
