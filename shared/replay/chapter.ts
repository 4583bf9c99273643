import { TOTAL_CARD, tidyCard } from "../messages";
import { unreachable } from "../quantity";
import type { ReplayEvent, ReplayStep, ReplayTry, SettingChange } from "./event";

/** A place in a replay that is worth going to. */
export type Chapter = {
  /** The same each time that the chapters are found. */
  readonly id: string;
  /** Sequence of the entry at which it begins. */
  readonly sequence: number;
  /** When that was, in milliseconds since 1970. */
  readonly time: number;
  readonly subject: ChapterSubject;
  /** What an instructor called it; null where nobody has. */
  readonly title: string | null;
};

/** Why a chapter begins. Cards are named as in `cardOf`, participants by their numbers. */
export type ChapterSubject =
  /** From here on the circuit answers what is wanted. */
  | { readonly code: "solved"; readonly wanted: readonly string[] }
  /** An addend was opened for the first time. */
  | { readonly code: "opened"; readonly card: string; readonly participant: number }
  | ({ readonly code: "wrong" } & Judged)
  /** The right one came to a card that had had a wrong one; `wrong` is the sequence of the last wrong one. */
  | ({ readonly code: "mended"; readonly wrong: number } & Judged)
  /** Answers were shown; `cards` is empty where all were. */
  | { readonly code: "revealed"; readonly cards: readonly string[] }
  /** An instructor added it. */
  | { readonly code: "added" };

/** What was wrong or right at a card: a value of a wanted quantity, or a step on the way to it, which no quantity has. */
export type Judged = {
  readonly what: "value" | ReplayStep["step"];
  readonly wanted: string | null;
  readonly card: string;
  readonly participant: number;
};

/** Finds the chapters of a replay in its events, in their order; chapters that an instructor edited are as they left them. */
export class ChapterFinder {
  readonly #found: Chapter[] = [];
  readonly #edits = new Map<string, { readonly title: string | null; readonly isRemoved: boolean }>();
  readonly #opened = new Set<string>();
  /** Sequence of the newest wrong value, zeroing and line of each card that has not been mended. */
  readonly #wrong = new Map<string, number>();
  #solved = "";

  /** Takes the next event in. */
  take(event: ReplayEvent): void {
    switch (event.kind) {
      case "solved":
        this.#takeSolved(event);
        break;
      case "look":
        this.#takeLook(event);
        break;
      case "try":
        this.#takeTry(event, event.made);
        break;
      case "step":
        this.#takeStep(event, event.made);
        break;
      case "setting": {
        const cards = revealedBy(event.change);
        if (cards) this.#add(event, { code: "revealed", cards });
        break;
      }
      case "chapter":
        this.#takeEdit(event);
        break;
      case "update":
      case "help":
      case "stepHelp":
      case "reason":
      case "stepReason":
      case "question":
      case "answer":
      case "join":
      case "leave":
      case "call":
      case "pointers":
      case "other":
        break;
      default:
        unreachable(event);
    }
  }

  /** The chapters of what was taken in so far, by time. */
  get chapters(): readonly Chapter[] {
    return this.#found
      .filter(({ id }) => !this.#edits.get(id)?.isRemoved)
      .map((chapter) => ({ ...chapter, title: this.#edits.get(chapter.id)?.title ?? chapter.title }))
      .sort((a, b) => a.sequence - b.sequence);
  }

  #takeSolved(event: ReplayEvent & { readonly kind: "solved" }): void {
    const names = event.wanted.join(" ");
    if (names === "" || names === this.#solved) return;
    this.#solved = names;
    this.#add(event, { code: "solved", wanted: event.wanted });
  }

  #takeLook(event: ReplayEvent & { readonly kind: "look" }): void {
    const card = tidyCard(event.card);
    if (card === TOTAL_CARD || this.#opened.has(card)) return;
    this.#opened.add(card);
    this.#add(event, { code: "opened", card, participant: event.participant });
  }

  #takeTry(event: ReplayEvent, { wanted, card, judgement }: ReplayTry): void {
    this.#takeJudged(event, { what: "value", wanted, card }, OUTCOMES[judgement.outcome]);
  }

  #takeStep(event: ReplayEvent, made: ReplayStep): void {
    const outcome = made.step === "zeroing" ? made.outcome : made.told.outcome;
    this.#takeJudged(event, { what: made.step, wanted: null, card: made.card }, OUTCOMES[outcome]);
  }

  #takeJudged(event: ReplayEvent, { what, wanted, card: asked }: Omit<Judged, "participant">, isRight?: boolean): void {
    const card = tidyCard(asked);
    const key = JSON.stringify([what, wanted, card]);
    const { sequence, participant } = event;
    const judged = { what, wanted, card, participant };
    const wrong = this.#wrong.get(key);
    if (isRight === false) {
      this.#wrong.set(key, sequence);
      this.#add(event, { code: "wrong", ...judged });
    } else if (isRight && wrong !== undefined) {
      this.#wrong.delete(key);
      this.#add(event, { code: "mended", ...judged, wrong });
    }
  }

  #takeEdit({ edit, time }: ReplayEvent & { readonly kind: "chapter" }): void {
    switch (edit.do) {
      case "add":
        if (this.#found.some(({ id }) => id === edit.id)) return;
        this.#found.push({ id: edit.id, sequence: edit.at, time, subject: { code: "added" }, title: edit.title });
        break;
      case "rename":
        this.#edits.set(edit.id, { title: edit.title, isRemoved: this.#edits.get(edit.id)?.isRemoved ?? false });
        break;
      case "remove":
        this.#edits.set(edit.id, { title: null, isRemoved: true });
        break;
      default:
        unreachable(edit);
    }
  }

  #add({ sequence, time }: ReplayEvent, subject: ChapterSubject): void {
    this.#found.push({ id: `${subject.code} ${sequence}`, sequence, time, subject, title: null });
  }
}

/** What is right or wrong of all that can be said to a value or a step; what is neither, such as what waits to be judged, is not here. */
const OUTCOMES: Readonly<Record<string, boolean>> = { right: true, true: true, wrong: false, false: false };

/** The cards whose answers a change shows, none for all of them; null where it shows none. */
function revealedBy({ do: what, card, shown, reveals }: SettingChange): readonly string[] | null {
  if (what === "setShown" && shown && card !== null) return [tidyCard(card)];
  if ((what === "setAnswers" || what === "showAllLines") && shown) return [];
  return what === "showLines" && reveals.length > 0 ? reveals : null;
}
