import { writeWorkings } from "../../shared/messages";
import { cutWorkings, noWorkings, type Showing, wholeWorkings } from "../access";
import type { DerivedWorkings } from "../solver";

/** A room's newest workings, and the frames in which they go out: one for instructors, one for everybody else. */
export class WorkingsDesk {
  #workings: DerivedWorkings = { ...noWorkings(-1), digest: "" };
  #whole: Uint8Array | null = null;
  #cut: Uint8Array | null = null;

  get workings(): DerivedWorkings {
    return this.#workings;
  }

  /** Number of the change that the workings take in, −1 where there are none. */
  get revision(): number {
    return this.#workings.revision;
  }

  /** Takes workings in, unless newer ones are here, and says whether they say anything new. */
  take(workings: DerivedWorkings): boolean {
    const before = this.#workings;
    if (before.revision > workings.revision) return false;
    this.#workings = workings;
    this.showOthers();
    const isSame = before.digest === workings.digest && before.failure === null && workings.failure === null;
    return before.revision < 0 || !isSame;
  }

  /** To be called when other lines or cards are shown than before. */
  showOthers(): void {
    this.#whole = null;
    this.#cut = null;
  }

  /** All of the workings as a frame, with how much of them is shown; null where there are none yet. */
  wholeFrame(showing: Showing): Uint8Array | null {
    if (this.revision >= 0) this.#whole ??= writeWorkings(wholeWorkings(this.#workings, showing));
    return this.#whole;
  }

  /** The lines that are shown, as a frame. */
  cutFrame(showing: Showing): Uint8Array | null {
    if (this.revision >= 0) this.#cut ??= writeWorkings(cutWorkings(this.#workings, showing));
    return this.#cut;
  }
}
