import { isSameCard, type TryPlace, withTry, writeTries } from "../../shared/messages";
import type { Report } from "../../shared/solve";
import type { EntryKind, StoredRoom } from "../history";
import type { Peer } from "../room/peer";
import { answerOf } from "./answerOf";
import type { HelpEvent } from "./keptHelp";
import { type KeptTry, triesFrom, withHelp } from "./keptTry";
import { type Listener, toldTry } from "./toldTry";

/** What the ledger needs of its room. */
export type LedgerRoom = {
  readonly peers: Iterable<Peer>;
  readonly isInstructor: (peer: Peer) => boolean;
  /** Puts a try, or what happens about one, into the history. */
  readonly record: (kind: EntryKind, participant: string, made: object, whenStored: () => void) => void;
};

/** A room's newest try of each card, with the help that was asked for: kept at once, and told once it is stored. */
export class TryLedger {
  readonly #room: LedgerRoom;
  #kept: readonly KeptTry[];
  /** The kept ones as far as they are stored. */
  #told: readonly KeptTry[];
  #report: Report | null | undefined;
  #lastTold = "";

  constructor(stored: StoredRoom, room: LedgerRoom) {
    this.#room = room;
    this.#kept = triesFrom(stored);
    this.#told = this.#kept;
  }

  get kept(): readonly KeptTry[] {
    return this.#kept;
  }

  /** The kept ones as far as they are stored, which is what everybody has been told. */
  get told(): readonly KeptTry[] {
    return this.#told;
  }

  /** Whether it is known that the board has nothing to compare with. */
  get hasNoAnswer(): boolean {
    return this.#report === null;
  }

  /** The newest try at a card. */
  at(place: TryPlace): KeptTry | undefined {
    return this.#kept.find((each) => isSameCard(each, place));
  }

  /** Takes in what happened, and stores it; once it is stored, everybody is told, and then `whenStored` called. */
  record(kind: EntryKind, participant: string, made: KeptTry | HelpEvent, whenStored: () => void): void {
    this.#kept = "did" in made ? withHelp(this.#kept, made) : withTry(this.#kept, made);
    const kept = this.#kept;
    this.#room.record(kind, participant, made, () => {
      this.#told = kept;
      this.#tellAll();
      whenStored();
    });
  }

  /** Compares the answers that the tries were judged by with newer ones, and tells where that makes a difference. */
  follow(report: Report | null): void {
    this.#report = report;
    this.#tellAll();
  }

  /** Gives peers the newest tries. A room where nobody has tried anything has none to give. */
  tell(peers: Iterable<Peer>): void {
    if (this.#told.length === 0) return;
    const whole = writeTries(this.#message("instructor"));
    const cut = writeTries(this.#message("other"));
    for (const peer of peers) if (peer.wantsAnswers) peer.offer(this.#room.isInstructor(peer) ? whole : cut);
  }

  /** Before the room has been solved since it was loaded, nobody knows of another answer. */
  isOutdated({ wanted, card, answer }: KeptTry): boolean {
    if (this.#report === undefined) return false;
    const now = answerOf(this.#report, wanted, card);
    return !now.ok || now.key !== answer;
  }

  #tellAll(): void {
    const message = JSON.stringify(this.#message("instructor"));
    if (message === this.#lastTold) return;
    this.#lastTold = message;
    this.tell(this.#room.peers);
  }

  #message(to: Listener) {
    const told = (made: KeptTry) => {
      const timeAt = (card: string) => this.#told.find((each) => isSameCard(each, { ...made, card }))?.time;
      return toldTry(made, { isOutdated: this.isOutdated(made), timeAt }, to);
    };
    return { about: "room", tries: this.#told.map(told) } as const;
  }
}
